// The measuring run at the bench: one field, always ready for a tool that
// types. A figure lands in its cell at once and the next point comes up,
// whether the box is in reach or not; the verdict waits for the box.
import { onChange, post } from "./outbox.js";
import { go, refused } from "./page.js";
import { plain, read } from "./wedge.js";

const FAST = 25; // ms from key to key of a tool, in the mean; a hand is slower
const LATE = 60; // ms that one of its keys may take on a busy device
const QUIET = 300; // ms without a key that end a reading of a tool without Enter
const TWICE = 400; // ms within which the same figure again is one press
const LEFT = 6e5; // ms after which a run is asked where it is
const NEAR = 0.05; // share of what is expected; as on the box
const INCH = 25.4;

const $ = (/** @type {string} */ id) => /** @type {any} */ (document.getElementById(id));
const field = () => /** @type {HTMLInputElement} */ ($("reading"));
const run = () => /** @type {HTMLElement} */ ($("run"));
const all = () => /** @type {HTMLElement[]} */ ([...document.querySelectorAll("td[data-key]")]).sort((a, b) => +a.dataset.nth - +b.dataset.nth);
const cellOf = (/** @type {string} */ key) => /** @type {HTMLElement} */ (document.querySelector(`td[data-key="${CSS.escape(key)}"]`));
const here = () => cellOf($("keep").point.value);
const wordsOf = (/** @type {HTMLElement} */ c) => c.dataset.lines.split("|").join(", ");
const textOf = (/** @type {HTMLElement} */ c) => c.querySelector(".num").textContent;

/** A sentence of the page with its names filled in. */
const say = (/** @type {string} */ key, /** @type {Record<string, any>} */ put = {}) =>
  $("words").content.querySelector(`[data-w="${key}"]`).textContent.replace(/\{(\w+)\}/g, (_, n) => put[n] ?? "");

/** The tool in the hand, unless figures are keyed in. */
const tool = () => run().dataset.tool ? JSON.parse(run().dataset.tool) : null;
let keyed = false;
const typing = () => keyed ? null : tool();

/**
 * What was done here and the page of the box does not show yet: readings, and
 * the undoing of readings. text is what the cell shows then.
 * @typedef {{key: string, text: string, before: string, id?: string, undo?: string, waits?: boolean, done?: boolean}} Deed
 * @type {Deed[]}
 */
let deeds = [];
let lastKey = "";
let busy = false;
/** @type {Parameters<typeof pose> | null} what stands asked, for a page that comes new meanwhile */
let asking = null;
/** @returns {{raw: string, fast: boolean, stale?: boolean} | null} the figure that is asked about */
const held = () => asking?.[1] ?? null;
let last = { raw: "", at: -TWICE };
let seenAt = Date.now();

// ---- one figure ----

/**
 * Takes what was typed: keeps it, asks about it or refuses it.
 * @param {string} raw
 * @param {{fast?: boolean, unit?: string, sure?: boolean, sited?: boolean}} how
 */
function strike(raw, how = {}) {
  const now = performance.now(), left = Date.now() - seenAt;
  if (!plain(raw)) return;
  hush();
  if (raw === last.raw && now - last.at < TWICE && !how.sited) return clear(say("twice", { raw: plain(raw) }), false);
  last = { raw, at: now };
  const by = how.fast && tool() || typing();
  if (how.fast) keyIn(false);
  const unit = run().dataset.length !== undefined ? how.unit || by?.unit || "mm" : "";
  const got = read(raw, { ...by, unit });
  if (got.why) {
    if (how.fast || by || !/\d/.test(raw)) return ask(say(got.why, { raw: plain(raw) }));
    return send(raw, how, by, ""); // a fraction, another unit: the box reads it
  }
  if (got.unit && !unit) return send(raw, how, by, "");
  if (left > LEFT && !how.sited) return ask(say("stale", { figure: got.text, minutes: Math.round(left / 6e4), point: wordsOf(here()) }), { raw, fast: !!how.fast, stale: true }, "put");
  seenAt = Date.now();
  const value = +got.text * (got.unit === "in" ? INCH : 1);
  if (!how.sure && doubted(value, got, raw, how)) return;
  send(raw, how, by, unit ? shown(value) : got.text);
}

