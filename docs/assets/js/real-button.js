// A real button in place of one of the theme's labels, for the same box: the keyboard reaches it, and everybody is told
// what it is.
export function realButton(label, name) {
  const box = document.getElementById(label.htmlFor);
  const button = document.createElement("button");
  for (const {name: kind, value} of label.attributes) if (!["for", "tabindex"].includes(kind)) button.setAttribute(kind, value);
  button.type = "button";
  button.setAttribute("aria-label", name);
  button.append(...label.childNodes);
  button.addEventListener("click", () => box.click());
  label.replaceWith(button);
  return button;
}
