// Reads a length back in both systems while it is typed.
import { echo } from "./echo.js";

export default function lengthEcho(input) {
  const unit = input.form?.elements[input.dataset.unitField ?? "unit"];
  const parameters = () => ({ unit: unit?.value ?? input.dataset.unit ?? "" });
  const again = echo(input, input.dataset.lengthEcho || "/echo/length/", parameters);
  if (unit instanceof Element) unit.addEventListener("change", again);
}
