// Puts a page of the box in the place of the one shown without losing the
// person's place in it, and sends every form marked data-outbox by way of the
// outbox. A module with work on the page's own elements does it when it is
// loaded and again at each "swapped" event of the document.
import { keptWords, post } from "./outbox.js";

const parts = ["header.top", "main", ".bar", "footer.pagefoot"];

/** How an element is found again on the next copy of its page. */
function nameOf(/** @type {any} */ el) {
  if (el.id) return "#" + CSS.escape(el.id);
  const form = el.closest("form")?.getAttribute("action");
  const value = /checkbox|radio/.test(el.type) ? `[value="${CSS.escape(el.value)}"]` : "";
  return el.name && form ? `form[action="${CSS.escape(form)}"] [name="${CSS.escape(el.name)}"]${value}` : "";
}

/**
 * The fields that hold what the person put there and the box does not have.
 * @returns {any[]}
 */
export const typed = () => [...document.querySelectorAll("input, select, textarea")].filter((/** @type {any} */ el) =>
  el.type === "hidden" ? false : el.type === "file" ? el.files.length : /checkbox|radio/.test(el.type) ? el.checked !== el.defaultChecked
    : el.options ? [...el.options].some((o) => o.selected !== o.defaultSelected && (o.selected ? o.index > 0 : o.defaultSelected)) : el.value !== el.defaultValue);

const nth = (/** @type {ParentNode} */ root) => [...root.querySelectorAll("details")];

/**
 * Replaces header, main, bar and footer by those of a page. Focus, selection,
 * scroll, open details and what was typed stay where the new page has a place
 * for them.
 * @param {string} html
 * @param {() => void} [ready] is called before the modules hear of it
 */
export async function swap(html, ready = () => {}) {
  const next = new DOMParser().parseFromString(html, "text/html");
  const focus = /** @type {HTMLInputElement} */ (document.activeElement);
  const held = focus && focus !== document.body ? { at: nameOf(focus), from: selection(focus, "selectionStart"), to: selection(focus, "selectionEnd") } : null;
  const open = nth(document).map((d) => d.open && d.querySelector("summary")?.textContent);
  const put = typed().map((el) => [nameOf(el), el]);
  const scroll = scrollY;
  for (const sort of parts) {
    const old = [...document.querySelectorAll("body > " + sort)], fresh = [...next.querySelectorAll("body > " + sort)];
    const kept = old[0]?.querySelector("#kept");
    if (kept) fresh[0]?.querySelector("#kept")?.replaceWith(kept); // the outbox's own words are the page's, not the box's
    if (old[0]) old[0].replaceWith(...fresh);
    else if (fresh[0]) document.body.append(...fresh);
    old.slice(1).forEach((el) => el.remove());
  }
  document.title = next.title;
  document.documentElement.dataset.ground = next.documentElement.dataset.ground;
  for (const d of nth(document)) if (open.includes(d.querySelector("summary")?.textContent ?? "")) d.open = true;
  for (const [at, old] of put) {
    const el = at && document.querySelector(at);
    if (!el) continue;
    if (el.type === "file") el.files = old.files;
    else if (/checkbox|radio/.test(el.type)) el.checked = old.checked;
    else el.value = old.value;
  }
  const again = held?.at ? document.querySelector(held.at) : document.querySelector("[autofocus]");
  if (again) {
    again.focus({ preventScroll: true });
    if (held?.from != null) try { again.setSelectionRange(held.from, held.to); } catch { /* a field without a selection */ }
  }
  scrollTo(0, scroll);
  await Promise.all([...next.querySelectorAll("script[src]")].map((s) => import(/** @type {HTMLScriptElement} */ (s).src)));
  ready();
  document.dispatchEvent(new Event("swapped"));
}

function selection(/** @type {any} */ el, /** @type {string} */ which) {
  try { return el[which]; } catch { return null; }
}

