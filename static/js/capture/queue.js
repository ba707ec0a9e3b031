// What was taken in and waits: each piece a draft, waiting, or held with the reason.
import { all, change, read, recall } from "./store.js";

const HALF_A_DAY = 12 * 60 * 60 * 1000;

export async function pieces() {
  const found = await all("pieces");
  return found.sort((one, other) => (one.order ?? Infinity) - (other.order ?? Infinity));
}

export const waiting = async () => (await pieces()).filter(({ state }) => state === "waiting");

// Changes a piece as it is in the store; what is gone or has moved on since stays as it is.
function revise(id, states, values) {
  return change(["pieces"], (at) => {
    const found = at("pieces").get(id);
    found.onsuccess = () => {
      const piece = found.result;
      if (piece && states.includes(piece.state)) at("pieces").put({ ...piece, ...values });
    };
  });
}

export function keepDraft(id, values, kind = "piece") {
  return change(["pieces"], (at) => {
    const found = at("pieces").get(id);
    found.onsuccess = () => {
      const piece = found.result ?? { id, kind, state: "draft", written_at: Date.now() };
      if (piece.state === "draft") at("pieces").put({ ...piece, values });
    };
  });
}

export async function save(id, values, words, kind) {
  await keepDraft(id, values, kind);
  const last = Math.max(0, ...(await pieces()).map(({ order }) => order ?? 0));
  const { order = last + 1 } = await read("pieces", id);
  const member = await recall("member");
  await revise(id, ["draft"], { state: "waiting", written_at: Date.now(), words, order, ...member });
}

export const hold = (id, problems, photo = null) =>
  revise(id, ["waiting"], { state: "held", problems, photo });
export const recorded = (id) => revise(id, ["waiting"], { recorded: true });
export const again = (id) => revise(id, ["held"], { state: "waiting", problems: {}, photo: null });
export const reopen = (id) => revise(id, ["waiting", "held"], { state: "draft" });

export const claim = ({ user, name }) =>
  change(["pieces"], (at) => {
    const found = at("pieces").getAll();
    found.onsuccess = () =>
      found.result
        .filter((piece) => piece.user !== user && !piece.recorded)
        .forEach((piece) => at("pieces").put({ ...piece, user, name }));
  });

export const dropPhotos = (ids) =>
  change(["photos"], (at) => ids.forEach((id) => at("photos").delete(id)));

export const leaveOut = (id) =>
  change(["pieces", "photos"], (at) => {
    at("pieces").delete(id);
    const found = at("photos").index("piece").getAllKeys(id);
    found.onsuccess = () => found.result.forEach((key) => at("photos").delete(key));
  });

export const finish = ({ id, words }, { label, address }) =>
  change(["pieces", "sent"], (at) => {
    at("pieces").delete(id);
    at("sent").put({ id, label, address, words, at: Date.now() });
  });

export async function sentLately() {
  const sent = await all("sent");
  return sent.filter(({ at }) => Date.now() - at < HALF_A_DAY);
}
