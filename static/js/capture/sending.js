// Tries to send whenever there may be a way: on opening, on coming back, and again and again.
import { drain } from "./drain.js";
import { waiting } from "./queue.js";
import { tell } from "./store.js";

const FIRST = 5_000;
const LAST = 60_000;
let pause = FIRST;
let timer;

async function attempt() {
  clearTimeout(timer);
  if ((await waiting()).length === 0) return;
  const state = await drain();
  tell({ state });
  pause = state === "done" ? FIRST : Math.min(2 * pause, LAST);
  if (state === "done" || state === "signed out") return;
  // Twenty phones that lost the same server must not all come back at the same moment.
  timer = setTimeout(attempt, pause * (0.75 + Math.random() / 2));
}

export function sendNow() {
  pause = FIRST;
  return attempt();
}

export function keepSending() {
  addEventListener("online", sendNow);
  addEventListener("pageshow", sendNow);
  document.addEventListener("visibilitychange", () => document.hidden || sendNow());
  sendNow();
}
