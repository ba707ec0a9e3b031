// What the strip and the list of kept pieces say, in words.
export const piecesInWords = (count) => (count === 1 ? "1 piece" : `${count} pieces`);
export const counted = (kept, sent) => `${kept} kept on this phone, ${sent} sent.`;

const DAY = 24 * 60 * 60 * 1000;

export function ageInWords(written, now = Date.now()) {
  const age = now - written;
  if (age < DAY) return "";
  const day = new Date(written).toLocaleDateString("en-US", { weekday: "long", month: "long", day: "numeric" });
  const hurry = age > 5 * DAY ? " Send it soon: phones tidy away what lies about." : "";
  return ` The oldest waits since ${day}.${hurry}`;
}

function ofOthers(others) {
  const names = [...new Set(others.map(({ name }) => name ?? "somebody not signed in"))];
  return names.map((name) => {
    const count = others.filter((piece) => (piece.name ?? "somebody not signed in") === name).length;
    const asked = name.startsWith("somebody") ? "" : `ask ${name}, or `;
    return ` ${piecesInWords(count)} by ${name}: ${asked}send as yours below.`;
  });
}

export function stateInWords(state, { waiting, held, others }) {
  const words = [];
  if (held.length) words.push(` ${piecesInWords(held.length)} must be mended below.`);
  words.push(...ofOthers(others));
  if (waiting.length && state === "signed out") words.push(" Sign in again to send; nothing is lost.");
  if (waiting.length && state === "again") words.push(" No way to the catalog now; sent when there is one.");
  return words.join("").trim();
}

export function progressInWords({ left, words, photo, photos }) {
  if (photo) return `Sending ${words}, photo ${photo} of ${photos}.`;
  return left ? `Sending; ${piecesInWords(left)} to go.` : "";
}

export function problemsInWords(problems = {}) {
  return Object.values(problems).flat().join(" ") || "The catalog did not take it.";
}
