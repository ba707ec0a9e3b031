// The piece in hand: on the phone with every letter typed, and back after the page has died.
import { keepDraft, pieces } from "./queue.js";

const releases = new Map();

// A draft belongs to one page at a time, so that two open pages never write over each other.
function own(id) {
  return new Promise((resolve) => {
    navigator.locks.request(`draft ${id}`, { ifAvailable: true }, (lock) => {
      resolve(Boolean(lock));
      return lock && new Promise((release) => releases.set(id, release));
    });
  });
}

export function letGo(id) {
  releases.get(id)?.();
  releases.delete(id);
}

export async function freshDraft() {
  const draft = { id: crypto.randomUUID(), values: {} };
  await own(draft.id);
  return draft;
}

export async function drafts() {
  return (await pieces()).filter(({ state }) => state === "draft");
}

export async function adopt(draft) {
  return (await own(draft.id)) ? draft : undefined;
}

export async function formerDraft() {
  for (const draft of (await drafts()).reverse()) {
    if (await adopt(draft)) return draft;
  }
  return undefined;
}

// Letters come faster than a disk writes, but the last state is always written.
export function draftKeeper(read, failed) {
  let running;
  let isStale = false;
  return function keep() {
    isStale = true;
    running ??= (async () => {
      while (isStale) {
        isStale = false;
        const { id, values } = read();
        await keepDraft(id, values).catch(failed);
      }
      running = undefined;
    })();
    return running;
  };
}
