// The outbox keeps what is recorded here until the box has it in the book. A
// record lies in IndexedDB before it is sent and leaves it only when the box
// has answered: a refusal is an answer too, and stays until it was seen.
// Several tabs share one outbox; one of them sends at a time.

/**
 * One form as filled in. Only state, status and said ever change.
 * @typedef {object} Rec
 * @property {number} n order of making, given by the store
 * @property {string} id the form's own word, the same each time it is sent
 * @property {"wait"|"asked"|"away"|"sent"} state
 * @property {number} rank 0 readings, 1 the rest, 2 attachments: sent in this order
 * @property {number} made ms by this device's clock
 * @property {string} behind id of the record of the same rank made before it
 * @property {string} action address it is sent to
 * @property {string} page address it was filled in on
 * @property {string} title of that page
 * @property {[string, FormDataEntryValue][]} fields
 * @property {string} words what was typed and chosen, to be read by a person
 * @property {number} [status] of the refusal
 * @property {string} [said] what the box said
 *
 * @typedef {{in: "book", next: string} | {in: "here"} |
 *   {in: "asked", id: string, status: number, html: string}} Answer
 * @typedef {{wait: Rec[], asked: Rec[], away: Rec[], sent: Rec[], reach: boolean}} Counts
 */

const PATIENCE = 4000; // ms a person waits for the box before "Kept here"
const LEASE = 8000; // ms one tab may send without saying so again
const DAY = 864e5;

/** @type {Promise<IDBDatabase> | null} */
let opened = null;

function base() {
  opened ??= new Promise((yes, no) => {
    const ask = indexedDB.open("matchmark-outbox", 1);
    ask.onupgradeneeded = () => {
      ask.result.createObjectStore("records", { keyPath: "n", autoIncrement: true }).createIndex("id", "id");
      ask.result.createObjectStore("lease", { keyPath: "name" });
    };
    ask.onerror = () => no(ask.error);
    ask.onsuccess = () => {
      ask.result.onversionchange = ask.result.onclose = () => { ask.result.close(); opened = null; };
      yes(ask.result);
    };
  });
  opened.catch(() => { opened = null; });
  return opened;
}

/**
 * Runs one transaction and waits until it is on the disk.
 * @template T
 * @param {(records: IDBObjectStore, lease: IDBObjectStore, give: (t: T) => void) => void} act
 * @param {IDBTransactionMode} [mode]
 * @returns {Promise<T>}
 */
async function within(act, mode = /** @type {IDBTransactionMode} */ ("readwrite")) {
  const tx = (await base()).transaction(["records", "lease"], mode, { durability: "strict" });
  return new Promise((yes, no) => {
    /** @type {any} */ let out;
    tx.oncomplete = () => yes(out);
    tx.onerror = tx.onabort = () => no(tx.error);
    act(tx.objectStore("records"), tx.objectStore("lease"), (t) => { out = t; });
  });
}

/** @returns {Promise<Rec[]>} in the order of making */
export const all = () => within((records, _, give) => {
  records.getAll().onsuccess = (ev) => give(ev.target.result);
}, "readonly");

/** Changes one record, or removes it where change gives nothing. */
export async function alter(/** @type {string} */ id, /** @type {(r: Rec) => Rec | null} */ change) {
  await within((records) => {
    records.index("id").openCursor(id).onsuccess = (ev) => {
      const at = ev.target.result;
      if (!at) return;
      const to = change(at.value);
      if (to) at.update(to); else at.delete();
    };
  });
  tell();
}

/** A word no form had before. randomUUID is absent on plain http. */
const word = () => Array.from(crypto.getRandomValues(new Uint8Array(12)), (b) => b.toString(16).padStart(2, "0")).join("");

/**
 * What a form holds, as a record to keep.
 * @param {HTMLFormElement} form
 * @param {Record<string, string>} extra fields beside the form's own
 */
function read(form, extra) {
  /** @type {[string, FormDataEntryValue][]} */
  const fields = [];
  for (const [k, v] of new FormData(form)) {
    if (k !== "once" && !(k in extra) && (typeof v === "string" || v.size > 0)) fields.push([k, v]);
  }
  fields.push(...Object.entries(extra));
  const rank = { reading: 0, last: 2 }[form.dataset.outbox ?? ""] ?? 1;
  return { rank, action: form.action, page: location.href, title: document.title, fields, words: wordsOf(form, extra) };
}

/** What a form holds as a person reads it: each label with what stands in it. */
function wordsOf(/** @type {HTMLFormElement} */ form, /** @type {Record<string, string>} */ extra) {
  const lines = [];
  for (const el of /** @type {any} */ (form.elements)) {
    const pressed = el.localName === "button" && extra[el.name] === el.value;
    const chosen = /checkbox|radio/.test(el.type) ? el.checked : el.value;
    if (pressed) lines.push(el.textContent);
    else if (el.labels?.length && chosen) {
      const value = el.selectedOptions?.[0]?.textContent ?? (/checkbox|radio/.test(el.type) ? "" : el.type === "file" ? el.files[0].name : el.value);
      lines.push(el.labels[0].textContent + (value && ": " + value));
    }
  }
  return lines.map((l) => l.trim().replace(/\s+/g, " ")).join("\n");
}

