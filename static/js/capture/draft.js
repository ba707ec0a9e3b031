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

export async function freshDraft(kind = "piece") {
  const draft = { id: crypto.randomUUID(), kind, values: {} };
  await own(draft.id);
  return draft;
}

export async function adopt(draft) {
  return (await own(draft.id)) ? draft : undefined;
}

export async function formerDraft(kind = "piece") {
  const drafts = (await pieces()).filter((one) => one.state === "draft" && one.kind === kind);
  for (const draft of drafts.reverse()) {
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
        const { id, values, kind } = read();
        await keepDraft(id, values, kind).catch(failed);
      }
      running = undefined;
    })();
    return running;
  };
}
