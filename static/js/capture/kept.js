// Lists what is kept on this phone: what waits, what must be mended and why, whose it is.
import { again, claim, dropPhotos, leaveOut, reopen } from "./queue.js";
import { lastSent } from "./reference.js";
import { sendNow } from "./sending.js";
import { all, listen } from "./store.js";
import { overview } from "./strip.js";
import { problemsInWords } from "./words.js";

function button(words, act) {
  const made = Object.assign(document.createElement("button"), { type: "button", className: "button" });
  made.textContent = words;
  made.addEventListener("click", act);
  return made;
}

function line(words, ...buttons) {
  const item = document.createElement("li");
  const text = document.createElement("p");
  text.textContent = words;
  item.append(text, ...buttons);
  return item;
}

// A piece is taken back only between two sendings, or it might be sent half mended.
const undisturbed = (act) => navigator.locks.request("sending", act);

function ofAnother(piece, member) {
  const name = piece.name ?? "somebody not signed in";
  if (piece.recorded) return line(`${piece.words}, by ${name}, who must sign in to finish it.`);
  const mine = button(`Send as mine (${member?.name})`, () => claim(member).then(sendNow));
  return line(`${piece.words}, by ${name}.`, ...(member ? [mine] : []));
}

const PAGES = { piece: "/take-in/", move: "/move/phone/" };

function ownLine(piece, { kind, mend }) {
  // A draft is taken up by the page for its kind, which may be another one than this.
  const goOn = () => (piece.kind === kind ? mend(piece) : location.assign(PAGES[piece.kind]));
  const mending = button("Mend", () => undisturbed(() => reopen(piece.id).then(goOn)));
  if (piece.state === "waiting") return line(`${piece.words}, waits.`, ...(piece.recorded ? [] : [mending]));
  const words = `${piece.words}, not taken: ${problemsInWords(piece.problems)}`;
  const more = button("Try again", () => again(piece.id).then(sendNow));
  const without = button("Send without this photo", () =>
    dropPhotos([piece.photo]).then(() => again(piece.id)).then(sendNow));
  const out = button("Leave out for good", () => {
    // What is left out is gone, so a slip of the glove must not do it.
    if ("asked" in out.dataset) leaveOut(piece.id);
    out.dataset.asked = "";
    out.textContent = "Press again: it is gone then";
  });
  const [first, last] = piece.recorded ? [[], []] : [[mending], [out]];
  return line(words, ...first, ...(piece.photo ? [without] : []), more, ...last);
}

async function lastLines() {
  const here = (await all("sent")).sort((one, other) => other.at - one.at);
  const elsewhere = (await lastSent()).filter(({ id }) => here.every((sent) => sent.id !== id));
  return [...here, ...elsewhere].slice(0, 20).map(({ label, words, address }) => {
    const item = document.createElement("li");
    const link = Object.assign(document.createElement("a"), { href: address, textContent: label });
    item.append(link, ` ${words ?? ""}`);
    return item;
  });
}

export function keptList(section, page) {
  async function show() {
    const { kept, others, member } = await overview();
    section.hidden = false;
    const lines = kept.map((piece) =>
      others.includes(piece) ? ofAnother(piece, member) : ownLine(piece, page));
    section.querySelector("[data-kept-pieces]").replaceChildren(...lines);
    section.querySelector("[data-kept-last]").replaceChildren(...(await lastLines()));
  }
  listen(({ changed = [] }) => changed.some((store) => store !== "photos") && show());
  return show();
}
