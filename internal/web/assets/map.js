// Buttons that move a sheet shown larger than its box, so that nobody has to
// swipe; the part chosen is brought to the middle first.

const box = () => document.querySelector(".easel.large");

function ready() {
  const easel = box();
  if (!easel) return;
  for (const row of document.querySelectorAll(".mapmove")) /** @type {HTMLElement} */ (row).hidden = false;
  const here = easel.querySelector("use.here");
  if (!here) return;
  const at = here.getBoundingClientRect(), own = easel.getBoundingClientRect();
  easel.scrollBy(at.left + at.width / 2 - own.left - own.width / 2, at.top + at.height / 2 - own.top - own.height / 2);
}

document.addEventListener("click", (e) => {
  const button = /** @type {Element} */ (e.target).closest("[data-move]");
  const easel = box();
  if (!button || !easel) return;
  const [x, y] = String(button.getAttribute("data-move")).split(" ").map(Number);
  easel.scrollBy(0.7 * x * easel.clientWidth, 0.7 * y * easel.clientHeight);
});
document.addEventListener("swapped", ready);
ready();
