// After a refusal, leads to the first field that is wrong, with what is wrong about it in sight.
let isFound = false;

export default function firstFault(list) {
  if (isFound) return;
  isFound = true;
  const place = list.closest(".field") ?? list;
  const field = place.querySelector('[aria-invalid="true"], input:not([type="hidden"]), select');
  // A list of faults is no field: it can be led to, but not be reached by the Tab key.
  if (!field) list.tabIndex = -1;
  (field ?? list).focus({ preventScroll: true });
  place.scrollIntoView({ block: "center" });
}
