// Reads what stands in the form, puts it back, and shows beside each field what is wrong.
const SEVERAL = ["hazards"];
const controls = (form) =>
  [...form.elements].filter(({ name, type }) => name && !["file", "hidden"].includes(type));

export function valuesOf(form) {
  const names = new Set(controls(form).map(({ name }) => name));
  const data = new FormData(form);
  const value = (name) => (SEVERAL.includes(name) ? data.getAll(name) : (data.get(name) ?? ""));
  return Object.fromEntries([...names].map((name) => [name, value(name)]));
}

export function restore(form, values) {
  for (const control of controls(form)) {
    if (!(control.name in values)) continue;
    const value = values[control.name];
    if (control.type === "checkbox") control.checked = value.includes(control.value);
    else control.value = value;
    const details = control.closest("details:not(:has([data-kept-words]))");
    if (details && isTold(control, value)) details.open = true;
  }
}

// A fresh form has values of its own, such as one piece, which say nothing.
function isTold(control, value) {
  if (control.type === "checkbox") return control.checked;
  return value !== "" && value !== control.defaultValue && !control.options?.[0].selected;
}

export function clear(form) {
  form.reset();
  clearProblems(form);
  for (const details of form.querySelectorAll("details")) details.open = false;
  for (const select of form.querySelectorAll("select")) select.dispatchEvent(new Event("all-choices"));
}

function clearProblems(form) {
  form.querySelectorAll("[data-problem-of]").forEach((problem) => problem.remove());
  for (const control of controls(form)) control.removeAttribute("aria-invalid");
}

export function showProblems(form, problems) {
  clearProblems(form);
  for (const [name, words] of Object.entries(problems)) {
    const control = controls(form).find((one) => one.name === name);
    const problem = document.createElement("p");
    problem.dataset.problemOf = name;
    problem.textContent = words.join(" ");
    problem.className = control ? "field-problem" : "form-problem";
    problem.setAttribute("role", "alert");
    if (!control) {
      form.prepend(problem);
      continue;
    }
    control.setAttribute("aria-invalid", "true");
    control.closest("details")?.setAttribute("open", "");
    control.closest(".field").append(problem);
  }
  form.querySelector("[aria-invalid], .form-problem")?.scrollIntoView({ block: "center" });
}

export function inWords(form, values, photoCount) {
  const component = form.elements.component;
  const chosen = values.component && component.selectedOptions[0]?.text;
  const photos = photoCount === 1 ? "1 photo" : `${photoCount} photos`;
  return [values.tag, values.description || chosen || values.mark, photoCount ? photos : ""]
    .filter(Boolean)
    .join(", ");
}
