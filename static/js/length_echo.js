// Reads a length back in both systems while it is typed; a reading with the ± that its tool, the
// allowance and a better knowledge of the uncertainty give it.
import { echo } from "./echo.js";

const BESIDE = { instrument: "instrument", allowance: "allowance_mm", uncertainty: "uncertainty_mm" };

function fieldsBeside(input) {
  const fields = input.form?.elements ?? {};
  const found = {};
  for (const [parameter, name] of Object.entries(BESIDE)) {
    const field = fields[input.name.replace(/(length|measurement)$/, name)];
    if (field instanceof Element && field !== input) found[parameter] = field;
  }
  return found;
}

export default function lengthEcho(input) {
  const unit = input.form?.elements[input.dataset.unitField ?? "unit"];
  const beside = "reading" in input.dataset ? fieldsBeside(input) : {};
  const parameters = () => ({
    unit: unit?.value ?? input.dataset.unit ?? "",
    ...("plain" in input.dataset ? { plain: "" } : {}),
    ...("signed" in input.dataset ? { signed: "" } : {}),
    ...Object.fromEntries(Object.entries(beside).map(([name, { value }]) => [name, value])),
  });
  const again = echo(input, input.dataset.lengthEcho || "/echo/length/", parameters);
  if (unit instanceof Element) unit.addEventListener("change", again);
  for (const field of Object.values(beside)) field.addEventListener("input", again);
}
