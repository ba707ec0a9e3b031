// Opens the list of what is kept, with the switch for originals and the way to copy it all.
import { saveCopy } from "./copy.js";
import { fail, find } from "./hand.js";
import { keptList } from "./kept.js";
import { recall, remember } from "./store.js";

export async function openKept(page) {
  find("kept-copy").addEventListener("click", () => saveCopy().catch(fail));
  const originals = find("kept-originals");
  originals.checked = Boolean(await recall("originals"));
  originals.addEventListener("change", () => remember("originals", originals.checked));
  await keptList(find("kept"), page);
}
