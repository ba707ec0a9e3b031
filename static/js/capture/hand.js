// What the page says of the piece in hand: what stays from the last one, what is missing, what failed.
import { tagProblem } from "./tags.js";

export const KEPT = ["accession", "location"];
export const find = (name) => document.querySelector(`[data-${name}]`);

export function sayKept(form) {
  const chosen = KEPT.map((name) => form.elements[name]).filter(({ value }) => value);
  const words = chosen.map((select) => select.selectedOptions[0].text).join(", ");
  const asked = "Which donation, and where it lies";
  find("kept-words").textContent = words ? `From the last piece: ${words}` : asked;
}

export function whatIsMissing(values, photoCount) {
  const problem = tagProblem(values.tag);
  if (problem) return { tag: [problem] };
  const has = photoCount || `${values.description}${values.mark}`.trim();
  return has ? undefined : { "": ["Take one photo, or write one line of words."] };
}

export function fail(problem) {
  const full = problem?.name === "QuotaExceededError";
  const box = find("kept-problem");
  box.hidden = !problem;
  box.textContent = full
    ? "This phone is full: the last photo could not be kept. Make space, or send what waits first."
    : (problem?.message ?? problem ?? "");
  if (problem) box.scrollIntoView({ block: "center" });
}

// A page that nobody signed in to cannot know what its reader likes, so it looks itself.
export function useTheme() {
  const theme = document.cookie.match(/(?:^|; )theme=(dark|light)/)?.[1];
  if (theme) document.documentElement.dataset.theme = theme;
}
