// Shows how the server reads what is being typed, on a line below the field.
const PAUSE = 250;

function lineBelow(input) {
  const line = document.createElement("output");
  line.className = "echo";
  line.htmlFor = input.id;
  input.after(line);
  return line;
}

export function echo(input, address, parameters) {
  const line = lineBelow(input);
  let timer;
  let request;

  async function ask() {
    request?.abort();
    if (!input.value.trim()) return show("");
    const mine = (request = new AbortController());
    const query = new URLSearchParams({ text: input.value, ...parameters() });
    try {
      const answer = await fetch(`${address}?${query}`, { signal: mine.signal });
      if (!answer.ok) return show("");
      const { reading, problem } = await answer.json();
      show(problem || reading || "", Boolean(problem));
    } catch {
      // Without a signal the field still works; the reading comes when the form is sent.
      if (!mine.signal.aborted) show("");
    }
  }

  function show(words, isProblem = false) {
    line.textContent = words;
    line.toggleAttribute("data-problem", isProblem);
  }

  function later() {
    clearTimeout(timer);
    timer = setTimeout(ask, PAUSE);
  }

  input.addEventListener("input", later);
  if (input.value) later();
  return later;
}
