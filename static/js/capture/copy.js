// Writes everything that waits into one file, for when a phone cannot send any more.
import { pieces } from "./queue.js";
import { photosOf } from "./store.js";

function asText(bytes) {
  return new Promise((resolve) => {
    const reader = new FileReader();
    reader.onload = () => resolve(reader.result);
    reader.readAsDataURL(new Blob([bytes]));
  });
}

async function withPhotos(piece) {
  const photos = await photosOf(piece.id);
  const told = photos.map(async ({ bytes, ...photo }) => ({ ...photo, file: await asText(bytes) }));
  return { ...piece, photos: await Promise.all(told) };
}

export async function saveCopy() {
  const kept = [];
  for (const piece of await pieces()) kept.push(await withPhotos(piece));
  const file = new Blob([JSON.stringify({ written_at: Date.now(), pieces: kept }, null, 1)], {
    type: "application/json",
  });
  const link = document.createElement("a");
  link.href = URL.createObjectURL(file);
  link.download = `kept-on-this-phone-${new Date().toISOString().slice(0, 10)}.json`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}
