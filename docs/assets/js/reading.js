// Two helps for reading: what is wider than its box can be scrolled by keyboard, and nothing stays folded on paper.
{
  const WIDE = "Scrolls sideways";
  // Measuring what the browser has put off would make it lay that out now.
  const shown = (box) => box.checkVisibility?.({contentVisibilityAuto: true}) ?? true;
  const reach = () => {
    for (const box of document.querySelectorAll(".math, pre > code")) {
      if (!shown(box)) continue;
      if (box.scrollWidth > box.clientWidth + 1) {
        box.tabIndex = 0;
        box.setAttribute("role", "group");
        box.setAttribute("aria-label", WIDE);
      } else if (box.getAttribute("aria-label") === WIDE) {
        for (const name of ["tabindex", "role", "aria-label"]) box.removeAttribute(name);
      }
    }
  };
  const content = document.querySelector(".md-content");
  if (content) {
    new ResizeObserver(reach).observe(content);
    content.addEventListener("contentvisibilityautostatechange", reach);
    // New steps may be as tall as those before them.
    const renewed = new MutationObserver(() => requestAnimationFrame(reach));
    for (const steps of content.querySelectorAll("[data-slot=steps]")) renewed.observe(steps, {childList: true});
  }

  let opened = [];
  addEventListener("beforeprint", () => {
    opened = [...document.querySelectorAll(".md-content details:not([open])")];
    for (const one of opened) one.open = true;
  });
  addEventListener("afterprint", () => {
    for (const one of opened) one.open = false;
    opened = [];
  });
}