/** Asks about a figure far from what the point should read. */
function doubted(/** @type {number} */ value, /** @type {any} */ got, /** @type {string} */ raw, /** @type {any} */ how) {
  const about = +(windowOf(here())?.dataset.about || 0);
  const near = (/** @type {number} */ v) => Math.abs(v - about) <= NEAR * about;
  if (!about || near(value)) return false;
  const [word, answer] = near(value * INCH) ? ["inches", "in"] : near(value / INCH) ? ["millimetres", "mm"] : ["far", ""];
  ask(say(word, { figure: word === "millimetres" ? got.text : shown(value), about: shown(about) }), { raw, fast: !!how.fast }, answer, "keep", "again");
  return true;
}

/** A figure in mm as the table has it: three places, two at least. */
const shown = (/** @type {number} */ mm) => mm.toFixed(3).replace(/0$/, "");

/**
 * Keeps a figure at the point now. text is what its cell shows; without one
 * the box reads it, and the page waits.
 */
function send(/** @type {string} */ raw, /** @type {any} */ how, /** @type {any} */ by, /** @type {string} */ text) {
  const form = $("keep"), cell = here();
  const extra = { reading: raw, point: cell.dataset.key, by: by ? run().dataset.by : "", key: keyed ? "in" : "" };
  if (how.unit) extra.unit = how.unit;
  if (how.sure) extra.sure = "yes";
  const deed = /** @type {Deed} */ ({ key: cell.dataset.key, text, before: textOf(cell) });
  deeds = [...deeds, deed];
  doing();
  const answer = post(form, extra, (id) => { deed.id = id; });
  form.note.value = "";
  if (text) kept(deed, cell);
  answered(answer, deed);
}

function kept(/** @type {Deed} */ deed, /** @type {HTMLElement} */ cell) {
  land(deed);
  clear(say("kept", { figure: deed.text, point: wordsOf(cell) }), true);
  move(next(cell));
}

/** Waits for the box, then shows its page or what it asks. */
async function answered(/** @type {Promise<any>} */ answer, /** @type {Deed} */ deed) {
  let a;
  try {
    a = await answer;
  } catch { // nothing can be kept here: the browser sends the form itself
    deeds = deeds.filter((d) => d !== deed);
    move(cellOf(deed.key));
    field().value ||= deed.text;
    return HTMLFormElement.prototype.submit.call($("keep"));
  }
  const typed = deed.text || deed.undo;
  if (a.in === "here") {
    if (!typed) {
      deed.text = plain(field().value);
      kept(deed, cellOf(deed.key));
    }
    $("line").textContent = say("waits");
    return;
  }
  lastKey = deed.key;
  const latest = deeds.at(-1) === deed && (!typed || !field().value);
  if (a.in === "asked") deeds = deeds.filter((d) => d !== deed);
  deed.done = true;
  if (a.in === "asked" && latest) {
    await refused(a, $("keep").action);
    return click(false);
  }
  if (!typed && a.in === "book") {
    field().value = "";
    move(next(cellOf(deed.key)));
  }
  catchUp();
}

/** Shows the box's page of the run once nothing done here is missing from it. */
async function catchUp() {
  if (busy || !run() || deeds.some((d) => !d.done)) return;
  busy = true;
  const sure = deeds; // all of these are in the page that is asked for now
  const came = await go(run().dataset.at + "?" + new URLSearchParams({ at: $("keep").point.value, after: lastKey, ...keyed && { key: "in" } })).catch(() => false);
  busy = false;
  if (came) deeds = deeds.filter((d) => !sure.includes(d));
  doing();
  if (deeds.length) setTimeout(catchUp, came ? 0 : 2000);
}

/** Marks the page while it is ahead of the box, so that nothing else replaces it. */
function doing() {
  run()?.toggleAttribute("data-doing", deeds.length > 0 || field().value !== "");
}

