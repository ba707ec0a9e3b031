// Chooses all rows of a list at once, and says on the button how many are chosen.
export default function chooseSeveral(form) {
  const boxes = [...form.querySelectorAll('input[type="checkbox"][name="part"]')];
  const act = form.querySelector(".actions .button");
  const words = act.textContent;
  const all = Object.assign(document.createElement("button"), { type: "button" });
  all.className = "button";

  const chosen = () => boxes.filter((box) => box.checked).length;

  function show() {
    const isAll = chosen() === boxes.length;
    all.textContent = isAll ? "Choose none" : `Choose all ${boxes.length} on this page`;
    act.textContent = chosen() ? words.replace("those", chosen()) : words;
  }

  all.addEventListener("click", () => {
    const isAll = chosen() === boxes.length;
    for (const box of boxes) box.checked = !isAll;
    show();
  });
  form.addEventListener("change", show);
  // Whoever comes back finds the boxes as they were left.
  addEventListener("pageshow", show);
  form.prepend(all);
  show();
}
