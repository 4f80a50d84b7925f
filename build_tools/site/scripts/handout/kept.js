// Asks the service worker to keep what a handout needs, so that the same link opens again without a signal.

const PATIENCE = 20_000; // milliseconds

/** Resolves to whether everything is kept: the page itself, its linked files, and `addresses`. */
export async function keep(addresses) {
  if (!("offline" in document.documentElement.dataset) || !("serviceWorker" in navigator)) return false;
  const root = new URL("../", location.href), here = new URL("./", location.href);
  const files = [...document.querySelectorAll("[data-keep]")].map((link) => link.href);
  try {
    await navigator.serviceWorker.register(new URL("sw.js", root), { scope: root.pathname });
    const { active } = await navigator.serviceWorker.ready;
    return await new Promise((resolve) => {
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = (event) => resolve(event.data.kept === true);
      setTimeout(resolve, PATIENCE, false);
      active.postMessage({ keep: [here.href, ...files, ...addresses] }, [port2]);
    });
  } catch {
    return false; // a private window, for example
  }
}
