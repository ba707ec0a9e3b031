// Asks the catalog, and believes an answer only when it echoes what was sent.
const MINUTE = 60_000;

export async function ask(address, options = {}, patience = MINUTE / 2) {
  try {
    const answer = await fetch(address, {
      cache: "no-store",
      redirect: "error",
      signal: AbortSignal.timeout(patience),
      ...options,
    });
    return { status: answer.status, told: await answer.json() };
  } catch {
    // No signal, a server that is away, or a portal that answers everything with its own page.
    return { status: 0, told: {} };
  }
}

function verdict({ status, told }, echoes) {
  if (status === 401) return "signed out";
  if ((status === 200 || status === 201) && told && echoes(told)) return "taken";
  const helps = status < 400 || status >= 500 || status === 429 || status === 408 || told?.again;
  return helps ? "again" : "held";
}

async function put(address, body, { csrf }, headers, echoes, patience) {
  const options = { method: "PUT", body, headers: { "X-CSRFToken": csrf, ...headers } };
  const answer = await ask(address, options, patience);
  return { ...answer, verdict: verdict(answer, echoes) };
}

export async function askSession() {
  const { status, told } = await ask("/sync/session/");
  if (status === 200 && told?.csrf) return { state: "in", ...told };
  return { state: status === 401 || status === 403 ? "signed out" : "again" };
}

export function putPiece(piece, photoCount, session) {
  const { id, user, written_at, values, kind } = piece;
  const address = `/sync/${kind === "move" ? "moves" : "parts"}/${id}/`;
  const told = { ...values, user, written_at, photo_count: photoCount, sent_at: Date.now() };
  const headers = { "Content-Type": "application/json" };
  const echoes = (answer) => answer.id === id;
  return put(address, JSON.stringify(told), session, headers, echoes);
}

export function putPhoto(photo, session) {
  const { id, piece, bytes, sha256, name, role = "", taken_at } = photo;
  const told = { name, role, written_at: taken_at, sent_at: Date.now() };
  const address = `/sync/parts/${piece}/photos/${id}/?${new URLSearchParams(told)}`;
  const headers = { "Content-Type": "application/octet-stream", "X-Content-SHA256": sha256 };
  const echoes = (answer) => answer.id === id && answer.sha256 === sha256;
  return put(address, bytes, session, headers, echoes, 10 * MINUTE);
}