/** What a record is about where two of one point must know of each other; the repeats of a check are one point. */
const about = (/** @type {Rec} */ r) => r.action + " " + String(r.fields.find(([k]) => k === "point")?.[1] ?? r.id).replace(/\|\d+$/, "");

/**
 * Keeps a record and gives its id. What this device recorded at the same point
 * before goes with it as "mine", for the page may not have heard of it yet.
 * @param {Partial<Rec>} rec
 * @returns {Promise<string>}
 */
export async function keep(rec) {
  const id = word();
  const full = /** @type {Rec} */ ({ fields: [], rank: 1, ...rec, id, state: "wait", made: Date.now() });
  inHand(full);
  await store(full);
  navigator.storage?.persist?.();
  tell();
  return id;
}

const HAND = "matchmark-hand ";

/**
 * IndexedDB takes a moment, and a page that is left within it takes the record
 * along. So the record is in hand at once, until it is stored; one with files
 * is too large for that.
 */
function inHand(/** @type {Rec} */ rec) {
  if (rec.fields.some(([, v]) => typeof v !== "string")) return;
  try { localStorage.setItem(HAND + rec.id, JSON.stringify(rec)); } catch { /* full or shut: it is stored in a moment */ }
}

/** Puts a record into the store, unless it is there. */
async function store(/** @type {any} */ full) {
  await within((records) => {
    records.index("id").getKey(full.id).onsuccess = (ev) => {
      if (ev.target.result === undefined) records.getAll().onsuccess = (all) => add(records, full, all.target.result);
    };
  });
  localStorage.removeItem(HAND + full.id);
}

function add(/** @type {IDBObjectStore} */ records, /** @type {any} */ full, /** @type {Rec[]} */ before) {
  full.about = about(full);
  full.behind = before.findLast((r) => r.rank === full.rank)?.id ?? "";
  const mine = before.filter((r) => r.about === full.about && r.state !== "away").map((r) => r.id);
  if (mine.length) full.fields.push(["mine", mine.join(" ")]);
  records.add(full);
}

/** Stores what a page that was left too soon had in hand. */
async function recover() {
  for (const key of Object.keys(localStorage)) {
    if (!key.startsWith(HAND)) continue;
    const rec = JSON.parse(localStorage.getItem(key));
    if (Date.now() - rec.made > 1500) await store(rec); // a younger one is on its way
  }
  tell();
  drain();
}
setTimeout(recover, 2000);

/** @type {Map<string, (a: Answer) => void>} */
const waiting = new Map();

function settle(/** @type {string} */ id, /** @type {Answer} */ answer) {
  waiting.get(id)?.(answer);
  waiting.delete(id);
}

/**
 * Keeps what a form holds, sends it, and tells where it is now. Where an
 * earlier answer to the form was a refusal, the new record stands in its place.
 * @param {HTMLFormElement} form
 * @param {Record<string, string>} [extra] fields beside the form's own
 * @param {(id: string) => void} [named] is told the record's word once it is kept
 * @returns {Promise<Answer>}
 */
export async function post(form, extra = {}, named = () => {}) {
  const id = await keep(read(form, extra));
  named(id);
  const again = form.dataset.again;
  if (again) {
    delete form.dataset.again;
    await alter(again, () => null);
  }
  /** @type {Promise<Answer>} */
  const answer = new Promise((yes) => { waiting.set(id, yes); });
  setTimeout(() => settle(id, { in: "here" }), PATIENCE);
  drain();
  return answer;
}

/** @returns {Promise<Answer>} */
async function send(/** @type {Rec} */ rec) {
  const form = new FormData();
  for (const [k, v] of rec.fields) form.append(k, v);
  form.set("once", rec.id);
  form.set("behind", rec.behind);
  form.set("age", String(Math.max(0, Date.now() - rec.made)));
  const files = rec.fields.some(([, v]) => typeof v !== "string");
  const stop = new AbortController();
  const timer = setTimeout(() => stop.abort(), files ? 120000 : 15000);
  try {
    const got = await fetch(rec.action, { method: "POST", headers: { "X-Outbox": "1" }, redirect: "manual", signal: stop.signal,
      body: files ? form : new URLSearchParams(/** @type {any} */ (form)) });
    shut = got.status === 401; // the device was let out: no answer to this record
    if (!shut && got.status >= 400 && got.status < 500 && got.status !== 408 && got.status !== 429) {
      return { in: "asked", id: rec.id, status: got.status, html: await got.text() };
    }
    const book = got.ok ? await got.json() : {};
    reach = true;
    return typeof book.next === "string" ? { in: "book", next: book.next } : { in: "here" };
  } catch {
    reach = false;
    return { in: "here" };
  } finally {
    clearTimeout(timer);
  }
}

/** What the box said, out of its page. */
function saidIn(/** @type {string} */ html) {
  const page = new DOMParser().parseFromString(html, "text/html");
  const at = page.querySelector("main [role=alert]") ?? page.querySelector("main .lead");
  return [page.querySelector("h1"), at].map((el) => el?.textContent?.trim().replace(/\s+/g, " ")).filter(Boolean).join(": ");
}

