// Reads a date back in plain words while it is typed.
import { echo } from "./echo.js";

export default function dateEcho(input) {
  echo(input, input.dataset.dateEcho || "/echo/date/", () => ({}));
}
