// Lets one key press the button, follow the link or enter the field that names it in data-key.
const KEPT = "single-keys";
const FIELDS = "input, select, textarea";

// A long list is entered through the search above it.
const entry = (field) => document.getElementById(`${field.id}_search`) ?? field;

function press(target) {
  if (target.matches(FIELDS)) entry(target).focus();
  else target.click();
}

export default function keys(panel) {
  const box = panel.querySelector("input");
  panel.hidden = false;
  // Whoever speaks to the computer, or rests a hand on the keyboard, can turn the keys off.
  box.checked = localStorage.getItem(KEPT) !== "off";
  box.addEventListener("change", () => localStorage.setItem(KEPT, box.checked ? "on" : "off"));

  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && event.target.matches(FIELDS)) return event.target.blur();
    if (!box.checked || event.ctrlKey || event.metaKey || event.altKey || event.repeat) return;
    if (event.target.matches(FIELDS) && event.target !== box) return;
    const target = document.querySelector(`[data-key~="${CSS.escape(event.key)}"]`);
    if (!target) return;
    event.preventDefault();
    press(target);
  });
}
