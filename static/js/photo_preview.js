// Gathers photos from every file field of a form, shows them, and lets each be left out again.
export function preview(file, leaveOut) {
  const figure = document.createElement("li");
  const image = document.createElement("img");
  image.alt = file.name;
  image.src = URL.createObjectURL(file);
  image.addEventListener("load", () => URL.revokeObjectURL(image.src), { once: true });
  // Not every browser shows HEIC; the server reads it all the same.
  image.addEventListener("error", () => image.replaceWith(file.name), { once: true });
  const button = document.createElement("button");
  button.type = "button";
  button.className = "button";
  button.textContent = "Leave out";
  button.setAttribute("aria-label", `Leave out ${file.name}`);
  button.addEventListener("click", leaveOut);
  figure.append(image, button);
  return figure;
}

export default function photoPreview(form) {
  const fields = [...form.querySelectorAll("input[type=file]")];
  const keeper = fields.at(-1);
  form.classList.add("is-previewed");
  const list = document.createElement("ul");
  list.className = "photo-previews";
  list.setAttribute("aria-label", "Photos to be saved");
  keeper.closest(".field").after(list);
  let files = [];

  function keep(chosen) {
    files = chosen;
    const transfer = new DataTransfer();
    for (const file of files) transfer.items.add(file);
    keeper.files = transfer.files;
    list.replaceChildren(
      ...files.map((file) => preview(file, () => keep(files.filter((other) => other !== file)))),
    );
    form.dispatchEvent(new CustomEvent("photos-kept", { detail: files.length }));
  }

  function take(field) {
    const taken = [...field.files];
    // The camera gives one photo at a time, so each is added to those before.
    if (field !== keeper) field.value = "";
    keep([...files, ...taken]);
  }

  for (const field of fields) {
    field.addEventListener("change", () => take(field));
    // A quick hand, or a browser going back, may have chosen before this script came.
    if (field.files.length > 0) take(field);
  }
}
