// Closes an open menu as people expect: by Escape, or by turning to something else.
export default function menu(details) {
  const summary = details.querySelector("summary");

  details.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || !details.open) return;
    details.open = false;
    summary.focus();
  });

  document.addEventListener("pointerdown", (event) => {
    if (!details.contains(event.target)) details.open = false;
  });

  details.addEventListener("focusout", (event) => {
    if (event.relatedTarget && !details.contains(event.relatedTarget)) details.open = false;
  });
}
