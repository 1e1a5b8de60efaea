// Fills a refused record into its form again. What is sent then stands in its
// place; until then it stays in the outbox.
import { all } from "./outbox.js";

/** How well a form fits a record: its fields by name, the hidden ones by value. */
function fits(/** @type {HTMLFormElement} */ form, /** @type {import("./outbox.js").Rec} */ rec) {
  if (form.action !== rec.action) return -1;
  return rec.fields.filter(([k, v]) => {
    const el = form.querySelector(`[name="${CSS.escape(k)}"]`);
    return el && (el.type !== "hidden" || el.value === v) && (el.localName !== "button" || el.value === v);
  }).length;
}

/** @param {string} id of a record */
export async function again(id) {
  const rec = (await all()).find((r) => r.id === id);
  const form = rec && [...document.forms].sort((a, b) => fits(b, rec) - fits(a, rec))[0];
  if (!form || fits(form, rec) < 0) return;
  form.dataset.again = id;
  for (const el of /** @type {any} */ (form.elements)) {
    const values = rec.fields.filter(([k]) => k === el.name).map(([, v]) => v);
    if (el.type === "hidden" || el.localName === "button" || !el.name) continue;
    if (el.type === "checkbox" || el.type === "radio") el.checked = values.includes(el.value);
    else if (el.type === "file") {
      const hold = new DataTransfer();
      for (const v of values) if (v instanceof File) hold.items.add(v);
      el.files = hold.files;
    } else if (values.length) el.value = values[0];
    if (values.length) el.closest("details")?.setAttribute("open", "");
  }
  const say = document.createElement("p");
  say.className = "say";
  say.setAttribute("role", "alert");
  say.textContent = rec.said ?? "";
  form.before(say);
  say.scrollIntoView({ block: "center" });
  /** @type {HTMLElement} */ (form.querySelector("input:not([type=hidden]), select, textarea"))?.focus({ preventScroll: true });
}