async function done(/** @type {Rec} */ rec, /** @type {Answer} */ answer) {
  if (answer.in === "here") return;
  await alter(rec.id, (r) => answer.in === "book"
    ? { ...r, state: "sent", fields: [] }
    : { ...r, state: "asked", status: answer.status, said: saidIn(answer.html) });
  settle(rec.id, answer);
  tabs?.postMessage({ id: rec.id, answer });
}

// A tab keeps its name over its pages, so that a page left while sending does
// not lock out the next one.
const me = sessionStorage.getItem("outbox") ?? word();
sessionStorage.setItem("outbox", me);

/** Takes or renews the right to send; false while another tab has it. */
const lease = () => within((_, lease, give) => {
  lease.get("send").onsuccess = (ev) => {
    const held = ev.target.result;
    const now = Date.now();
    const mine = !held || held.by === me || held.until < now || held.until > now + LEASE;
    if (mine) lease.put({ name: "send", by: me, until: now + LEASE });
    give(mine);
  };
});

/** @type {Promise<void> | null} */
let running = null;
let more = false;

/** Sends what waits, the readings first. */
export function drain() {
  if (running) {
    more = true;
    return running;
  }
  running = run().catch(() => {}).finally(() => {
    running = null;
    tell();
    if (more) drain();
    more = false;
  });
  return running;
}

async function run() {
  const tried = new Set();
  while (true) {
    const waits = (await all()).filter((r) => r.state === "wait" && !tried.has(r.id));
    const rec = waits.sort((a, b) => a.rank - b.rank || a.n - b.n)[0];
    if (!rec) break;
    if (!(await lease())) {
      setTimeout(drain, 1500); // another tab sends; it may be gone before its right to is
      return;
    }
    const renew = setInterval(lease, LEASE / 3);
    const answer = await send(rec).finally(() => clearInterval(renew));
    tried.add(rec.id);
    await done(rec, answer);
    if (answer.in !== "here") continue;
    for (const r of waits) settle(r.id, answer);
    if (!reach || shut) break;
  }
  await within((records, lease) => {
    lease.get("send").onsuccess = (ev) => { if (ev.target.result?.by === me) lease.delete("send"); };
    records.openCursor().onsuccess = (ev) => {
      const at = ev.target.result;
      if (!at) return;
      const old = { sent: DAY, away: 60 * DAY }[/** @type {string} */ (at.value.state)];
      if (old && Date.now() - at.value.made > old) at.delete();
      at.continue();
    };
  });
}

let reach = true;
let shut = false;
/** @type {Set<(c: Counts) => void>} */
const watchers = new Set();
const tabs = "BroadcastChannel" in self ? new BroadcastChannel("outbox") : null;

/** "2 readings and 1 photo" */
function named(/** @type {Rec[]} */ list) {
  const sort = (/** @type {Rec} */ r) => {
    const file = r.fields.find(([, v]) => typeof v !== "string")?.[1];
    return file ? (/** @type {File} */ (file).type.startsWith("audio") ? "recording" : "photo") : r.rank === 0 ? "reading" : "record";
  };
  return ["reading", "photo", "recording", "record"].map((s) => [s, list.filter((r) => sort(r) === s).length])
    .filter(([, n]) => n).map(([s, n]) => `${n} ${s}${n === 1 ? "" : "s"}`).join(" and ");
}

/** What is kept on this device and when it goes, in words; empty for nothing. */
export async function keptWords() {
  const wait = (await all()).filter((r) => r.state === "wait");
  if (!wait.length) return "";
  const where = matchMedia("(pointer: coarse)").matches ? "phone" : "computer";
  const one = wait.length === 1;
  const go = `${one ? "it goes" : "they go"} ${shut ? "when it is let in again" : reach ? "as soon as the box answers" : "when it is back"}`;
  return `${shut ? "This device is not let in any more. " : reach ? "" : "The box is out of reach. "}${named(wait)} kept on this ${where}; ${go}.`;
}

/** Calls fn with what is kept here, now and at each change in any tab. */
export function onChange(/** @type {(c: Counts) => void} */ fn) {
  watchers.add(fn);
  show();
}

async function show() {
  const list = await all().catch(() => /** @type {Rec[]} */ ([]));
  /** @param {string} state */
  const of = (state) => list.filter((r) => r.state === state);
  for (const fn of watchers) fn({ wait: of("wait"), asked: of("asked"), away: of("away"), sent: of("sent"), reach });
}

function tell() {
  show();
  tabs?.postMessage({});
}

if (tabs) {
  tabs.onmessage = (ev) => {
    if (ev.data.id) settle(ev.data.id, ev.data.answer);
    show();
  };
}

for (const when of ["online", "pageshow"]) addEventListener(when, drain);
document.addEventListener("visibilitychange", () => { if (!document.hidden) drain(); });
setInterval(async () => {
  if ((await all()).some((r) => r.state === "wait")) drain();
}, 15000);
