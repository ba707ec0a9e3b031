// One photo's line in the list of those that are sent: its name, how far it is, what became of it.
export function photoLine(file, again) {
  const element = document.createElement("li");
  const name = document.createElement("span");
  name.textContent = file.name;
  const bar = document.createElement("progress");
  bar.max = 1;
  bar.value = 0;
  bar.setAttribute("aria-label", file.name);
  const words = document.createElement("span");
  element.append(name, bar, words);

  function progress(share) {
    bar.value = share;
    // Sent is not kept yet: the server still looks at the photo and makes its smaller copies.
    words.textContent = share < 1 ? "being sent" : "being looked at";
    return share;
  }

  function answer({ problem, words: said, url, mayTryAgain }) {
    bar.hidden = true;
    element.toggleAttribute("data-refused", Boolean(problem));
    words.textContent = problem ?? "";
    if (problem && mayTryAgain) words.append(" ", button());
    if (!problem) words.append(link(said, url));
  }

  function button() {
    const made = document.createElement("button");
    made.type = "button";
    made.className = "button";
    made.textContent = "Send it again";
    made.addEventListener("click", () => {
      words.textContent = "waiting";
      bar.hidden = false;
      again();
    });
    return made;
  }

  function link(said, url) {
    const made = document.createElement("a");
    made.href = url;
    made.textContent = said;
    return made;
  }

  return { element, progress, answer };
}