// What was sent while no answer was waited for any more.
onChange(({ wait }) => {
  const gone = deeds.filter((d) => d.waits && !wait.some((r) => r.id === d.id));
  for (const d of deeds) d.waits = wait.some((r) => r.id === d.id);
  if (gone.length) setTimeout(() => { // an answer that is waited for comes first
    if (gone.every((d) => d.done)) return;
    for (const d of gone) d.done = true;
    catchUp();
  }, 50);
});

// ---- what the page shows ----

/** Puts a figure into its cell, as kept here. */
function land(/** @type {Deed} */ deed) {
  const cell = cellOf(deed.key);
  if (!cell) return;
  cell.querySelector(".num").textContent = deed.text;
  cell.querySelector(".num").removeAttribute("data-more");
  cell.classList.remove("landed");
  cell.classList.toggle("kepthere", !deed.undo && !deed.done);
  cell.classList.add("landed");
  cell.querySelector("a").setAttribute("aria-label", say(deed.undo ? "cell" : "cellhere", { point: wordsOf(cell), figure: deed.text || say("unread") }));
  $("legend").hidden = !document.querySelector(".kepthere");
  undoes();
}

/** The point after a cell that is not read yet; else the next cell. */
function next(/** @type {HTMLElement} */ cell) {
  const list = all(), i = list.indexOf(cell);
  const round = [...list.slice(i + 1), ...list.slice(0, i)];
  return round.find((c) => !textOf(c)) ?? cell;
}

const windowOf = (/** @type {HTMLElement} */ c) => /** @type {HTMLElement} */ ($("windows").children[+c.dataset.w]);

/** Brings a point up. */
function move(/** @type {HTMLElement | undefined} */ cell) {
  if (!cell) return;
  const form = $("keep"), list = all(), nth = list.indexOf(cell) + 1;
  form.point.value = shownKey = cell.dataset.key;
  setTimeout(() => history.replaceState({}, "", run().dataset.at + "?at=" + encodeURIComponent(shownKey)));
  for (const c of list) {
    c.classList.toggle("here", c === cell);
    c.querySelector("a").toggleAttribute("aria-current", c === cell);
  }
  $("name").replaceChildren(...cell.dataset.lines.split("|").map((l) => Object.assign(document.createElement("span"), { textContent: l })));
  $("where").textContent = say("reading", { point: wordsOf(cell), unit: $("unit").textContent || say("plain") });
  const sub = document.querySelector(".top .sub");
  if (sub?.firstChild) sub.firstChild.nodeValue = say("where", { nth, all: list.length }) + " ";
  const small = $("skip").querySelector("small");
  small.textContent = say("nth", { nth, all: list.length });
  $("skip").href = run().dataset.at + "?after=" + encodeURIComponent(cell.dataset.key);
  [...$("windows").children].forEach((w) => { w.hidden = w !== windowOf(cell) || cell.dataset.unworn !== undefined; });
  for (const at of $("sketch")?.querySelectorAll("[data-at]") ?? []) {
    const on = at.dataset.at === "level" ? cell.dataset.y : at.dataset.at === cell.dataset.axis;
    at.setAttribute("visibility", on ? "visible" : "hidden");
    if (at.dataset.at === "level" && on) at.setAttribute("y", cell.dataset.y);
  }
  turn(+cell.dataset.g);
  live();
}

/** Moves the columns that show along to a surface. */
function turn(/** @type {number} */ g) {
  for (const [sort, css] of [["n", "n"], ["w", "w"]]) {
    const shown = new Set(), every = new Set();
    for (const el of document.querySelectorAll("thead th[data-g]")) {
      every.add(+el.dataset.g);
      if (!el.classList.contains(sort)) shown.add(+el.dataset.g);
    }
    if (!every.size || shown.has(g)) continue;
    const from = Math.max(0, g - shown.size + 1);
    for (const el of document.querySelectorAll("[data-g]")) el.classList.toggle(css, +el.dataset.g < from || +el.dataset.g >= from + shown.size);
  }
}

