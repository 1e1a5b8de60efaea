// Shows the last pages seen while the box is out of reach, each with the hour
// it is as of. It never answers in the place of a box that answers, keeps no
// photos, and sends nothing: what is recorded waits in the outbox.
/* global build, shell, policy */

const SHELL = "shell-" + build, PAGES = "pages-" + build;
const KEEP = /^\/(outbox|m\/[^/]+(|\/trays|\/machine|\/run\/.+))$/;
const MOST = 12; // pages
const HTML = { "Content-Type": "text/html; charset=utf-8", "Content-Security-Policy": policy };

const of = (/** @type {string} */ url) => new URL(url).pathname; // the same page whatever was asked of it last

self.addEventListener("install", (/** @type {any} */ ev) => {
  self.skipWaiting();
  ev.waitUntil(caches.open(SHELL).then((c) => c.addAll(shell)));
});

self.addEventListener("activate", (/** @type {any} */ ev) => ev.waitUntil((async () => {
  for (const name of await caches.keys()) if (name !== SHELL && name !== PAGES) await caches.delete(name);
  await self.clients.claim();
})()));

/** Keeps a page that came from the box, and the trays beside a bench. */
async function keep(/** @type {string} */ url, /** @type {Response} */ got) {
  if (got.status === 401 || got.status === 403) return caches.delete(PAGES); // this device was let out
  if (got.status !== 200 || !KEEP.test(of(url)) || !got.headers.get("Content-Type")?.includes("html")) return;
  const pages = await caches.open(PAGES);
  await pages.delete(of(url));
  await pages.put(of(url), new Response(await got.text(), { headers: { ...HTML, "X-Kept": new Date().toISOString() } }));
  const all = await pages.keys();
  for (const old of all.slice(0, Math.max(0, all.length - MOST))) await pages.delete(old);
  if (/^\/m\/[^/]+$/.test(of(url)) && !(await pages.match(of(url) + "/trays"))) await fresh(url.replace(/[?#].*/, "") + "/trays");
}

const fresh = async (/** @type {string} */ url) => keep(url, await fetch(url, { headers: { Accept: "text/html" } }));

const hour = (/** @type {string} */ iso) => {
  const at = new Date(iso), day = at.toDateString() === new Date().toDateString() ? {} : { day: "numeric", month: "short" };
  return at.toLocaleString("en-GB", { ...day, hour: "2-digit", minute: "2-digit" });
};

/** The page as it was last seen, marked as such; else what can be seen. */
async function asSeen(/** @type {string} */ url) {
  const pages = await caches.open(PAGES), kept = await pages.match(of(url));
  if (kept) {
    const html = await kept.text();
    return new Response(html.replace(/(<main\b[^>]*>)/, `$1<p class="say noprint" id="asof" role="status">As of ${hour(kept.headers.get("X-Kept"))}, the box is out of reach.</p>`), { headers: kept.headers });
  }
  const names = await Promise.all((await pages.keys()).map(async (r) => [of(r.url), (await (await pages.match(r)).text()).match(/<title>(.*?)<\/title>/)?.[1] ?? of(r.url)]));
  const list = names.map(([at, name]) => `<li><a class="plain" href="${at}">${name}</a></li>`).join("");
  return new Response(`<!doctype html><html lang="en"><meta name="viewport" content="width=device-width"><title>Out of reach</title><link rel="stylesheet" href="${shell.find((/** @type {string} */ a) => a.endsWith("/scribe.css"))}"><main><h1>The box is out of reach</h1><p class="lead">This page was not kept here. What was recorded is safe and goes when the box is back.</p><ul class="list">${list}</ul></main>`, { status: 503, headers: HTML });
}

self.addEventListener("message", (/** @type {any} */ ev) => ev.waitUntil(fresh(ev.data).catch(() => {})));

self.addEventListener("fetch", (/** @type {any} */ ev) => {
  const ask = ev.request;
  if (ask.method !== "GET" || new URL(ask.url).origin !== location.origin) return;
  if (of(ask.url).startsWith("/a/")) {
    ev.respondWith(caches.match(ask, { ignoreVary: true }).then((got) => got ?? fetch(ask)));
  } else if (ask.mode === "navigate" || ask.headers.get("Accept") === "text/html") {
    ev.respondWith(fetch(ask).then((got) => {
      ev.waitUntil(keep(ask.url, got.clone()).catch(() => {}));
      return got;
    }, () => asSeen(ask.url)));
  }
});
