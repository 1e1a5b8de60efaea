// Reads what a measuring tool typed, by the rules of the box itself
// (trade/wedge): one corpus holds both to the same answers.

const blanks = /[\u0000-\u0020\u007f\u0085\u00a0\u1680\u2000-\u200b\u2028\u2029\u202f\u205f\u3000\ufeff]+/g;
const minuses = /[\u2010-\u2013\u2212\ufe63\uff0d]/g;
const form = /^([+-]?) ?(\d{0,9})(?:([.,])(\d{0,9}))? ?([,;:]?) ?(mm|inch|in|"|″)? ?([,;]?)$/i;
const two = /\d ?[a-z"″]{0,4}[ ,;]+[+-]?\d/i;

export const plain = (/** @type {string} */ raw) => raw.replace(minuses, "-").replace(blanks, " ").trim();

/** What stands for any digit, any letter or itself, as a pattern. */
const pattern = (/** @type {string} */ prefix) => new RegExp("^" + plain(prefix).replace(/[^]/gu,
  (c) => c === "#" ? "[0-9]" : c === "@" ? "[A-Za-z]" : c.replace(/[\\^$.*+?()[\]{}|/-]/, "\\$&")));

/**
 * @param {string} raw
 * @param {{prefix?: string, unit: string, mark?: string}} tool
 * @returns {{text: string, unit: string, why?: undefined} | {why: string}}
 */
export function read(raw, { prefix = "", unit, mark }) {
  if ([...raw].length > 64) return { why: "not a reading" };
  let text = plain(raw);
  if (!text) return { why: "nothing arrived" };
  if (prefix) text = plain(text.replace(pattern(prefix), ""));
  const m = form.exec(text);
  if (!m || !(m[2] + (m[4] ?? ""))) return { why: two.test(text) ? "two figures" : "not a reading" };
  const [, sign, all, sep, part = "", s1, said = "", s2] = m;
  if (sep === "," && part) {
    if (mark === "point") return { why: "comma for a point" };
    if (s1 === "," || s2 === ",") return { why: "comma twice" };
  }
  const whole = all.replace(/^0+/, "");
  const minus = sign === "-" && /[1-9]/.test(whole + part) ? "-" : "";
  return { text: minus + (whole || "0") + (part && "." + part), unit: said ? (/^mm$/i.test(said) ? "mm" : "in") : unit };
}
