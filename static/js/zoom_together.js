// Zooms and moves all pictures of a comparison together, by buttons and by drag.
const MOST = 8;
const STEP = 1.5;

const ACTS = [
  ["Larger", { zoom: STEP }],
  ["Smaller", { zoom: 1 / STEP }],
  ["Move left", { across: 0.15 }],
  ["Move right", { across: -0.15 }],
  ["Move up", { down: 0.15 }],
  ["Move down", { down: -0.15 }],
  ["Show whole", { whole: true }],
];

const held = (least, value, most) => Math.min(most, Math.max(least, value));

export default function zoomTogether(board) {
  const pictures = [...board.querySelectorAll(".zoom-frame img")];
  const view = { zoom: 1, x: 0, y: 0 };
  const told = document.createElement("output");

  function show() {
    view.x = held(1 - view.zoom, view.x, 0);
    view.y = held(1 - view.zoom, view.y, 0);
    for (const picture of pictures) {
      // The policy forbids inline styles in the page, not what a script sets on an element.
      picture.style.transform = `translate(${100 * view.x}%, ${100 * view.y}%) scale(${view.zoom})`;
    }
    told.textContent = `${view.zoom.toFixed(1)} times`;
  }

  function zoom(by, x = 0.5, y = 0.5) {
    const next = held(1, view.zoom * by, MOST);
    view.x = x - ((x - view.x) * next) / view.zoom;
    view.y = y - ((y - view.y) * next) / view.zoom;
    view.zoom = next;
  }

  function act({ zoom: by, across = 0, down = 0, whole }) {
    if (whole) Object.assign(view, { zoom: 1, x: 0, y: 0 });
    else if (by) zoom(by);
    view.x += across;
    view.y += down;
    show();
  }

  const bar = document.createElement("div");
  bar.className = "cluster";
  bar.setAttribute("role", "group");
  bar.setAttribute("aria-label", "Zoom all pictures together");
  for (const [words, what] of ACTS) {
    const button = Object.assign(document.createElement("button"), { type: "button" });
    button.className = "button";
    button.textContent = words;
    button.addEventListener("click", () => act(what));
    bar.append(button);
  }
  bar.append(told);
  board.prepend(bar);
  board.classList.add("zooming");

  board.addEventListener("pointermove", (event) => {
    const frame = event.target.closest(".zoom-frame");
    if (!frame || event.buttons !== 1) return;
    act({ across: event.movementX / frame.clientWidth, down: event.movementY / frame.clientHeight });
  });
  board.addEventListener("dragstart", (event) => event.preventDefault());
  show();
}