/** Holds what stands in the field against the window, before it is kept. */
function live() {
  doing();
  const w = windowOf(here()), by = typing();
  const got = read(field().value, { ...by, unit: by?.unit ?? "mm" });
  const pointer = w?.querySelector(".now");
  const value = got.why ? NaN : +got.text * (got.unit === "in" ? INCH : 1);
  const about = +(w?.dataset.about || 0);
  const words = w && !w.hidden && pointer && $("ask").hidden && !(Math.abs(value - about) > NEAR * about && about) && value === value ? against(value, w.dataset, Math.max(2, (got.text.split(".")[1] ?? "").length)) : "";
  $("live").hidden = !words;
  $("line").hidden = !!words;
  $("live").firstElementChild.textContent = words;
  if (!pointer) return;
  if (!words) return pointer.setAttribute("visibility", "hidden");
  const at = (value - +w.dataset.from) / (+w.dataset.to - +w.dataset.from);
  pointer.setAttribute("visibility", "visible");
  pointer.setAttribute("x", Math.min(100, Math.max(0, at * 100)).toFixed(2) + "%");
}

/** "0.06 worn, 0.06 left before the limit." */
function against(/** @type {number} */ v, /** @type {DOMStringMap} */ w, /** @type {number} */ places) {
  const [low, high, newLow, newHigh, zero] = [w.low, w.high, w.newlow, w.newhigh, w.zero].map((t) => t ? +t : NaN);
  const fig = (/** @type {number} */ x) => x.toFixed(places);
  if (v > high || v < low) return say("past", { by: fig(v > high ? v - high : low - v) });
  const left = Math.min(...[high - v, v - low].filter((x) => x === x));
  if (left === Infinity) return "";
  const worn = high === high ? v - zero : zero - v;
  const fresh = v >= newLow && v <= newHigh || worn <= 0;
  return say(fresh ? "fresh" : worn > 0 ? "worn" : "left", { worn: fig(worn), left: fig(left) });
}

/** Says what is wrong or asks; what is the figure, the answers name buttons. */
function ask(/** @type {Parameters<typeof pose>} */ ...said) {
  if (said[1]) field().value = said[1].raw;
  pose(...said);
  field().select();
  click(false);
}

/** Shows a question, again where the page came new. */
function pose(/** @type {string} */ words, /** @type {any} */ what = null, /** @type {string[]} */ ...answers) {
  asking = [words, what, ...answers];
  $("fault").textContent = words;
  for (const b of $("ask").querySelectorAll("button, a")) b.hidden = !answers.includes(b.value || b.id);
  $("ask").hidden = false;
  field().setAttribute("aria-invalid", "true");
  live();
}

function hush() {
  asking = null;
  $("ask").hidden = $("tell").hidden = true;
  field().removeAttribute("aria-invalid");
}

/** Empties the field and tells what became of the figure. */
function clear(/** @type {string} */ words, /** @type {boolean} */ kept) {
  field().value = "";
  if (kept) $("last").textContent = words;
  else {
    $("tell").textContent = words;
    $("tell").hidden = false;
  }
  click(kept);
  live();
}

// ---- undo ----

/** What can be undone, the latest first: done here, then what the box listed. */
function undoable() {
  const gone = new Set(deeds.map((d) => d.undo).filter((id) => id));
  const mine = deeds.filter((d) => !d.undo && d.text && !gone.has(d.id)).reverse();
  const theirs = [...$("undos").children].filter((li) => !gone.has(li.dataset.entry)).map((li) => ({ key: li.dataset.key, text: li.textContent, entry: li.dataset.entry }));
  return [...mine, ...theirs];
}

/** Names on the button what it undoes. */
function undoes() {
  const u = undoable()[0], b = $("undo");
  b.disabled = !u;
  b.querySelector("small").textContent = u ? u.text : "";
  b.querySelector(".out").textContent = "";
  if (u) b.setAttribute("aria-label", say("undo", { figure: u.text, point: wordsOf(cellOf(u.key)) }));
}

