// Reads tags with the camera in the page, on phones whose browser can find codes itself.
import { normalTag } from "./tags.js";

const PAUSE = 200;

async function* codes(video, detector, isOpen) {
  while (isOpen()) {
    for (const { rawValue } of await detector.detect(video)) yield normalTag(rawValue);
    await new Promise((resolve) => setTimeout(resolve, PAUSE));
  }
}

function sheet() {
  const dialog = document.createElement("dialog");
  dialog.className = "scan-sheet";
  const video = Object.assign(document.createElement("video"), { muted: true, playsInline: true });
  const words = Object.assign(document.createElement("p"), { role: "status" });
  const close = Object.assign(document.createElement("button"), { type: "button", className: "button" });
  close.textContent = "Close the camera";
  close.addEventListener("click", () => dialog.close());
  dialog.append(video, words, close);
  document.body.append(dialog);
  return { dialog, video, words };
}

// A tag stays before the camera for a while, so each counts once until the camera is closed.
async function read(found, isList) {
  const stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment" } });
  const { dialog, video, words } = sheet();
  const seen = new Set();
  video.srcObject = stream;
  dialog.showModal();
  try {
    await video.play();
    const detector = new BarcodeDetector({ formats: ["qr_code"] });
    for await (const code of codes(video, detector, () => dialog.open)) {
      if (seen.has(code)) continue;
      seen.add(code);
      found(code);
      navigator.vibrate?.(60);
      if (!isList) break;
      words.textContent = `${seen.size} scanned, ${code} last.`;
    }
  } finally {
    stream.getTracks().forEach((track) => track.stop());
    dialog.remove();
  }
}

export function offerScan(input, found, failed) {
  if (!("BarcodeDetector" in window)) return;
  const isList = input.matches("textarea");
  const button = Object.assign(document.createElement("button"), { type: "button", className: "button" });
  button.textContent = isList ? "Scan one after the other" : "Scan the tag";
  button.addEventListener("click", () => {
    read(found, isList).catch(() => failed("The camera cannot be used here: type the code."));
  });
  input.after(button);
}
