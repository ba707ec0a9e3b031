// Sends what waits, in order, one sender at a time however many pages are open.
import { askSession, putPhoto, putPiece } from "./answers.js";
import { dropPhotos, finish, hold, recorded, waiting } from "./queue.js";
import { photosOf, remember, tell } from "./store.js";

const TRIES = 3;

export const drain = () =>
  navigator.locks.request("sending", { ifAvailable: true }, (lock) => (lock ? sendAll() : "busy"));

// Learns who is signed in, since what is written down from now on is theirs.
export async function meet() {
  const session = await askSession();
  if (session.state === "in") await remember("member", { user: session.user, name: session.name });
  return session;
}

async function sendAll() {
  let session = await meet();
  const tried = new Map();
  while (session.state === "in") {
    const piece = await next(session, tried);
    if (!piece) return "done";
    tried.set(piece.id, (tried.get(piece.id) ?? 0) + 1);
    const outcome = await sendPiece(piece, session);
    if (outcome === "taken" || outcome === "held") tried.set(piece.id, TRIES);
    else if (outcome === "unreached" || tried.get(piece.id) === TRIES) return "again";
    // The sign-in or its token may have changed under way, so it is asked for afresh.
    if (outcome !== "taken") session = await meet();
  }
  return session.state;
}

async function next({ user }, tried) {
  const own = (await waiting()).filter((piece) => piece.user === user);
  tell({ sending: { left: own.length } });
  return own.find(({ id }) => (tried.get(id) ?? 0) < TRIES);
}

async function sendPiece(piece, session) {
  const photos = await photosOf(piece.id);
  const answer = await putPiece(piece, photos.length, session);
  if (answer.verdict !== "taken") return settle(piece, answer);
  await recorded(piece.id);
  const arrived = photos.filter(({ id, sha256 }) => answer.told.photos?.[id] === sha256);
  await dropPhotos(arrived.map(({ id }) => id));
  const missing = photos.filter((photo) => !arrived.includes(photo));
  for (const [index, photo] of missing.entries()) {
    tell({ sending: { words: piece.words, photo: index + 1, photos: missing.length } });
    const answer = await putPhoto(photo, session);
    if (answer.verdict !== "taken") return settle(piece, answer, photo.id);
    await dropPhotos([photo.id]);
  }
  await finish(piece, answer.told);
  return "taken";
}

async function settle(piece, { verdict, status, told }, photo) {
  if (verdict === "held") await hold(piece.id, told?.problems ?? {}, photo);
  return verdict === "again" && (status === 0 || status === 429 || status >= 500) ? "unreached" : verdict;
}
