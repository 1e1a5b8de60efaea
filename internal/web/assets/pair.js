// Takes the one-time secret out of the address, where the camera put it, and
// into the form. It leaves the address bar and the history at once.
function take() {
  const secret = location.hash.slice(1);
  const field = /** @type {HTMLInputElement | null} */ (document.getElementById("secret"));
  if (!field || !/^[\w-]{22}$/.test(secret)) return;
  history.replaceState(history.state, "", location.pathname + location.search);
  field.value = secret;
  for (const el of document.querySelectorAll(".bycode")) el.remove();
  for (const el of document.querySelectorAll(".bypicture")) /** @type {HTMLElement} */ (el).hidden = false;
  document.getElementById("by")?.focus();
}

take();
addEventListener("hashchange", take); // a picture read while the page stood open

document.getElementById("join")?.addEventListener("submit", (ev) => {
  const form = /** @type {HTMLFormElement} */ (ev.target);
  if (form.dataset.sent !== undefined) ev.preventDefault(); // a second tap would spend the code twice
  form.dataset.sent = "";
});
addEventListener("pageshow", () => { delete document.getElementById("join")?.dataset.sent; });
