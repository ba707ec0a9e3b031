// Brings in only the behaviors that the page in hand asks for by its data attributes.
const behaviors = [
  ["[data-theme-switch]", () => import("./theme.js")],
  ["[data-menu]", () => import("./menu.js")],
  ["[data-length-echo]", () => import("./length_echo.js")],
  ["[data-date-echo]", () => import("./date_echo.js")],
  ["[data-choice-search]", () => import("./choice_search.js")],
  ["[data-photo-preview]", () => import("./photo_preview.js")],
  ["[data-point-at]", () => import("./point_at.js")],
];

async function attach(root) {
  for (const [selector, load] of behaviors) {
    const elements = [...root.querySelectorAll(selector)].filter((element) => !element.attached);
    if (elements.length === 0) continue;
    const { default: behave } = await load();
    for (const element of elements) {
      element.attached = true;
      behave(element);
    }
  }
}

attach(document);
document.addEventListener("htmx:load", (event) => attach(event.target.parentElement ?? document));
