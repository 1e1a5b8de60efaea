// Keeps the reading field in focus, so that a calliper that types lands there
// after any tap, and drops the second of two equal posts within 400 ms.
const field = document.getElementById("reading");
if (field) {
  const quiet = (el) => el.closest("a, button, select, summary, details, input, textarea, label");
  document.addEventListener("pointerup", (ev) => {
    if (!quiet(ev.target)) setTimeout(() => field.focus({ preventScroll: true }), 60);
  });
  field.select(); // a refused reading is typed over by the next
  let last = { text: "", at: 0 };
  field.form.addEventListener("submit", (ev) => {
    const now = performance.now();
    if (field.value.trim() === "" || (field.value === last.text && now - last.at < 400)) {
      ev.preventDefault();
      return;
    }
    last = { text: field.value, at: now };
  });
}
