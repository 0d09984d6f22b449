// Look up: a short list of titles, calculators and trade words, filtered as the reader types. Works from the kept copy
// of the site, needs no library, and without this script the form just leads to the Look up page.
{
  const MOST = 8;
  const form = document.getElementById("look-up");
  const input = form && form.querySelector("input");
  if (input) start();

  function start() {
    const list = document.createElement("ul");
    list.className = "hits";
    list.id = "look-up-hits";
    list.setAttribute("role", "listbox");
    list.setAttribute("aria-label", "Found");
    list.hidden = true;
    const said = document.createElement("p");
    said.className = "hint";
    said.setAttribute("role", "status");
    form.append(list, said);
    for (const [name, value] of Object.entries({
      role: "combobox", "aria-expanded": "false", "aria-controls": list.id, "aria-autocomplete": "list",
    })) input.setAttribute(name, value);

    let entries = null, wanted = null, chosen = -1;
    const load = () => {
      wanted ||= fetch(new URL("assets/look-up.json", window.__md_scope))
        .then((answer) => (answer.ok ? answer.json() : Promise.reject(new Error(answer.status))))
        .then((rows) => { entries = rows.map(prepare); });
      return wanted;
    };
    const show = () => {
      const words = fold(input.value).split(/\s+/).filter(Boolean);
      const typed = words.join("").length >= 2;
      const hits = typed && entries ? find(entries, words) : [];
      chosen = -1;
      input.removeAttribute("aria-activedescendant");
      list.replaceChildren(...hits.map(option));
      list.hidden = !hits.length;
      input.setAttribute("aria-expanded", String(hits.length > 0));
      said.textContent = !typed || hits.length ? "" : entries
        ? "Nothing by that name. Try a part, a unit or what you hear."
        : "The list could not be read. Find leads to the Look up page.";
    };
    const mark = (to) => {
      const options = [...list.children];
      if (!options.length) return;
      chosen = (to + options.length) % options.length;
      options.forEach((one, i) => one.setAttribute("aria-selected", String(i === chosen)));
      input.setAttribute("aria-activedescendant", options[chosen].id);
      options[chosen].scrollIntoView({ block: "nearest" });
    };

    input.addEventListener("focus", () => load().catch(() => {}), { once: true });
    input.addEventListener("input", () => load().catch(() => {}).then(show));
    input.addEventListener("keydown", (event) => {
      if (event.key === "ArrowDown") mark(chosen + 1);
      else if (event.key === "ArrowUp") mark(chosen < 0 ? -1 : chosen - 1);
      else if (event.key === "Escape" && !list.hidden) { list.hidden = true; input.setAttribute("aria-expanded", "false"); }
      else return;
      event.preventDefault();
    });
    list.addEventListener("click", (event) => {
      const hit = event.target.closest("[data-to]");
      if (hit) location.href = hit.dataset.to;
    });
    form.addEventListener("submit", (event) => {
      event.preventDefault(); // the policy of the page lets no form be sent
      load().catch(() => {}).then(() => {
        if (list.hidden) show();
        const hit = list.children[Math.max(chosen, 0)];
        location.href = hit ? hit.dataset.to : form.dataset.page;
      });
    });
    const asked = new URLSearchParams(location.search).get("q");
    if (asked) { input.value = asked; load().catch(() => {}).then(show); }
  }

  // "3" and 3-inch marks, accents and capitals must not come between a reader and a page.
  function fold(text) {
    return text.normalize("NFKD").replace(/[\u0300-\u036f]/g, "").toLowerCase().replace(/[^a-z0-9./-]+/g, " ").trim();
  }

  function prepare(row) {
    return { row, title: fold(row.t), all: fold(`${row.t} ${row.w || ""}`) };
  }

  // Every word has to begin a word of the entry. Title before trade word; a title that begins with it comes first.
  function find(entries, words) {
    const starts = (text, word) => text.startsWith(word) || text.includes(" " + word);
    const rank = (one) => (one.title.startsWith(words[0]) ? 0 : words.every((w) => starts(one.title, w)) ? 1 : 2);
    return entries
      .filter((one) => words.every((word) => starts(one.all, word)))
      .map((one, place) => ({ one, place, rank: rank(one) }))
      .sort((a, b) => a.rank - b.rank || a.place - b.place)
      .slice(0, MOST)
      .map((hit) => hit.one.row);
  }

  function option(row, i) {
    const item = document.createElement("li");
    item.id = `look-up-hit-${i}`;
    item.setAttribute("role", "option");
    item.setAttribute("aria-selected", "false");
    item.dataset.to = new URL(row.u, window.__md_scope).href;
    item.textContent = row.t;
    return item;
  }
}
