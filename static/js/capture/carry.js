// Moving parts without a signal: scan where they go, scan them, done; it is sent later.
import { meet } from "./drain.js";
import { adopt, draftKeeper, formerDraft, freshDraft, letGo } from "./draft.js";
import { clear, restore, showProblems, valuesOf } from "./form.js";
import { fail, useTheme } from "./hand.js";
import { save } from "./queue.js";
import { offerChoices } from "./reference.js";
import { openKept } from "./section.js";
import { sendNow } from "./sending.js";
import { piecesInWords } from "./words.js";

function whatIsMissing({ scanned, location, pieces }) {
  if (!scanned.trim() && !location) return { scanned: ["Say where they go: scan its tag, or choose it."] };
  return pieces.trim() ? undefined : { pieces: ["Scan or type at least one part."] };
}

export default async function carry(form) {
  const { location: place } = form.elements;
  let draft = await freshDraft("move");
  const keep = draftKeeper(() => ({ id: draft.id, values: valuesOf(form), kind: "move" }), fail);

  async function show(next, asked = {}) {
    letGo(draft.id);
    draft = next;
    clear(form);
    restore(form, { ...draft.values, ...asked });
    showProblems(form, draft.problems ?? {});
  }

  async function keepMove() {
    const values = valuesOf(form);
    const missing = whatIsMissing(values);
    if (missing) return showProblems(form, missing);
    const lines = values.pieces.split("\n").filter((line) => line.trim());
    const to = values.scanned || place.selectedOptions[0].text;
    await save(draft.id, values, `${piecesInWords(lines.length)} to ${to}`, "move");
    fail();
    await show(await freshDraft("move"));
    form.dataset.saved = Number(form.dataset.saved ?? 0) + 1;
    return sendNow();
  }

  form.addEventListener("submit", (event) => {
    event.preventDefault();
    keepMove().catch(fail);
  });
  useTheme();
  meet();
  await offerChoices(form);
  await show((await formerDraft("move")) ?? draft);
  form.addEventListener("input", keep);
  const mend = async (piece) => (await adopt(piece)) && show(piece);
  await openKept({ kind: "move", mend });
  form.querySelector("button.primary").disabled = false;
  form.dataset.ready = "";
}