/**
 * Fetches a page and swaps it in; where that cannot be, the browser goes there.
 * @param {string} to
 * @param {{push?: boolean}} [how] push: false where the address is shown already
 */
export async function go(to, { push = true } = {}) {
  const from = location.pathname;
  let got;
  try {
    got = await fetch(to, { headers: { Accept: "text/html" } });
  } catch {
    return false;
  }
  const html = await got.text();
  if (!got.ok || !html.includes(stamp())) {
    location.assign(to);
    return false;
  }
  const at = new URL(to, location.href);
  if (push) history[at.pathname === from ? "replaceState" : "pushState"]({}, "", at);
  await swap(html);
  shown = address();
  if (!push) return true;
  if (at.hash) document.getElementById(at.hash.slice(1))?.scrollIntoView();
  else if (at.pathname !== from) scrollTo(0, 0);
  return true;
}

/** The build of the box that this page came from. */
const stamp = () => new URL(import.meta.url).pathname.replace(/[^/]*$/, "");

/** What only some pages need is fetched with the first of them. */
function wanted() {
  if (document.querySelector("input[type=file][accept*=image]")) import("./photo.js");
  if (document.querySelector("form[data-sound]")) import("./sound.js");
}
wanted();
document.addEventListener("swapped", wanted);

/** The worker keeps what it did not see come: the page before it was there, and one swapped in. */
function keepPage() {
  navigator.serviceWorker.ready.then((w) => w.active?.postMessage(location.href));
}
if (isSecureContext && navigator.serviceWorker) navigator.serviceWorker.register("/sw.js").then(keepPage, () => {}); // not where the lock is not trusted

if (location.hash.startsWith("#again=")) import("./again.js").then((m) => m.again(location.hash.slice(7)));

/** The address without what only points into the page. */
const address = () => location.pathname + location.search;
let shown = address();

addEventListener("popstate", () => { // a new fragment is one too, and is no other page
  if (address() !== shown) go(location.href, { push: false });
});

/**
 * Shows what the box refused, with what was typed; the next record made of the
 * form stands in the place of the refused one.
 * @param {{id: string, html: string}} answer
 * @param {string} action of the form
 */
export async function refused(answer, action) {
  await swap(answer.html, () => {
    const form = [...document.forms].find((f) => f.action === action);
    if (form) form.dataset.again = answer.id;
  });
  const alert = document.querySelector("[role=alert]");
  alert?.scrollIntoView({ block: "nearest" });
}

const saying = (/** @type {HTMLFormElement} */ form, /** @type {object} */ extra) => JSON.stringify([...new FormData(form), extra]);

/** What each form is sending now: pressed again it says the same, and is not sent again. */
const sending = new WeakMap();

document.addEventListener("submit", async (ev) => {
  const form = /** @type {HTMLFormElement} */ (ev.target);
  if (ev.defaultPrevented || form.dataset.outbox === undefined || form.dataset.plain !== undefined) return;
  ev.preventDefault();
  const by = /** @type {HTMLButtonElement | null} */ (ev.submitter);
  const extra = by?.name ? { [by.name]: by.value } : {};
  const says = saying(form, extra);
  if (sending.get(form) === says) return;
  sending.set(form, says);
  let answer;
  try {
    answer = await post(form, extra);
  } catch { // nothing can be kept here: the browser sends the form itself
    form.dataset.plain = "";
    form.requestSubmit(by);
    return;
  }
  if (sending.get(form) === says) sending.delete(form);
  if (answer.in !== "asked" && saying(form, extra) === says) form.reset(); // what was typed since stays
  if (answer.in === "book") await go(answer.next);
  else if (answer.in === "asked") await refused(answer, form.action);
  else await keptHere(form);
});

async function keptHere(/** @type {HTMLFormElement} */ form) {
  const say = document.createElement("p");
  say.className = "say";
  say.setAttribute("role", "status");
  say.textContent = await keptWords();
  if (form.previousElementSibling?.matches(".say[role=status]")) form.previousElementSibling.remove();
  form.before(say);
}
