// "Photo and one line": shows what the box understands of the line while it is
// typed. Without this module the form does the same by its own buttons.

const PAUSE = 120; // ms without a key until the line is read
const get = (/** @type {string} */ css) => /** @type {any} */ (document.querySelector(css));
const keep = () => get(".keepbar button");

let told = ""; // the joint that the person named
let timer = 0;
let nth = 0; // the question asked last: an answer to an earlier one is too late
/** What the person changed in what was understood: it stays so. @type {Map<string, any>} */
const changed = new Map();

/** A field as it is told from the others, and the property that it holds. */
const nameOf = (/** @type {any} */ el) => el.name + (el.type === "checkbox" ? el.value : "");
const holds = (/** @type {any} */ el) => el.type === "checkbox" ? "checked" : "value";

/** Nothing is kept as understood that was not shown: until then the button waits. */
function hear(/** @type {number} */ pause) {
  const mine = ++nth;
  clearTimeout(timer);
  keep().disabled = true;
  timer = setTimeout(async () => {
    let html = "";
    try {
      const asks = new URLSearchParams({ line: get("#line").value, joint: told });
      const got = await fetch(get("#sheet").dataset.heard + "?" + asks, { signal: AbortSignal.timeout(4000) });
      if (got.ok) html = await got.text();
    } catch { /* out of reach */ }
    if (mine === nth && get("#heard")) show(html);
  }, pause);
}

/** Puts what was understood on the sheet; without an answer photo and line are kept as they are. */
function show(/** @type {string} */ html) {
  get("#heard").innerHTML = html || get("#unread").innerHTML;
  for (const el of get("#sheet").elements) if (changed.has(nameOf(el))) el[holds(el)] = changed.get(nameOf(el));
  get(".correct")?.toggleAttribute("open", changed.size);
  get(".more").open = !get("#line").value;
  main();
}

/** One main action: as the line is read by itself, keeping is it, once there is something to keep. */
function main() {
  const joint = get("[name=joint]");
  keep().classList.add("press", "main");
  keep().hidden = !joint && !["#photo", "#roll", "#line", "[name=sum]"].some((css) => get(css)?.value);
  get("#sheet").dataset.outbox = joint ? "" : "last";
}

document.addEventListener("input", (ev) => {
  if (/** @type {any} */ (ev.target).id === "line" && get("#heard")) hear(PAUSE);
});

document.addEventListener("change", (ev) => {
  const el = /** @type {any} */ (ev.target);
  if (el.closest("#heard")) changed.set(nameOf(el), el[holds(el)]);
  if (!el.closest(".shots")) return;
  get(".chosen")?.remove();
  get(el.id === "roll" ? "#photo" : "#roll").value = ""; // one photo goes up
  if (get("#heard")) main();
});

// Ahead of page.js, which sends the form: to choose is not to keep.
document.addEventListener("click", (ev) => {
  const by = /** @type {any} */ (ev.target).closest("[name=pick]");
  if (!by) return;
  told = by.value;
  ev.preventDefault();
  changed.clear(); // it was of another joint
  hear(0);
  scrollTo(0, 0);
});

document.addEventListener("reset", () => {
  changed.clear();
  told = "";
  if (get("#heard")) setTimeout(hear);
});

/** Takes hold of the sheet of this page. */
function start() {
  if (!get("#heard")) return;
  changed.clear();
  told = get("[name=told]")?.value ?? "";
  main();
  if (get("#line").value) hear(0); // the browser may have put it back
}

document.addEventListener("swapped", start);
start();
