// Reads a tag with the camera in the page, on phones whose browser can find codes itself.
import { normalTag } from "./tags.js";

const PAUSE = 200;

async function findCode(video, detector, isOpen) {
  while (isOpen()) {
    const [found] = await detector.detect(video);
    if (found) return found.rawValue;
    await new Promise((resolve) => setTimeout(resolve, PAUSE));
  }
  return undefined;
}

function sheet() {
  const dialog = document.createElement("dialog");
  dialog.className = "scan-sheet";
  const video = Object.assign(document.createElement("video"), { muted: true, playsInline: true });
  const close = Object.assign(document.createElement("button"), { type: "button", className: "button" });
  close.textContent = "Close the camera";
  close.addEventListener("click", () => dialog.close());
  dialog.append(video, close);
  document.body.append(dialog);
  return { dialog, video };
}

async function read() {
  const stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment" } });
  const { dialog, video } = sheet();
  video.srcObject = stream;
  dialog.showModal();
  try {
    await video.play();
    return await findCode(video, new BarcodeDetector({ formats: ["qr_code"] }), () => dialog.open);
  } finally {
    stream.getTracks().forEach((track) => track.stop());
    dialog.remove();
  }
}

export function offerScan(input, found, failed) {
  if (!("BarcodeDetector" in window)) return;
  const button = Object.assign(document.createElement("button"), { type: "button", className: "button" });
  button.textContent = "Scan the tag";
  button.addEventListener("click", async () => {
    const code = await read().catch(() => failed("The camera cannot be used here: type the code."));
    if (code) found(normalTag(code));
  });
  input.after(button);
}
