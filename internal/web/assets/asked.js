// The outbox as a page: what the box refused, what waits, what was put away.
// Nothing leaves this list but by the person's own tap after it was shown.
import { all, alter, drain, keptWords, onChange } from "./outbox.js";

const $ = (/** @type {string} */ id) => document.getElementById(id);
const stamp = new Intl.DateTimeFormat(document.documentElement.lang.replace(/^en$/, "en-GB"), { dateStyle: "medium", timeStyle: "short" });

/** @typedef {import("./outbox.js").Rec} Rec */

/** Where a record is filled in again: a reading at its own point. */
function pageOf(/** @type {Rec} */ r) {
  const at = r.fields.find(([k]) => k === "point")?.[1];
  const page = new URL(at ? r.action : r.page);
  if (at) page.searchParams.set("at", String(at));
  page.hash = "again=" + r.id;
  return page.href;
}

const said = (/** @type {Rec} */ r) => `${r.title}\n${stamp.format(r.made)}\n${r.words}`;

/** One record with the buttons that fit its state. */
function item(/** @type {Rec} */ r) {
  const li = /** @type {DocumentFragment} */ (/** @type {HTMLTemplateElement} */ ($("record")).content.cloneNode(true));
  const put = (/** @type {string} */ of, /** @type {string} */ text) => {
    const el = li.querySelector(`[data-of=${of}]`);
    el.textContent = text;
    el.toggleAttribute("hidden", !text);
  };
  put("title", r.title);
  put("when", stamp.format(r.made));
  put("said", r.state === "asked" ? r.said ?? "" : "");
  put("words", r.words);
  for (const el of /** @type {NodeListOf<HTMLElement>} */ (li.querySelectorAll("[data-in]"))) {
    if (!el.dataset.in.split(" ").includes(r.state)) el.remove();
    else if (el instanceof HTMLAnchorElement) el.href = pageOf(r);
    else el.addEventListener("click", () => acts[el.dataset.do](r, el));
  }
  return li;
}

/** @type {Record<string, (r: Rec, el: HTMLElement) => void>} */
const acts = {
  async send(r) {
    await alter(r.id, (x) => ({ ...x, state: "wait" }));
    drain();
  },
  away: (r) => alter(r.id, (x) => ({ ...x, state: "away" })),
  back: (r) => alter(r.id, (x) => ({ ...x, state: "asked" })),
  copy(r, el) { // the clipboard is absent on plain http
    const field = document.createElement("textarea");
    field.value = said(r);
    el.after(field);
    field.select();
    if (document.execCommand("copy")) {
      field.remove();
      el.textContent = "Copied";
    }
  },
};

let shown = "";
const page = $("none").parentElement;
page.setAttribute("aria-busy", "true"); // until this device's store has answered

onChange(async ({ wait, asked, away }) => {
  const now = JSON.stringify([wait, asked, away].map((l) => l.map((r) => r.id)));
  for (const [id, list] of Object.entries(now === shown ? {} : { asked, wait, away })) {
    $(id).replaceChildren(...list.map(item));
    $(id).parentElement.hidden = !list.length;
  }
  shown = now;
  $("none").hidden = wait.length + asked.length + away.length > 0;
  $("all").textContent = await keptWords();
  page.removeAttribute("aria-busy");
});

$("now").addEventListener("click", drain);
$("plain").hidden = isSecureContext;
