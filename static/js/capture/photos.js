// Takes photos the moment the camera closes: on the phone before anything else is asked.
import { preview } from "../photo_preview.js";
import { change, photosOf, recall } from "./store.js";
import { dropPhotos } from "./queue.js";
import { prepared } from "./shrink.js";

function roleChoice(photo) {
  const choice = document.querySelector("[data-photo-role]").content.querySelector("select").cloneNode(true);
  choice.removeAttribute("id");
  choice.setAttribute("aria-label", `What ${photo.name} shows`);
  choice.value = photo.role ?? choice.value;
  choice.addEventListener("change", () => {
    photo.role = choice.value;
    change(["photos"], (at) => at("photos").put(photo));
  });
  return choice;
}

export function photoTaker(form, { piece, begun, failed }) {
  const fields = [...form.querySelectorAll("input[type=file]")];
  const list = document.createElement("ul");
  list.className = "photo-previews";
  list.setAttribute("aria-label", "Photos of this piece");
  form.classList.add("is-previewed");
  fields.at(-1).closest(".field").after(list);
  let line = Promise.resolve();

  async function show() {
    const photos = await photosOf(piece());
    const shown = photos.map((photo) => {
      const file = new File([photo.bytes], photo.name, { type: photo.type });
      const item = preview(file, () => dropPhotos([photo.id]).then(show));
      item.insertBefore(roleChoice(photo), item.lastChild);
      return item;
    });
    list.replaceChildren(...shown);
    form.dataset.photoCount = photos.length;
  }

  async function take(file) {
    const photo = await prepared(file, await recall("originals"));
    await begun();
    const former = await photosOf(piece());
    if (former.some(({ sha256 }) => sha256 === photo.sha256)) return;
    const order = (former.at(-1)?.order ?? 0) + 1;
    await change(["photos"], (at) => at("photos").put({ ...photo, piece: piece(), order }));
  }

  // One after the other: a phone has memory for one large photo, not for ten.
  function takeAll(field) {
    const files = [...field.files];
    field.value = "";
    for (const file of files) line = line.then(() => take(file)).catch((problem) => failed(problem, file));
    line = line.then(show);
    return line;
  }

  for (const field of fields) {
    field.addEventListener("change", () => takeAll(field));
    // A quick hand may have chosen before this script came.
    if (field.files.length > 0) takeAll(field);
  }
  // A second shutter lies under the thumb, beside Save, wherever the page has been moved to.
  const shutter = form.querySelector("[data-shutter]");
  shutter.hidden = false;
  shutter.addEventListener("click", () => form.querySelector("[capture]").click());
  return { show, settled: () => line };
}
