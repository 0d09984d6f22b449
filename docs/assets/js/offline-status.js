// Says in the foot whether this site is whole on this device, and lets the reader take a new version.
// The worker at the site's root keeps the files; it posts {type: "kept", done, total} in bytes while it fetches.
{
  const state = document.getElementById("offline-state");
  const use = document.getElementById("offline-use");
  const local = ["localhost", "127.0.0.1", "[::1]"].includes(location.hostname);
  if (state && use) {
    if (!("serviceWorker" in navigator) || !(isSecureContext || local)) {
      say("Needs a network: this browser keeps nothing here.");
    } else {
      watch().catch(() => say("Needs a network: nothing could be kept on this device."));
    }
  }

  function say(text) {
    if (state.textContent !== text) state.textContent = text;
  }

  async function watch() {
    const root = window.__md_scope;
    const accepted = { reload: false };
    navigator.serviceWorker.addEventListener("message", ({ data }) => {
      if (!data || data.type !== "kept" || !data.total) return;
      if (!navigator.serviceWorker.controller) say(`Being kept on this device: ${percent(data)} %.`);
    });
    navigator.serviceWorker.addEventListener("controllerchange", () => {
      if (accepted.reload) location.reload();
      else say("Ready for the basement.");
    });

    const registration = await navigator.serviceWorker.register(new URL("sw.js", root), {
      scope: root.pathname, updateViaCache: "none",
    });
    const offer = (worker) => {
      say("A new version is here, whole.");
      use.hidden = false;
      use.onclick = () => {
        use.hidden = true;
        accepted.reload = true; // one reload, asked for
        worker.postMessage({ type: "use-now" });
      };
    };
    const follow = (worker) => worker.addEventListener("statechange", () => {
      if (worker.state === "installed" && navigator.serviceWorker.controller) offer(worker);
      else if (worker.state === "activated") say("Ready for the basement.");
      else if (worker.state === "redundant" && !registration.active) say("Not kept yet: the download broke off. It goes on at the next visit.");
    });

    if (registration.waiting && navigator.serviceWorker.controller) offer(registration.waiting);
    else if (registration.active) say("Ready for the basement.");
    else say("Being kept on this device.");
    if (registration.installing) follow(registration.installing);
    registration.addEventListener("updatefound", () => follow(registration.installing));
  }

  function percent({ done, total }) {
    return Math.min(99, Math.floor((100 * done) / total));
  }
}
