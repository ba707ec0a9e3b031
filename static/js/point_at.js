// Turns a tap on a photo into the two numbers of the form that points at a spot.
const percent = (part, whole) => Math.min(100, Math.max(0, (100 * part) / whole)).toFixed(1);

function marker(plate) {
  const drawing = plate.querySelector("svg");
  const ring = document.createElementNS(drawing.namespaceURI, "circle");
  ring.setAttribute("class", "pointed-new");
  ring.setAttribute("r", "14");
  drawing.append(ring);
  return ring;
}

// What is to be said of the spot next; a choice that stands already keeps the picture in view.
const firstEmpty = (form) =>
  [...form.elements].find(({ type, value }) => type === "text" && !value);

export default function pointAt(plate) {
  const form = document.getElementById(plate.dataset.pointAt);
  const { across, down } = form.elements;
  let ring;

  function show() {
    if (!across.value || !down.value) return;
    ring ??= marker(plate);
    ring.setAttribute("cx", `${across.value}%`);
    ring.setAttribute("cy", `${down.value}%`);
  }

  plate.addEventListener("click", (event) => {
    const frame = plate.getBoundingClientRect();
    across.value = percent(event.clientX - frame.left, frame.width);
    down.value = percent(event.clientY - frame.top, frame.height);
    show();
    firstEmpty(form)?.focus();
  });
  for (const field of [across, down]) field.addEventListener("input", show);
  show();
}
