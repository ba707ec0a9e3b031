// Brings in only the behaviors that the page in hand asks for by its data attributes.
// Keeping things on a phone needs HTTPS; without it the pages work as plain forms.
const canKeep = isSecureContext && "serviceWorker" in navigator && "locks" in navigator;

const behaviors = [
  ["[data-theme-switch]", () => import("./theme.js")],
  ["[data-menu]", () => import("./menu.js")],
  ["[data-length-echo]", () => import("./length_echo.js")],
  ["[data-date-echo]", () => import("./date_echo.js")],
  ["[data-choice-search]", () => import("./choice_search.js")],
  ["[data-photo-preview]", () => import("./photo_preview.js")],
  ["[data-forget]", () => import("./forget.js")],
  ["[data-capture]", () => (canKeep ? import("./capture/page.js") : import("./photo_preview.js"))],
  ["[data-carry]", () => import("./capture/carry.js")],
  ...(canKeep ? [["[data-queue]", () => import("./capture/strip.js")]] : []),
  ["[data-watch]", () => import("./watch.js")],
  ["[data-scan]", () => import("./scan_into.js")],
  ["[data-point-at]", () => import("./point_at.js")],
  ["[data-zoom-together]", () => import("./zoom_together.js")],
  ["[data-keys]", () => import("./keys.js")],
  ["[data-later]", () => import("./later.js")],
  [".errorlist", () => import("./first_fault.js")],
  ["[data-choose-several]", () => import("./choose_several.js")],
  ["[data-photo-drop]", () => import("./photo_drop.js")],
];

const attached = new Map(behaviors.map(([selector]) => [selector, new WeakSet()]));

async function attachOne(root, [selector, load]) {
  const known = attached.get(selector);
  const elements = [...root.querySelectorAll(selector)].filter((element) => !known.has(element));
  if (elements.length === 0) return;
  for (const element of elements) known.add(element);
  const { default: behave } = await load();
  for (const element of elements) behave(element);
}

// All at once, since with a weak signal each answer is long in coming.
const attach = (root) => behaviors.forEach((behavior) => attachOne(root, behavior));

attach(document);
document.addEventListener("htmx:load", (event) => attach(event.target.parentElement ?? document));
