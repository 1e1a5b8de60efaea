// Says in the header of every page what is kept here and not yet in the book.
import { onChange } from "./outbox.js";

/** @type {Set<string> | null} those told to be in the book, or sent before this page was opened */
let told = null;
/** @type {import("./outbox.js").Rec[]} */
let refused = [];
let words = "";
let quiet = 0;

/** Shows the words, with the refusals that do not stand on the page itself. */
function show() {
  const box = document.getElementById("kept");
  const inHand = new Set([...document.forms].map((f) => f.dataset.again));
  const needs = refused.filter((r) => !inHand.has(r.id)).length;
  const all = [words, needs && `${needs} ${needs === 1 ? "needs" : "need"} you`].filter(Boolean).join(" · ");
  const link = /** @type {HTMLAnchorElement} */ (box.querySelector("a"));
  if (link.textContent !== all) link.textContent = all;
  box.hidden = !all;
}

onChange(({ wait, asked, sent }) => {
  const news = told && sent.some((r) => !told.has(r.id));
  told = new Set(sent.map((r) => r.id));
  refused = asked;
  if (wait.length) words = `Kept here · ${wait.length} to send`;
  else if (news) {
    words = "In the book";
    clearTimeout(quiet);
    quiet = setTimeout(() => { if (words === "In the book") { words = ""; show(); } }, 4000);
  } else if (words !== "In the book") words = "";
  show();
});

document.addEventListener("swapped", show);
