// Lays out what below.css has put off, from top to bottom, a section at a time while nothing else is to be done.
const LATEST = 3000; // ms that Python goes before it

const idle = () => new Promise((go) => (window.requestIdleCallback ?? setTimeout)(go));

const started = () =>
  new Promise((go) => {
    if (!document.querySelector("section.worked")) return go();
    document.addEventListener("underslab:engine", ({detail}) => ["ready", "failed"].includes(detail.state) && go());
    setTimeout(go, LATEST);
  });

async function layOut() {
  await started();
  let below = false;
  for (const piece of document.querySelectorAll(".u > *")) {
    if (piece.matches("h2, h3, .worked-slot")) {
      await idle();
      below = piece.getBoundingClientRect().top > 0; // above the screen it would push away what is being read
    }
    if (below) piece.classList.add("is-laid");
  }
}

layOut();
