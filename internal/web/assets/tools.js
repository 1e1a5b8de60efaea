// Teaching a tool: shows what arrives, character by character, and notes what
// ends it. Enter and Tab end a reading here instead of sending the form.
const QUIET = 300, FAST = 25; // ms, as in a run
let timer = 0, at = 0, fast = 0;
/** @type {HTMLInputElement | null} the field whose reading has ended */
let whole = null;

const fields = () => [...document.querySelectorAll("[data-teach]")];

/** @param {HTMLInputElement} el @param {"enter" | "tab" | "quiet"} end */
function ended(el, end) {
  document.getElementById(el.id + "-end").value = end;
  show(el, end);
  whole = el; // what comes now is the next reading, not more of this one
  const next = { closed: "size" }[el.id];
  if (end !== "tab" || next) (next ? document.getElementById(next) : el.form.querySelector("button")).focus();
}

/** @param {HTMLInputElement} el @param {string} [end] */
function show(el, end) {
  const list = document.getElementById(el.id + "-chars");
  const box = (text, unseen) => Object.assign(document.createElement("li"), { textContent: text, className: unseen ? "unseen" : "" });
  list.replaceChildren(...[...el.value].map((c) => c === " " ? box(list.dataset.space, true) : box(c, false)), ...end ? [box(list.dataset[end], true)] : []);
}

let taken = ""; // the key that ended a reading: its press must not reach the button that has the focus now
addEventListener("keydown", (ev) => {
  taken = "";
  const el = ev.target;
  if (!fields().includes(el) || ev.ctrlKey || ev.metaKey || ev.altKey) return;
  clearTimeout(timer);
  if (ev.key.length === 1) {
    if (whole === el) el.select();
    fast = ev.timeStamp - at < FAST ? fast + 1 : 0;
    at = ev.timeStamp;
    if (fast > 1) timer = setTimeout(() => ended(el, "quiet"), QUIET);
  } else if (ev.key === "Enter" || ev.key === "Tab" && !ev.shiftKey && el.value) {
    ev.preventDefault();
    taken = ev.key;
    if (el.value) return ended(el, ev.key === "Enter" ? "enter" : "tab");
  }
  whole = null;
});
addEventListener("keypress", (ev) => { if (ev.key === taken) ev.preventDefault(); });
addEventListener("pointerdown", () => { whole = null; }); // to mend it by hand
addEventListener("input", (ev) => { if (fields().includes(ev.target)) show(ev.target); });
addEventListener("focusin", (ev) => { if (fields().includes(ev.target)) ev.target.select(); });
