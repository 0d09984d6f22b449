// Lays out what below.css has put off, from top to bottom, a section at a time while nothing else is to be done.
const idle = () => new Promise((go) => (window.requestIdleCallback ?? setTimeout)(go));

async function layOut() {
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
