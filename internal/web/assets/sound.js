// Records a sound, or takes a file, and makes of it what can be analysed: WAV,
// 48 kHz, one channel, 16 bits. The recording as it came goes up beside it.

const RATE = 48000; // Hz
const MOST = 170; // s: what goes up at once with its original
const LOUD = 0.98; // of full scale; beyond it the top is cut off

/**
 * A sound of any sort the browser can open, as WAV.
 * @param {Blob} file
 * @returns {Promise<{file: File, seconds: number, loud: boolean}>}
 */
export async function wav(file) {
  const heard = await new OfflineAudioContext(1, 1, RATE).decodeAudioData(await file.arrayBuffer());
  const n = heard.length, out = new DataView(new ArrayBuffer(44 + 2 * n));
  const lines = Array.from({ length: heard.numberOfChannels }, (_, c) => heard.getChannelData(c));
  [..."RIFF    WAVEfmt "].forEach((c, i) => out.setUint8(i, c.charCodeAt(0)));
  [..."data"].forEach((c, i) => out.setUint8(36 + i, c.charCodeAt(0)));
  for (const [at, v] of [[4, 36 + 2 * n], [16, 16], [24, RATE], [28, 2 * RATE], [40, 2 * n]]) out.setUint32(at, v, true);
  for (const [at, v] of [[20, 1], [22, 1], [32, 2], [34, 16]]) out.setUint16(at, v, true);
  let loud = false;
  for (let i = 0; i < n; i++) {
    let v = 0;
    for (const l of lines) {
      v += l[i] / lines.length;
      loud ||= Math.abs(l[i]) >= LOUD;
    }
    out.setInt16(44 + 2 * i, Math.max(-32768, Math.min(32767, Math.round(v * 32768))), true);
  }
  return { file: new File([out], "sound.wav", { type: "audio/wav" }), seconds: n / RATE, loud };
}

const $ = (/** @type {string} */ id) => /** @type {any} */ (document.getElementById(id));

function put(/** @type {HTMLInputElement} */ field, /** @type {File} */ file) {
  const hold = new DataTransfer();
  hold.items.add(file);
  field.files = hold.files;
}

/** A field of the form that only the script needs. */
function extra(/** @type {HTMLFormElement} */ form, /** @type {string} */ name, /** @type {string} */ type) {
  const el = form.querySelector(`[name=${name}]`) ?? form.appendChild(document.createElement("input"));
  return Object.assign(/** @type {HTMLInputElement} */ (el), { name, type, hidden: true });
}

/** Takes a recording into the form, with words on what came of it. */
async function take(/** @type {HTMLFormElement} */ form, /** @type {File} */ file) {
  const field = $("sound");
  const say = (/** @type {string} */ words) => { /** @type {HTMLElement} */ (form.querySelector(".heard")).textContent = words; };
  if (!form.querySelector(".heard")) field.insertAdjacentHTML("afterend", `<p class="heard" role="status"></p><audio class="heard-again" controls hidden></audio>`);
  say("Opening the recording…");
  extra(form, "taken", "hidden").value = new Date(file.lastModified).toISOString().slice(0, 19) + "Z";
  try {
    const made = await wav(file);
    if (made.seconds > MOST) {
      field.value = "";
      return say(`That is ${Math.round(made.seconds)} s. The box takes ${MOST} s at once; nothing was kept. Record a shorter piece.`);
    }
    if (!/wav/.test(file.type)) put(extra(form, "original", "file"), file);
    put(field, made.file);
    const again = /** @type {HTMLAudioElement} */ (form.querySelector(".heard-again"));
    again.src = URL.createObjectURL(made.file);
    again.hidden = false;
    say(`${made.seconds.toFixed(1)} s.${made.loud ? " It is too loud in places and the tops are cut off: go farther off and record again." : ""}`);
  } catch {
    say(`${file.name} can't be opened here. It goes up as it is, and the box says whether it can keep it.`);
  }
}

/** The microphone as it is: the helps for speech alter the sound of an engine. */
const raw = { audio: { echoCancellation: false, noiseSuppression: false, autoGainControl: false } };

async function microphone(/** @type {HTMLFormElement} */ form) {
  let line;
  try {
    line = await navigator.mediaDevices.getUserMedia(raw);
  } catch {
    $("deck-words").textContent = "The microphone was not given. Allow it for this page in the browser, or choose a recording below.";
    return;
  }
  const hears = new AudioContext(), meter = hears.createAnalyser(), wave = new Float32Array(2048);
  meter.fftSize = wave.length;
  hears.createMediaStreamSource(line).connect(meter);
  let cut = 0;
  (function level() {
    if (!line.active || !form.isConnected) return line.getTracks().forEach((t) => t.stop());
    meter.getFloatTimeDomainData(wave);
    const top = wave.reduce((a, v) => Math.max(a, Math.abs(v)), 0);
    $("deck-level").setAttribute("width", `${Math.min(100, top * 100)}%`);
    if (top >= LOUD) cut = performance.now();
    $("deck-words").textContent = cut && performance.now() - cut < 2000 ? "Too loud: go farther off." : "Loud enough is about the middle; never past the mark.";
    requestAnimationFrame(level);
  })();
  const type = ["audio/webm;codecs=pcm", "audio/webm;codecs=opus", "audio/mp4"].find((t) => MediaRecorder.isTypeSupported(t));
  const button = $("deck-record");
  $("deck-mic").hidden = true;
  button.hidden = false;
  /** @type {MediaRecorder | null} */
  let tape = null;
  button.addEventListener("click", () => {
    if (tape) return tape.stop();
    const parts = /** @type {Blob[]} */ ([]);
    tape = new MediaRecorder(line, type ? { mimeType: type } : {});
    tape.ondataavailable = (ev) => parts.push(ev.data);
    const end = setTimeout(() => tape?.stop(), (MOST - 5) * 1000);
    tape.onstop = () => {
      clearTimeout(end);
      button.textContent = "Record again";
      take(form, new File(parts, "recording", { type: tape.mimeType.split(";")[0] }));
      tape = null;
    };
    tape.start();
    button.textContent = "Stop";
  });
}

function begin() {
  const form = /** @type {HTMLFormElement | null} */ (document.querySelector("form[data-sound]"));
  if (!form || form.querySelector("#deck-mic")) return;
  if (navigator.mediaDevices && "MediaRecorder" in self) { // absent on plain http, where a file is chosen
    $("deck").replaceWith($("deck").content);
    $("deck-mic").addEventListener("click", () => microphone(form));
  }
  $("sound").addEventListener("change", () => { if ($("sound").files[0]) take(form, $("sound").files[0]); });
}

begin();
document.addEventListener("swapped", begin);
