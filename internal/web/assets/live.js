// Shows what another device put into the book, within a second. A person who
// is typing is asked first.
import { go, typed } from "./page.js";

/** @type {EventSource | null} */
let line = null;
let soon = 0;
let told = ""; // how many entries the box said the book has
let enough = false; // other tabs of this device have all the streams it may have

/** One stream, while the page is looked at: a browser has few lines to a box. */
function listen() {
  const at = /** @type {HTMLElement} */ (document.querySelector("main")).dataset.live;
  const url = at && !document.hidden && !enough ? new URL(at, location.href).href : "";
  if (line && line.url === url && line.readyState !== EventSource.CLOSED) return;
  line?.close();
  line = url ? new EventSource(url) : null;
  line?.addEventListener("book", news);
  line?.addEventListener("enough", () => { enough = true; listen(); });
}

const shown = () => /** @type {HTMLElement} */ (document.querySelector("main")).dataset.entries;

function news(/** @type {MessageEvent} */ ev) {
  clearTimeout(soon);
  told = ev.data;
  if (told !== shown() || document.getElementById("asof")) soon = setTimeout(fresh, 60); // this page's own record brings its page by itself
}

function fresh() {
  if (document.querySelector("[data-doing]")) { // a page that is ahead of the book catches up by itself
    soon = setTimeout(() => { if (told !== shown()) fresh(); }, 500);
    return;
  }
  const refused = document.querySelector("form[data-again]");
  if (!refused && !typed().length) return go(location.href, { push: false });
  if (document.getElementById("news")) return;
  const strip = document.createElement("p");
  strip.id = "news";
  strip.className = "say row news noprint";
  strip.setAttribute("role", "status");
  const show = document.createElement("button");
  show.textContent = "Show";
  show.addEventListener("click", () => go(location.href, { push: false })); // what was typed comes along
  strip.append("New in the book", show);
  document.querySelector("main")?.prepend(strip);
}

document.addEventListener("visibilitychange", () => { enough = false; listen(); });
document.addEventListener("swapped", listen);
addEventListener("pageshow", listen);
addEventListener("pagehide", () => { line?.close(); line = null; });
setInterval(listen, 5000); // where the browser gave up after the box was away
listen();
