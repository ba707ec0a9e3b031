// Reads a length back in both systems while it is typed, as finely as its instrument allows.
import { echo } from "./echo.js";

export default function lengthEcho(input) {
  const fields = input.form?.elements ?? {};
  const unit = fields[input.dataset.unitField ?? "unit"];
  const instrument = fields[input.name.replace(/length$/, "instrument")];
  const isNamed = instrument instanceof HTMLSelectElement;
  const parameters = () => ({
    unit: unit?.value ?? input.dataset.unit ?? "",
    instrument: isNamed ? instrument.value : "",
  });
  const again = echo(input, input.dataset.lengthEcho || "/echo/length/", parameters);
  if (unit instanceof Element) unit.addEventListener("change", again);
  if (isNamed) instrument.addEventListener("change", again);
}
