// Posts one form with a file and tells how far it is, which fetch cannot.
export function sendFile(address, data, onProgress) {
  return new Promise((resolve) => {
    const request = new XMLHttpRequest();
    request.open("POST", address);
    request.responseType = "json";
    request.upload.addEventListener("progress", ({ loaded, total }) => onProgress(loaded / total));
    request.addEventListener("loadend", () => resolve(answerOf(request)));
    request.send(data);
  });
}

function answerOf({ status, response }) {
  const told = response && (status === 200 || status === 422);
  return told ? response : { problem: problemOf(status), mayTryAgain: status !== 413 };
}

function problemOf(status) {
  if (status === 0) return "No connection; it was not sent.";
  if (status === 413) return "It is too large for this server.";
  // The sign-in page comes in place of an answer.
  if (status === 200 || status === 403) return "Sign in again in another tab first.";
  return `The server could not take it (${status}).`;
}

// A photo that is sent again carries the same mark, so that it is recorded once. The browser's
// own maker of such marks is missing where the site is reached without HTTPS.
export function newMark() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6] & 0x0f) | 0x40;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}
