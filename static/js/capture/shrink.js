// Makes photos small enough for a weak signal, yet large enough to read a cast mark.
const LONGEST = 2560;
const QUALITY = 0.85;

async function decoded(file) {
  try {
    return await createImageBitmap(file, { imageOrientation: "from-image" });
  } catch {
    // Not every browser reads HEIC; the catalog does, so the original is sent.
    return undefined;
  }
}

async function smaller(bitmap, scale) {
  const canvas = new OffscreenCanvas(bitmap.width * scale, bitmap.height * scale);
  canvas.getContext("2d").drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  return canvas.convertToBlob({ type: "image/jpeg", quality: QUALITY });
}

async function toBeSent(file, keepOriginal) {
  if (keepOriginal) return file;
  const bitmap = await decoded(file);
  if (!bitmap) return file;
  const scale = LONGEST / Math.max(bitmap.width, bitmap.height);
  const sent = scale < 1 ? await smaller(bitmap, scale) : file;
  bitmap.close();
  return sent;
}

async function digest(bytes) {
  const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return [...hash].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

// Bytes rather than blobs are kept: blobs have gone bad in the stores of some browsers.
export async function prepared(file, keepOriginal) {
  const sent = await toBeSent(file, keepOriginal);
  const bytes = await sent.arrayBuffer();
  return {
    id: crypto.randomUUID(),
    name: file.name,
    type: sent.type,
    taken_at: file.lastModified,
    bytes,
    sha256: await digest(bytes),
  };
}
