// Says in the header of every page what is kept here and not yet in the book.
import { onChange } from "./outbox.js";

let before = 0;
let quiet = 0;

onChange(({ wait, asked }) => {
  const box = document.getElementById("kept");
  const link = /** @type {HTMLAnchorElement} */ (box.querySelector("a"));
  const inHand = new Set([...document.forms].map((f) => f.dataset.again)); // the refusal stands on the page
  const needs = asked.filter((r) => !inHand.has(r.id)).length;
  const words = [];
  if (wait.length) words.push(`Kept here · ${wait.length} to send`);
  else if (before) {
    words.push("In the book");
    clearTimeout(quiet);
    quiet = setTimeout(() => { if (link.textContent === "In the book") box.hidden = true; }, 4000);
  }
  if (needs) words.push(`${needs} ${needs === 1 ? "needs" : "need"} you`);
  before = wait.length;
  link.textContent = words.join(" · ");
  box.hidden = words.length === 0;
});
