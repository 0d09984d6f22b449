// Real buttons in place of the theme's header labels, so that the keyboard reaches menu and search.
{
  const words = { __drawer: ["Menu", ".md-sidebar--primary"], __search: ["Search", ".md-search"] };
  for (const [id, [name, place]] of Object.entries(words)) {
    const label = document.querySelector(`label.md-header__button[for=${id}]`);
    const box = document.getElementById(id);
    if (!label || !box) continue;
    const button = document.createElement("button");
    button.type = "button";
    button.className = `${label.className} ${id.slice(2)}-button`;
    button.setAttribute("aria-label", name);
    button.setAttribute("aria-expanded", "false");
    button.append(...label.childNodes);
    label.replaceWith(button);

    button.addEventListener("click", () => {
      box.click();
      if (id === "__drawer" && box.checked) focusDrawer();
    });
    box.addEventListener("change", () => button.setAttribute("aria-expanded", String(box.checked)));
    document.addEventListener("keydown", (event) => {
      if (event.key !== "Escape" || !box.checked) return;
      box.click();
      button.focus();
    });
    // What lies open over the page closes when the focus leaves it: what has focus is always in sight.
    const open = document.querySelector(place);
    document.addEventListener("focusin", ({target}) => {
      if (box.checked && target !== button && !open.contains(target)) box.click();
    });
  }

  addEventListener("hashchange", () => {
    const drawer = document.getElementById("__drawer");
    if (drawer.checked) drawer.click(); // a place on this page was chosen from the list
  });
  // The theme's list names are labels that take focus: here they say what they open, and whether it is open.
  for (const label of document.querySelectorAll(".md-nav--primary label[tabindex='0']")) {
    const box = document.getElementById(label.htmlFor);
    const say = () => label.setAttribute("aria-expanded", String(box.checked));
    label.setAttribute("role", "button");
    label.setAttribute("aria-label", `Pages of ${(label.textContent.trim() || label.previousElementSibling.textContent.trim())}`);
    box.addEventListener("change", say);
    say();
  }
  // The theme's own script, when it is there, must not hear the key too.
  document.addEventListener("keydown", (event) => {
    if (![" ", "Enter"].includes(event.key) || !(event.target instanceof HTMLLabelElement)) return;
    event.preventDefault();
    event.stopPropagation();
    event.target.click();
  });

  function focusDrawer() {
    const links = document.querySelectorAll(".md-sidebar--primary a.md-nav__link");
    [...links].find((link) => link.getClientRects().length)?.focus({preventScroll: true}); // it is still sliding in
  }
}
