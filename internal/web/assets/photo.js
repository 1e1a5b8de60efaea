// Makes a chosen photo small before it goes up: turned upright, at most 2048
// px long, and without what the camera wrote into it beside the picture, such
// as the place. What cannot be opened here goes up as it is and is named.

const EDGE = 2048; // px, as the box keeps it
const QUALITY = 0.82;

/** @param {File} file @returns {Promise<File>} */
async function small(file) {
  const img = await createImageBitmap(file); // upright: the turn is taken from the file
  const by = Math.min(1, EDGE / Math.max(img.width, img.height));
  const at = document.createElement("canvas");
  at.width = Math.round(img.width * by);
  at.height = Math.round(img.height * by);
  const pen = at.getContext("2d");
  pen.imageSmoothingQuality = "high";
  pen.drawImage(img, 0, 0, at.width, at.height);
  img.close();
  const data = await new Promise((yes) => at.toBlob(yes, "image/jpeg", QUALITY));
  return new File([data], file.name.replace(/\.\w+$/, "") + ".jpg", { type: "image/jpeg", lastModified: file.lastModified });
}

/** Shows one thing under the field, in the place of the last. */
function under(/** @type {HTMLInputElement} */ field, /** @type {HTMLElement} */ el) {
  field.parentElement.querySelector(".chosen")?.remove();
  el.classList.add("chosen");
  field.after(el);
}

/** The hour it was taken, by this device: the small photo does not say it. */
function sayTaken(/** @type {HTMLInputElement} */ field, /** @type {File} */ file) {
  const el = field.form.querySelector("[name=taken]") ?? field.form.appendChild(document.createElement("input"));
  Object.assign(el, { type: "hidden", name: "taken", value: new Date(file.lastModified).toISOString().slice(0, 19) + "Z" });
}

async function chosen(/** @type {HTMLInputElement} */ field) {
  const file = field.files[0];
  if (!file) return field.parentElement.querySelector(".chosen")?.remove();
  sayTaken(field, file);
  field.setAttribute("aria-busy", "true");
  try {
    const made = await small(file);
    if (field.files[0] !== file) return; // another was chosen meanwhile
    const hold = new DataTransfer();
    hold.items.add(made);
    field.files = hold.files;
    const img = new Image();
    img.alt = "The photo that was chosen";
    img.onload = () => URL.revokeObjectURL(img.src);
    img.src = URL.createObjectURL(made);
    under(field, img);
  } catch {
    const say = document.createElement("p");
    const heic = /\.hei[cf]$/i.test(file.name) || /hei[cf]/.test(file.type);
    say.setAttribute("role", "status");
    say.textContent = heic ? `${file.name} is HEIC, which this box can't open. On the phone choose Most Compatible, or send a JPEG.`
      : `${file.name} can't be opened here. It goes up as it is, and the box says whether it can keep it.`;
    under(field, say);
  } finally {
    field.removeAttribute("aria-busy");
  }
}

document.addEventListener("change", (ev) => {
  const field = /** @type {HTMLInputElement} */ (ev.target);
  if (field.type === "file" && field.accept.includes("image") && field.form) chosen(field);
});
document.addEventListener("reset", (ev) => {
  for (const el of /** @type {HTMLElement} */ (ev.target).querySelectorAll(".chosen")) el.remove();
});
