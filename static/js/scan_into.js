// Fills a field by scanning: one code into a line, many into a list, one a line.
import { offerScan } from "./capture/scan.js";

export default function scanInto(field) {
  const problem = document.createElement("p");
  problem.className = "field-problem";
  problem.setAttribute("role", "alert");

  function take(code) {
    const before = field.value.trimEnd();
    field.value = field.matches("textarea") && before ? `${before}\n${code}` : code;
    problem.remove();
    field.dispatchEvent(new Event("input", { bubbles: true }));
  }

  offerScan(field, take, (words) => {
    problem.textContent = words;
    field.closest(".field").append(problem);
  });
}
