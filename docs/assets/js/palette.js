// Light or dark: the reader's choice, else the device's, stands on the body before the first paint.
{
  const PARTS = ["media", "scheme", "primary", "accent"];
  const inputs = [...document.querySelectorAll("input[name=__palette]")];
  const labels = inputs.map((input) => input.nextElementSibling);
  const dark = matchMedia("(prefers-color-scheme: dark)");
  const kept = () => [...inputs.keys()].find((index) => index === window.__md_get("__palette")?.index); // nothing but our own
  const ofDevice = () => inputs.findIndex((input) => matchMedia(input.dataset.mdColorMedia).matches);

  function put(index) {
    const input = inputs[index] ?? inputs[0];
    input.checked = true;
    for (const part of PARTS) document.body.setAttribute(`data-md-color-${part}`, input.getAttribute(`data-md-color-${part}`));
    const focused = labels.includes(document.activeElement);
    for (const label of labels) label.hidden = label !== input.nextElementSibling;
    if (focused) input.nextElementSibling.focus();
  }

  function choose(index) {
    put(index);
    const color = Object.fromEntries(PARTS.map((part) => [part, inputs[index].getAttribute(`data-md-color-${part}`)]));
    window.__md_set("__palette", {index, color}); // as the theme keeps it
  }

  // The theme's radio buttons take focus without a size; a label that changes to the other shade is a button to everybody.
  function buttons() {
    labels.forEach((label, index) => {
      label.tabIndex = 0;
      label.setAttribute("role", "button");
      label.setAttribute("aria-label", inputs[index].getAttribute("aria-label"));
      inputs[index].hidden = true;
    });
  }

  if (inputs.length) {
    buttons();
    put(kept() ?? ofDevice());
    inputs.forEach((input, index) => input.addEventListener("change", () => choose(index)));
    dark.addEventListener("change", () => kept() ?? put(ofDevice()));
  }
}
