// Zooms and moves all pictures of a comparison together, by buttons, by keys and by hand.
import { byHand } from "./zoom_by_hand.js";

const MOST = 8;
const STEP = 1.5;
const SHIFT = 0.15;

const ACTS = [
  ["+", "Larger", ["+", "="], { zoom: STEP }],
  ["−", "Smaller", ["-"], { zoom: 1 / STEP }],
  ["←", "Look left", ["ArrowLeft"], { across: SHIFT }],
  ["→", "Look right", ["ArrowRight"], { across: -SHIFT }],
  ["↑", "Look up", ["ArrowUp"], { down: SHIFT }],
  ["↓", "Look down", ["ArrowDown"], { down: -SHIFT }],
  ["Whole", "Whole pictures", ["0"], { whole: true }],
];

const held = (least, value, most) => Math.min(most, Math.max(least, value));

export default function zoomTogether(board) {
  const pictures = [...board.querySelectorAll(".zoom-frame > *")];
  const view = { zoom: 1, x: 0, y: 0 };
  const told = document.createElement("output");

  function show() {
    view.x = held(1 - view.zoom, view.x, 0);
    view.y = held(1 - view.zoom, view.y, 0);
    for (const picture of pictures) {
      // The policy forbids inline styles in the page, not what a script sets on an element.
      picture.style.transform = `translate(${100 * view.x}%, ${100 * view.y}%) scale(${view.zoom})`;
    }
    board.toggleAttribute("data-zoomed", view.zoom > 1);
    told.textContent = `${view.zoom.toFixed(1)} times`;
  }

  // The point under the fingers, in fractions of the frame, stays where it is.
  function act({ zoom = 1, at = [0.5, 0.5], across = 0, down = 0, whole }) {
    if (whole) Object.assign(view, { zoom: 1, x: 0, y: 0 });
    const next = held(1, view.zoom * zoom, MOST);
    view.x = across + at[0] - ((at[0] - view.x) * next) / view.zoom;
    view.y = down + at[1] - ((at[1] - view.y) * next) / view.zoom;
    view.zoom = next;
    show();
  }

  const bar = document.createElement("div");
  bar.className = "zoom-bar";
  bar.setAttribute("role", "group");
  bar.setAttribute("aria-label", "Zoom all pictures together");
  for (const [sign, words, keys, what] of ACTS) {
    const button = Object.assign(document.createElement("button"), { type: "button" });
    button.className = "button";
    button.textContent = sign;
    button.setAttribute("aria-label", words);
    button.setAttribute("aria-keyshortcuts", keys[0].replace("+", "Plus"));
    button.addEventListener("click", () => act(what));
    bar.append(button);
  }
  bar.append(told);
  (board.querySelector("[data-zoom-bar]") ?? board).append(bar);
  board.classList.add("zooming");

  board.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    // Until something is zoomed the arrows scroll the page as ever.
    if (event.key.startsWith("Arrow") && view.zoom === 1) return;
    const found = ACTS.find(([, , keys]) => keys.includes(event.key));
    if (!found) return;
    event.preventDefault();
    act(found[3]);
  });
  byHand(board, act);
  show();
}
