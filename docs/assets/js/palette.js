// Light or dark: the reader's choice, else the device's, stands on the body before the first paint.
import {realButton} from "./real-button.js";

{
  const PARTS = ["media", "scheme", "primary", "accent"];
  const inputs = [...document.querySelectorAll("input[name=__palette]")];
  // The theme's radio buttons take focus without a size: the button beside each changes to the next shade.
  const buttons = inputs.map((input) => realButton(input.nextElementSibling, input.getAttribute("aria-label")));
  const dark = matchMedia("(prefers-color-scheme: dark)");
  const kept = () => [...inputs.keys()].find((index) => index === window.__md_get("__palette")?.index); // nothing but our own
  const ofDevice = () => inputs.findIndex((input) => matchMedia(input.dataset.mdColorMedia).matches);

  function put(index) {
    const input = inputs[index] ?? inputs[0];
    input.checked = true;
    for (const part of PARTS) document.body.setAttribute(`data-md-color-${part}`, input.getAttribute(`data-md-color-${part}`));
    const focused = buttons.includes(document.activeElement);
    for (const button of buttons) button.hidden = button !== input.nextElementSibling;
    if (focused) input.nextElementSibling.focus();
  }

  function choose(index) {
    put(index);
    const color = Object.fromEntries(PARTS.map((part) => [part, inputs[index].getAttribute(`data-md-color-${part}`)]));
    window.__md_set("__palette", {index, color}); // as the theme keeps it
  }

  if (inputs.length) {
    for (const input of inputs) input.hidden = true;
    // The theme, which comes with the search, would keep the device's shade as if the reader had chosen it.
    inputs[0].form.removeAttribute("data-md-component");
    put(kept() ?? ofDevice());
    inputs.forEach((input, index) => input.addEventListener("change", () => choose(index)));
    dark.addEventListener("change", () => kept() ?? put(ofDevice()));
  }
}
