// Checks a tag code on the phone, so that a slip is seen while the tag is still in the hand.
const ALPHABET = "23456789CFHJKMPQRVWX";
const STANDARD = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ*";
const LENGTH = 7;

export function normalTag(text) {
  const last = text.trim().replace(/\/+$/, "").split("/").pop();
  const plain = last.replace(/[\s\-\u2010-\u2015\u2212._]+/g, "").toUpperCase();
  return plain.length === LENGTH ? `${plain.slice(0, 3)}-${plain.slice(3)}` : plain;
}

// ISO 7064, pure system MOD 37-2: a good code leaves 1.
function remainder(characters) {
  return [...characters].reduce((sum, character) => (2 * sum + STANDARD.indexOf(character)) % 37, 0);
}

export function tagProblem(text) {
  const code = normalTag(text);
  const characters = code.replace("-", "");
  const strange = [...characters].find((character) => !ALPHABET.includes(character));
  if (!characters) return "";
  if (strange) return `“${strange}” is never printed on a tag; look at the tag again.`;
  if (characters.length !== LENGTH)
    return `A tag code has ${LENGTH} characters, such as K7Q-2M9V; this has ${characters.length}.`;
  if (remainder(characters) !== 1)
    return `One character of ${code} is wrong, or two have changed places; look at the tag again.`;
  return "";
}
