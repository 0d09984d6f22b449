// Puts the reader's choice of light or dark on the body before the first paint.
{
  const kept = window.__md_get("__palette");
  if (kept && kept.color) {
    const color = kept.color;
    if (color.media === "(prefers-color-scheme)") {
      const wanted = matchMedia("(prefers-color-scheme: light)").matches ? "light" : "dark";
      const input = document.querySelector(`[data-md-color-media="(prefers-color-scheme: ${wanted})"]`);
      for (const name of input ? ["media", "scheme", "primary", "accent"] : []) {
        color[name] = input.getAttribute("data-md-color-" + name);
      }
    }
    for (const [name, value] of Object.entries(color)) document.body.setAttribute("data-md-color-" + name, value);
  }
}
