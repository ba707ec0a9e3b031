// The phone's own store: what it holds is on disk before anybody is told that it is kept.
const NAME = "catalog";
const VERSION = 1;
let opened;

function upgrade(db, before) {
  // Each version adds to the one before, so that what waits from an older page is found again.
  if (before < 1) {
    db.createObjectStore("things");
    db.createObjectStore("pieces", { keyPath: "id" });
    db.createObjectStore("photos", { keyPath: "id" }).createIndex("piece", "piece");
    db.createObjectStore("sent", { keyPath: "id" });
  }
}

function open() {
  opened ??= new Promise((resolve, reject) => {
    const request = indexedDB.open(NAME, VERSION);
    request.onupgradeneeded = (event) => upgrade(request.result, event.oldVersion);
    request.onerror = () => reject(request.error);
    request.onsuccess = () => {
      const db = request.result;
      // A newer page wants to change the store: let it, and come back as that newer page.
      db.onversionchange = () => {
        db.close();
        location.reload();
      };
      db.onclose = () => (opened = undefined);
      resolve(db);
    };
  });
  return opened;
}

async function run(stores, mode, act) {
  const db = await open();
  return new Promise((resolve, reject) => {
    const transaction = db.transaction(stores, mode, { durability: "strict" });
    const request = act((name) => transaction.objectStore(name));
    transaction.oncomplete = () => resolve(request?.result);
    transaction.onabort = () => reject(transaction.error);
  });
}

export const read = (store, key) => run([store], "readonly", (at) => at(store).get(key));
export const all = (store) => run([store], "readonly", (at) => at(store).getAll());

export const photosOf = async (piece) => {
  const found = await run(["photos"], "readonly", (at) => at("photos").index("piece").getAll(piece));
  return found.sort((one, other) => one.order - other.order);
};

const channel = new BroadcastChannel("queue");
export const tell = (news) => channel.postMessage(news);

// A channel of its own hears this page's news as well as that of other pages.
export function listen(hear) {
  new BroadcastChannel("queue").addEventListener("message", ({ data }) => hear(data));
}

export async function change(stores, act) {
  const result = await run(stores, "readwrite", act);
  tell({ changed: stores });
  return result;
}

export const remember = (key, value) => change(["things"], (at) => at("things").put(value, key));
export const recall = (key) => read("things", key);
