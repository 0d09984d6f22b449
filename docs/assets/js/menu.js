// Real buttons in place of the theme's header labels, so that the keyboard reaches menu and search.
{
  const words = { __drawer: "Menu", __search: "Search" };
  for (const [id, name] of Object.entries(words)) {
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
      if (id === "__drawer" && box.checked) setTimeout(focusDrawer, 300); // after the drawer has slid in
    });
    box.addEventListener("change", () => button.setAttribute("aria-expanded", String(box.checked)));
    document.addEventListener("keydown", (event) => {
      if (event.key !== "Escape" || !box.checked) return;
      box.click();
      button.focus();
    });
  }

  addEventListener("hashchange", () => {
    const drawer = document.getElementById("__drawer");
    if (drawer.checked) drawer.click(); // a place on this page was chosen from the list
  });
  // The theme's list names are labels that take focus. Its own script, when it is there, must not hear the key too.
  document.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" || !(event.target instanceof HTMLLabelElement)) return;
    event.stopPropagation();
    event.target.click();
  });

  function focusDrawer() {
    const links = document.querySelectorAll(".md-sidebar--primary a.md-nav__link");
    const seen = [...links].find((link) => link.getClientRects().length && link.getBoundingClientRect().left >= 0);
    if (seen) seen.focus();
  }
}
