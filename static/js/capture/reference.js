// The lists to choose from, as the phone last had them; renewed whenever there is a signal.
import { recall, remember } from "./store.js";

function option({ id, label, words }) {
  const made = new Option(label, id);
  if (words) made.dataset.aliases = words;
  return made;
}

function fill(select, rows) {
  const chosen = select.value;
  const empty = [...select.options].find(({ value }) => value === "");
  select.replaceChildren(...(empty ? [empty] : []), ...rows.map(option));
  select.value = chosen;
  if (select.selectedIndex < 0) select.selectedIndex = 0;
  select.dispatchEvent(new Event("choices"));
}

function fillMeasured(form, components) {
  const list = form.querySelector("#measured-names");
  const chosen = components.find(({ id }) => `${id}` === form.elements.component.value);
  const names = chosen?.measured.length ? chosen.measured : components.flatMap(({ measured }) => measured);
  list.replaceChildren(...[...new Set(names)].sort().map((name) => new Option("", name)));
}

function use(form, lists) {
  for (const name of ["component", "vehicle_class", "accession", "location"]) {
    if (form.elements[name]) fill(form.elements[name], lists[name]);
  }
  if (form.elements.component) fillMeasured(form, lists.component);
}

async function renew() {
  const kept = await recall("reference");
  const headers = kept ? { "If-None-Match": kept.etag } : {};
  const signal = AbortSignal.timeout(10_000);
  const options = { cache: "no-store", redirect: "error", headers, signal };
  const answer = await fetch("/sync/reference/", options);
  if (answer.status !== 200) return undefined;
  const lists = await answer.json();
  if (!lists.component) return undefined;
  await remember("reference", { etag: answer.headers.get("ETag"), lists });
  return lists;
}

export const lastSent = async () => (await recall("reference"))?.lists.last ?? [];

const isBlank = ({ elements }) =>
  [elements.component, elements.location].every((select) => !select || select.options.length < 2);

export async function offerChoices(form) {
  const kept = await recall("reference");
  if (kept) use(form, kept.lists);
  form.elements.component?.addEventListener("change", async () => {
    fillMeasured(form, (await recall("reference"))?.lists.component ?? []);
  });
  // Without a signal, or behind a portal, the lists of last time serve.
  const renewed = renew()
    .then((lists) => {
      if (lists) use(form, lists);
      form.dataset.listed = "";
    })
    .catch(() => undefined);
  // A page fresh from the catalog has its lists, and nobody waits for them a second time.
  if (!kept && isBlank(form)) await renewed;
}
