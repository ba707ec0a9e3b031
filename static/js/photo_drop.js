// Sends photos as they are dropped or chosen, one a request, each with its own line and progress.
import { photoLine } from "./photo_line.js";
import { newMark, sendFile } from "./send_file.js";

const MOST = 100;

export default function photoDrop(form) {
  const field = form.querySelector("input[type=file]");
  const board = document.createElement("section");
  board.className = "photo-drop";
  board.innerHTML = `<p>Or drop up to ${MOST} photos anywhere on this page. Each is sent at once.</p>
    <progress value="0" max="1" aria-label="All photos" hidden></progress>
    <output></output><ol aria-label="Photos sent"></ol>`;
  form.classList.add("is-dropping");
  field.closest(".field").after(board);
  const [total, words, list] = ["progress", "output", "ol"].map((name) => board.querySelector(name));
  const waiting = [];
  const count = { all: 0, sent: 0, refused: 0 };
  let isSending = false;

  function tell(share = 0) {
    const done = count.sent + count.refused;
    total.hidden = count.all === 0;
    total.value = count.all ? (done + share) / count.all : 0;
    words.textContent = `${count.sent} of ${count.all} sent${count.refused ? `, ${count.refused} not` : ""}`;
  }

  function take(files) {
    const photos = [...files].slice(0, MOST);
    // What is chosen in the form now holds for these photos, whatever is chosen later.
    const group = { fields: [...new FormData(form)], part: "" };
    for (const file of photos) {
      const line = photoLine(file, () => again(entry));
      const entry = { file, group, line, mark: newMark() };
      list.append(line.element);
      waiting.push(entry);
    }
    count.all += photos.length;
    tell();
    total.scrollIntoView({ block: "center" });
    if (files.length > MOST) alert(`Only the first ${MOST} of these ${files.length} photos are sent.`);
    work();
  }

  function again(entry) {
    count.refused -= 1;
    waiting.push(entry);
    work();
  }

  async function work() {
    tell();
    if (isSending) return;
    isSending = true;
    while (waiting.length) await send(waiting.shift());
    isSending = false;
  }

  async function send({ file, group, line, mark }) {
    const data = new FormData();
    for (const [name, value] of group.fields) if (name !== field.name) data.append(name, value);
    data.append("photos", file);
    data.append("capture_id", mark);
    data.append("part", group.part);
    const answer = await sendFile(form.dataset.photoDrop, data, (share) => tell(line.progress(share)));
    if (data.get("together") === "1") group.part ||= answer.part ?? "";
    count[answer.problem ? "refused" : "sent"] += 1;
    line.answer(answer);
    tell();
  }

  field.addEventListener("change", () => (take(field.files), (field.value = "")));
  document.addEventListener("dragover", (event) => event.preventDefault());
  document.addEventListener("drop", (event) => (event.preventDefault(), take(event.dataTransfer.files)));
  addEventListener("beforeunload", (event) => isSending && event.preventDefault());
}
