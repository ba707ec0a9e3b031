// The strip that says, on every page for members, what is kept on this phone and what was sent.
import { pieces, sentLately } from "./queue.js";
import { keepSending, sendNow } from "./sending.js";
import { listen, recall } from "./store.js";
import { ageInWords, counted, progressInWords, stateInWords } from "./words.js";

export async function overview() {
  const member = await recall("member");
  const kept = (await pieces()).filter(({ state }) => state !== "draft");
  const own = kept.filter(({ user }) => user === member?.user);
  return {
    kept,
    member,
    others: kept.filter((piece) => !own.includes(piece)),
    waiting: own.filter(({ state }) => state === "waiting"),
    held: own.filter(({ state }) => state === "held"),
    sent: (await sentLately()).length,
  };
}

export default function strip(section) {
  const part = (name) => section.querySelector(`[data-queue-${name}]`);
  const isCapturing = Boolean(document.querySelector("[data-capture], [data-carry]"));
  let state = "";
  let progress = "";

  async function show() {
    const found = await overview();
    const count = found.kept.length;
    section.hidden = count === 0 && !isCapturing;
    const oldest = Math.min(...found.kept.map(({ written_at }) => written_at));
    part("count").textContent = counted(count, found.sent);
    part("state").textContent = progress || stateInWords(state, found) + (count ? ageInWords(oldest) : "");
    part("send").hidden = found.waiting.length === 0 || Boolean(progress);
    part("sign-in").hidden = state !== "signed out" || count === 0;
  }

  listen((news) => {
    if (news.state) [state, progress] = [news.state, ""];
    if (news.sending) progress = progressInWords(news.sending);
    show();
  });
  part("send").addEventListener("click", sendNow);
  navigator.serviceWorker.register("/sw.js");
  show();
  keepSending();
}
