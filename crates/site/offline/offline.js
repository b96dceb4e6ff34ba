// Starts the service worker, which keeps the site for visits without a network. From a disk there is nothing to keep.
if ("serviceWorker" in navigator && location.protocol !== "file:") {
  const own = /** @type {HTMLScriptElement} */ (document.currentScript).src;
  navigator.serviceWorker.register(new URL("sw.js", own)).catch(() => {});
}
