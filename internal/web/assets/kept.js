// Says in the header of every page what is kept here and not yet in the book.
import { onChange } from "./outbox.js";

const box = document.getElementById("kept");
const here = matchMedia("(pointer: coarse)").matches ? "phone" : "computer";

/** "2 readings and 1 photo" */
function named(/** @type {import("./outbox.js").Rec[]} */ list) {
  const sort = (/** @type {import("./outbox.js").Rec} */ r) => r.fields.some(([, v]) => typeof v !== "string") ? "photo" : r.rank === 0 ? "reading" : "record";
  return ["reading", "photo", "record"].map((s) => [s, list.filter((r) => sort(r) === s).length])
    .filter(([, n]) => n).map(([s, n]) => `${n} ${s}${n === 1 ? "" : "s"}`).join(" and ");
}

let before = 0;
let quiet = 0;

onChange(({ wait, asked, reach }) => {
  const shown = new Set([...document.forms].map((f) => f.dataset.again));
  const needs = asked.filter((r) => !shown.has(r.id)).length;
  const words = [];
  if (wait.length && !reach) words.push(`The box is out of reach. ${named(wait)} kept on this ${here}; ${wait.length === 1 ? "it goes" : "they go"} when it is back.`);
  else if (wait.length) words.push(`Kept here · ${wait.length} to send`);
  else if (before) {
    words.push("In the book");
    clearTimeout(quiet);
    quiet = setTimeout(() => { if (!before) box.hidden = true; }, 4000);
  }
  before = wait.length;
  const span = box.querySelector("span");
  span.textContent = words.join(" ");
  if (needs) {
    const a = document.createElement("a");
    a.href = "/outbox";
    a.textContent = `${needs} ${needs === 1 ? "needs" : "need"} you`;
    span.append(words.length ? " · " : "", a);
  }
  box.hidden = !span.textContent;
});