function undo() {
  const list = undoable(), u = list[0];
  if (!u) return;
  if (!u.entry && !u.id) return setTimeout(undo, 20); // it is just being kept
  const cell = cellOf(u.key);
  const before = u.entry ? list.find((o) => o !== u && o.key === u.key)?.text ?? "" : u.before;
  const deed = /** @type {Deed} */ ({ key: u.key, text: before, before: "", undo: u.entry ?? u.id });
  deeds = [...deeds, deed];
  doing();
  const answer = post($("undoing"), u.entry ? { entry: u.entry } : { entry: "", record: u.id }, (id) => { deed.id = id; });
  hush();
  land(deed);
  $("last").textContent = say("undone", { figure: u.text, point: wordsOf(cell) });
  move(cell);
  answered(answer, deed);
}

// ---- keys ----

/** Keys in a row, each within LATE of the one before: a tool typing, perhaps. */
let burst = { text: "", from: 0, at: 0, el: /** @type {any} */ (null), before: "" };
let timer = 0, endedAt = -1;

const isText = (/** @type {any} */ el) => el.matches?.("textarea, select, input:not([type=checkbox], [type=radio], [type=button])");
const isBurst = (/** @type {number} */ t) => burst.text.length > 2 && /\d/.test(burst.text) && t - burst.at < LATE
  && burst.at - burst.from < FAST * (burst.text.length - 1);

/** Ends a burst where it fell; false where there was none. No burst sends a form. */
function ended(/** @type {Event | null} */ ev, /** @type {number} */ t) {
  if (!isBurst(t)) return false;
  ev?.preventDefault();
  ev?.stopPropagation();
  const { text, el, before } = burst;
  burst = { text: "", from: t, at: t, el: null, before: "" };
  if (el === field()) strike(el.value, { fast: true });
  else {
    const got = read(text, { ...tool(), unit: "mm" });
    if (got.why) return true; // a code reader's word, say: it stays where it fell
    el.value = before;
    ask(say("stray", { figure: got.text, point: wordsOf(here()) }), { raw: text, fast: true }, "put");
    $("ask").scrollIntoView({ block: "nearest" });
  }
  return true;
}

addEventListener("keydown", (ev) => {
  if (!run() || ev.ctrlKey || ev.metaKey || ev.altKey || ev.isComposing) return;
  unlock();
  const t = ev.timeStamp;
  const ends = ev.key === "Enter" || ev.key === "Tab" && !ev.shiftKey;
  if (ends || ev.key.length === 1) clearTimeout(timer);
  if (ev.key.length === 1) {
    if (!isText(ev.target) && ev.key !== " ") {
      field().focus();
      field().select();
    }
    const el = /** @type {any} */ (document.activeElement);
    if (t - burst.at >= LATE || el !== burst.el) burst = { text: "", from: t, at: t, el, before: el.value ?? "" };
    burst.text += ev.key;
    burst.at = t;
    if (isText(el) && (el !== field() || tool()?.end === "quiet")) timer = setTimeout(() => ended(null, burst.at), QUIET);
    return;
  }
  if (!ends) return;
  endedAt = performance.now();
  if (ended(ev, t)) return;
  if (t - burst.at < LATE && !burst.text) return ev.preventDefault(); // LF after CR
  if (ev.target === field()) {
    if (ev.key === "Tab" && !field().value) return;
    ev.preventDefault();
    if (!ev.repeat) strike(field().value);
  } else if (ev.key === "Enter" && isText(ev.target) && ev.target.form?.id === "keep") {
    ev.preventDefault();
    field().focus();
  }
}, true);

addEventListener("input", (ev) => { if (ev.target === field()) live(); });

