// Buttons that move a sheet shown larger than its box, so that nobody has to
// swipe; the part chosen is brought to the middle first.

const box = () => document.querySelector(".paper.large");

function ready() {
  const paper = box();
  if (!paper) return;
  for (const row of document.querySelectorAll(".mapmove")) /** @type {HTMLElement} */ (row).hidden = false;
  const here = paper.querySelector("use.here");
  if (!here) return;
  const at = here.getBoundingClientRect(), own = paper.getBoundingClientRect();
  paper.scrollBy(at.left + at.width / 2 - own.left - own.width / 2, at.top + at.height / 2 - own.top - own.height / 2);
}

document.addEventListener("click", (e) => {
  const button = /** @type {Element} */ (e.target).closest("[data-move]");
  const paper = box();
  if (!button || !paper) return;
  const [x, y] = String(button.getAttribute("data-move")).split(" ").map(Number);
  paper.scrollBy(0.7 * x * paper.clientWidth, 0.7 * y * paper.clientHeight);
});
document.addEventListener("swapped", ready);
ready();
