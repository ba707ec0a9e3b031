// Puts a search field above a long select; aliases in data-aliases count as well as the label.
const plain = (text) => text.toLowerCase().normalize("NFD").replace(/\p{M}/gu, "");

function searchField(select) {
  const field = document.createElement("input");
  field.type = "search";
  field.id = `${select.id}_search`;
  field.autocomplete = "off";
  field.placeholder = "Type a few letters";
  const label = select.labels?.[0]?.textContent.trim() ?? "choices";
  field.setAttribute("aria-label", `Search: ${label}`);
  return field;
}

export default function choiceSearch(select) {
  let choices;
  const field = searchField(select);
  const count = document.createElement("output");
  count.className = "echo";
  count.htmlFor = field.id;

  function read() {
    choices = [...select.options].map((option) => ({
      option,
      words: plain(`${option.text} ${option.dataset.aliases ?? ""}`),
    }));
  }

  function filter() {
    const total = choices.filter(({ option }) => option.value !== "").length;
    const wanted = plain(field.value).split(/\s+/).filter(Boolean);
    const found = choices.filter(
      ({ option, words }) => option.value !== "" && wanted.every((word) => words.includes(word)),
    );
    // Asked of the list, since options that were taken out of it may say that they are chosen.
    const chosen = [...select.selectedOptions];
    const kept = choices.filter(
      (choice) =>
        found.includes(choice) || chosen.includes(choice.option) || choice.option.value === "",
    );
    select.replaceChildren(...kept.map(({ option }) => option));
    // While options are taken out and put in again, each is chosen for a moment, and the last stays so.
    for (const option of chosen) option.selected = true;
    count.textContent = wanted.length ? `${found.length} of ${total} choices` : "";
  }

  read();
  field.addEventListener("input", filter);
  // A page that works without a signal gets its choices later, and puts former ones back.
  select.addEventListener("choices", () => {
    read();
    filter();
  });
  select.addEventListener("all-choices", () => {
    field.value = "";
    filter();
  });
  // Enter goes on to what was found, where the arrows choose.
  field.addEventListener("keydown", (event) => {
    if (event.key !== "Enter") return;
    event.preventDefault();
    select.focus();
  });
  select.before(field);
  select.after(count);
}
