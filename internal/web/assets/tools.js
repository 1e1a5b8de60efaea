// Teaching a tool: shows what arrives, character by character, and notes what
// ends it. Enter and Tab end a reading here instead of sending the form.
const QUIET = 300, FAST = 25; // ms, as in a run
let timer = 0, at = 0, fast = 0;

const fields = () => [...document.querySelectorAll("[data-teach]")];

/** @param {HTMLInputElement} el @param {"enter" | "tab" | "quiet"} end */
function ended(el, end) {
  document.getElementById(el.id + "-end").value = end;
  show(el, end);
  const next = { closed: "size" }[el.id];
  if (end !== "tab" || next) (next ? document.getElementById(next) : el.form.querySelector("button")).focus();
}

/** @param {HTMLInputElement} el @param {string} [end] */
function show(el, end) {
  const list = document.getElementById(el.id + "-chars");
  const box = (text, unseen) => Object.assign(document.createElement("li"), { textContent: text, className: unseen ? "unseen" : "" });
  list.replaceChildren(...[...el.value].map((c) => c === " " ? box(list.dataset.space, true) : box(c, false)), ...end ? [box(list.dataset[end], true)] : []);
}

addEventListener("keydown", (ev) => {
  const el = ev.target;
  if (!fields().includes(el) || ev.ctrlKey || ev.metaKey || ev.altKey) return;
  clearTimeout(timer);
  if (ev.key.length === 1) {
    fast = ev.timeStamp - at < FAST ? fast + 1 : 0;
    at = ev.timeStamp;
    if (fast > 1) timer = setTimeout(() => ended(el, "quiet"), QUIET);
  } else if (ev.key === "Enter" || ev.key === "Tab" && !ev.shiftKey && el.value) {
    ev.preventDefault();
    if (el.value) ended(el, ev.key === "Enter" ? "enter" : "tab");
  }
});
addEventListener("input", (ev) => { if (fields().includes(ev.target)) show(ev.target); });
addEventListener("focusin", (ev) => { if (fields().includes(ev.target)) ev.target.select(); });
