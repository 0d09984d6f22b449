// Menu and search by keyboard, and the lists of the contents.
import {realButton} from "./real-button.js";

{
  const words = { __drawer: ["Menu", ".md-sidebar--primary"], __search: ["Search", ".md-search"] };
  for (const [id, [name, place]] of Object.entries(words)) {
    const label = document.querySelector(`label.md-header__button[for=${id}]`);
    const box = document.getElementById(id);
    if (!label || !box) continue;
    const button = realButton(label, name);
    button.classList.add(`${id.slice(2)}-button`);
    button.setAttribute("aria-expanded", "false");
    if (id === "__drawer") button.addEventListener("click", () => box.checked && focusDrawer());
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
  // The buttons beside the parts' names say what they open, and whether it is open.
  for (const label of document.querySelectorAll(".md-nav--primary label[tabindex='0']")) {
    const box = document.getElementById(label.htmlFor);
    const button = realButton(label, `Pages of ${label.textContent.trim() || label.previousElementSibling.textContent.trim()}`);
    const say = () => button.setAttribute("aria-expanded", String(box.checked));
    box.addEventListener("change", say);
    say();
  }

  function focusDrawer() {
    const links = document.querySelectorAll(".md-sidebar--primary a.md-nav__link");
    [...links].find((link) => link.getClientRects().length)?.focus({preventScroll: true}); // it is still sliding in
  }
}
