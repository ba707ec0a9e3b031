// Turns a drag, a pinch, a double click and a wheel with Ctrl on a picture into zooms and moves.
const frameOf = (event) => event.target.closest?.(".zoom-frame");

function placed(event, frame) {
  const box = frame.getBoundingClientRect();
  return [(event.clientX - box.left) / box.width, (event.clientY - box.top) / box.height];
}

const apart = ([x1, y1], [x2, y2]) => Math.max(0.01, Math.hypot(x1 - x2, y1 - y2));

export function byHand(board, act) {
  const fingers = new Map();

  board.addEventListener("pointerdown", (event) => {
    const frame = frameOf(event);
    if (!frame || (event.pointerType === "mouse" && event.button !== 0)) return;
    // What comes from two fingers on two pictures is measured on the first of them.
    const first = fingers.values().next().value?.frame ?? frame;
    fingers.set(event.pointerId, { frame: first, at: placed(event, first) });
    frame.setPointerCapture(event.pointerId);
  });

  board.addEventListener("pointermove", (event) => {
    const finger = fingers.get(event.pointerId);
    if (!finger) return;
    const [former, now] = [finger.at, placed(event, finger.frame)];
    finger.at = now;
    const other = [...fingers.values()].find((one) => one !== finger);
    if (!other) return act({ across: now[0] - former[0], down: now[1] - former[1] });
    const middle = [0, 1].map((axis) => (now[axis] + other.at[axis]) / 2);
    const moved = [0, 1].map((axis) => (now[axis] - former[axis]) / 2);
    const zoom = apart(now, other.at) / apart(former, other.at);
    act({ zoom, at: middle, across: moved[0], down: moved[1] });
  });

  for (const end of ["pointerup", "pointercancel"]) {
    board.addEventListener(end, (event) => fingers.delete(event.pointerId));
  }

  // Two fingers are for the pictures, not for scrolling the page.
  const keep = (event) => event.touches.length > 1 && frameOf(event) && event.preventDefault();
  board.addEventListener("touchmove", keep, { passive: false });

  const turned = (event) => {
    const frame = frameOf(event);
    if (!frame || !event.ctrlKey) return;
    event.preventDefault();
    act({ zoom: Math.exp(-event.deltaY / 200), at: placed(event, frame) });
  };
  board.addEventListener("wheel", turned, { passive: false });

  board.addEventListener("dblclick", (event) => {
    const frame = frameOf(event);
    if (frame) act({ zoom: 2, at: placed(event, frame) });
  });
  board.addEventListener("dragstart", (event) => event.preventDefault());
}
