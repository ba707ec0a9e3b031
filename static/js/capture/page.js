// Taking in with or without a signal: everything goes onto the phone first, and is sent from there.
import { meet } from "./drain.js";
import { adopt, draftKeeper, formerDraft, freshDraft, letGo } from "./draft.js";
import { clear, inWords, restore, showProblems, valuesOf } from "./form.js";
import { KEPT, fail, find, sayKept, useTheme, whatIsMissing } from "./hand.js";
import { photoTaker } from "./photos.js";
import { keepDraft, save } from "./queue.js";
import { offerChoices } from "./reference.js";
import { offerScan } from "./scan.js";
import { openKept } from "./section.js";
import { sendNow } from "./sending.js";
import { recall, remember } from "./store.js";
import { normalTag } from "./tags.js";

export default async function capture(form) {
  const { tag } = form.elements;
  let draft = await freshDraft();
  const keep = draftKeeper(() => ({ id: draft.id, values: valuesOf(form) }), fail);
  const begun = () => keepDraft(draft.id, valuesOf(form));
  const photos = photoTaker(form, { piece: () => draft.id, begun, failed: fail });

  async function show(next, asked = {}) {
    letGo(draft.id);
    draft = next;
    const kept = await recall("kept");
    clear(form);
    find("kept-words").parentElement.open = !kept;
    restore(form, { ...kept, ...draft.values, ...asked });
    showProblems(form, draft.problems ?? {});
    sayKept(form);
    await photos.show();
  }

  async function keepPiece() {
    await photos.settled();
    const values = { ...valuesOf(form), tag: normalTag(tag.value) };
    const count = Number(form.dataset.photoCount);
    const missing = whatIsMissing(values, count);
    if (missing) return showProblems(form, missing);
    await save(draft.id, values, inWords(form, values, count));
    await remember("kept", Object.fromEntries(KEPT.map((name) => [name, values[name]])));
    fail();
    await show(await freshDraft());
    find("capture-title").textContent = "Next piece";
    form.dataset.saved = Number(form.dataset.saved ?? 0) + 1;
    scrollTo({ top: 0 });
    navigator.storage?.persist?.();
    return sendNow();
  }

  async function mend(piece) {
    const adopted = await adopt(piece);
    if (adopted) await show(adopted);
    find("capture-title").textContent = "Mend this piece";
    scrollTo({ top: 0 });
  }

  form.addEventListener("submit", (event) => {
    event.preventDefault();
    keepPiece().catch(fail);
  });
  useTheme();
  meet();
  await offerChoices(form);
  const { unreached, ...asked } = Object.fromEntries(new URLSearchParams(location.search));
  if (unreached) find("unreached").hidden = false;
  await show((await formerDraft()) ?? draft, asked);
  form.addEventListener("input", keep);
  form.addEventListener("change", () => sayKept(form));
  offerScan(tag, (code) => ((tag.value = code), keep()), fail);
  await openKept({ kind: "piece", mend });
  form.querySelector("button.primary").disabled = false;
  form.dataset.ready = "";
}
