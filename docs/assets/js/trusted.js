// What may become markup or the address of a script, where the browser asks (require-trusted-types-for in the policy).
// Our own code parses apart what Python built from elements, and never sets markup. The theme's search does: words, lists
// and marks are left of what it sets. Scripts and workers come from below the site's start, not from all of its host.
{
  const TAGS = new Set("ARTICLE B BR CODE DIV EM H1 H2 LI MARK NAV OL P PRE SPAN STRONG SUB SUP UL".split(" "));
  const ATTRIBUTES = new Set(["class", "data-md-highlight"]);

  const plain = (html) => {
    const {body} = new DOMParser().parseFromString(html, "text/html");
    for (const one of body.querySelectorAll("*")) {
      if (!TAGS.has(one.tagName)) one.replaceWith(one.textContent);
      for (const {name} of [...one.attributes]) if (!ATTRIBUTES.has(name)) one.removeAttribute(name);
    }
    return body.innerHTML;
  };

  window.trustedTypes?.createPolicy("default", {
    createHTML(html, type, sink) {
      if (sink === "DOMParser parseFromString") return html;
      if (sink !== "Element innerHTML") return null;
      return html.includes("<") ? plain(html) : html;
    },
    createScriptURL: (address) => (new URL(address, location).href.startsWith(window.__md_scope.href) ? address : null),
  });
}