// Back to the field after any tap that was not for another.
addEventListener("click", (ev) => {
  if (!run()) return;
  unlock();
  const el = /** @type {Element} */ (ev.target);
  const cell = el.closest("td[data-key]"), link = el.closest("a[data-to], #skip, #again, #keyin");
  if (ev.button || ev.ctrlKey || ev.metaKey || ev.shiftKey) return;
  if (cell || link) {
    ev.preventDefault();
    if (link?.id === "keyin") keyIn(true);
    else if (cell && held()?.stale) {
      const { raw, fast } = held();
      move(cell);
      strike(raw, { fast, sited: true });
    } else {
      hush();
      field().value = "";
      if (link?.id !== "again") move(cell ?? (link.id === "skip" ? next(here()) : cellOf(link.dataset.to)));
      live();
    }
  }
  seenAt = held()?.stale ? seenAt : Date.now();
  setTimeout(() => { if (run() && !isText(document.activeElement)) field().focus({ preventScroll: true }); }, 30);
}, true);
addEventListener("change", (ev) => { if (ev.target?.matches?.("#tool, #setting")) field()?.focus(); });

addEventListener("submit", (ev) => {
  const form = /** @type {HTMLFormElement} */ (ev.target);
  if (!run() || form.dataset.plain !== undefined || form.id !== "keep" && form.id !== "undoing") return;
  ev.preventDefault();
  if (form.id === "undoing") return undo();
  const answer = ev.submitter?.value;
  if (!answer && performance.now() - endedAt < 150) return; // the same Enter once more
  const { raw, fast } = held() ?? { raw: field().value, fast: false };
  strike(answer ? raw : field().value, answer === "keep" ? { fast, sure: true, sited: true }
    : answer === "put" ? { fast, sited: true } : answer ? { fast, unit: answer, sited: true } : {});
}, true);

/** Figures are keyed in, or typed by the tool again. */
function keyIn(/** @type {boolean} */ yes) {
  keyed = yes && !!tool();
  field().inputMode = tool() && !keyed ? "none" : "decimal";
  if (!tool()) return;
  $("unit").textContent = keyed ? run().dataset.unit : tool().unit;
  $("keyin").hidden = keyed;
  $("keepit").hidden = !keyed;
}

// ---- sound ----

/** @type {AudioContext | undefined} */
let audio;

/** A browser lets a page sound only after a tap or a key. */
const unlock = () => setTimeout(() => {
  if (!audio && "AudioContext" in self) audio = new AudioContext();
  if (audio?.state === "suspended") audio.resume();
});

/** High and short for kept, low and longer for refused. */
const click = (/** @type {boolean} */ kept) => setTimeout(() => {
  navigator.vibrate?.(kept ? 30 : [60, 40, 60]);
  if (!audio || run()?.dataset.silent !== undefined) return;
  const tone = audio.createOscillator(), loud = audio.createGain(), t = audio.currentTime, long = kept ? 0.06 : 0.18;
  tone.frequency.value = kept ? 1320 : 330;
  loud.gain.setValueAtTime(0.25, t);
  loud.gain.exponentialRampToValueAtTime(0.001, t + long);
  tone.connect(loud).connect(audio.destination);
  tone.start(t);
  tone.stop(t + long);
});

// ---- a page of the box in the place of the one shown ----

let shownRun = "", shownKey = "", shownField = /** @type {any} */ (null);

/** Does to a fresh page what was done here and is not in it. */
function begin() {
  if (!run() || field() === shownField) return;
  shownField = field();
  const asked = field().getAttribute("aria-invalid");
  const moved = run().dataset.at === shownRun && !asked && cellOf(shownKey);
  shownRun = run().dataset.at;
  shownKey = $("keep").point.value;
  keyIn(keyed);
  for (const d of deeds) land(d);
  if (moved && moved !== here()) move(moved);
  if (asked) field().select();
  else if (asking && field().value) pose(...asking);
  if (burst.el && !burst.el.isConnected) burst.el = $(burst.el.id) ?? field(); // the page came new under the keys
  if (!isText(document.activeElement)) field().focus({ preventScroll: true }); // who writes a note goes on writing
  live();
}
keyed = run()?.dataset.keyed !== undefined;
// At once, before the next key can fall on the fresh page.
new MutationObserver(begin).observe(document.body, { childList: true });
begin();
