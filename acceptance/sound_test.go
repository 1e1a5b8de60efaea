package acceptance_test

import (
	"encoding/json"
	"math"
	"testing"

	"matchmark/internal/trial"
)

// recordTone records an oscillator by MediaRecorder as one type: silence, a
// tone of two seconds, silence. It gives what sound.js makes of it: rate,
// channels and bits from the head of the WAV, its length, and how long the tone
// is in it; or null where the browser cannot record that type.
const recordTone = `(async (type) => {
	if (!MediaRecorder.isTypeSupported(type)) return null;
	const {wav} = await import([...document.scripts].find((s) => s.src.includes("page.js")).src.replace("page.js", "sound.js"));
	const room = new AudioContext();
	await room.resume();
	const to = room.createMediaStreamDestination(), tone = room.createOscillator(), gate = room.createGain();
	gate.gain.value = 0;
	tone.frequency.value = 440;
	tone.connect(gate).connect(to);
	tone.start();
	const tape = new MediaRecorder(to.stream, {mimeType: type}), parts = [];
	tape.ondataavailable = (ev) => parts.push(ev.data);
	const begun = new Promise((yes) => { tape.onstart = yes; });
	tape.start();
	await begun;
	const from = room.currentTime + 0.3;
	gate.gain.setValueAtTime(0.5, from);
	gate.gain.setValueAtTime(0, from + 2);
	await new Promise((yes) => setTimeout(yes, 2600));
	const end = new Promise((yes) => { tape.onstop = yes; });
	tape.stop();
	await end;
	await room.close();
	const made = await wav(new File(parts, "tone", {type}));
	const data = new DataView(await made.file.arrayBuffer());
	let first = -1, last = -1;
	for (let i = 44; i < data.byteLength; i += 2) if (Math.abs(data.getInt16(i, true)) > 1600) { if (first < 0) first = i; last = i; }
	return {rate: data.getUint32(24, true), channels: data.getUint16(22, true), bits: data.getUint16(34, true),
		seconds: (data.byteLength - 44) / 96000, says: made.seconds, tone: (last - first) / 96000, packed: parts.reduce((n, p) => n + p.size, 0)};
})`

// TestCheck24SoundAsWAV: what the browser records, packed as WebM or MP4, comes
// out as WAV of the right length, 48 kHz, one channel, 16 bits.
func TestCheck24SoundAsWAV(t *testing.T) {
	holds(t, 24)
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 390, 844)
	tab.Open(s.URL + "m/codlin/sound?of=part:liner.2")
	recorded := 0
	for _, kind := range []string{"audio/webm;codecs=opus", "audio/mp4;codecs=opus", "audio/webm;codecs=pcm"} {
		got := trial.Ask[*struct{ Rate, Channels, Bits, Seconds, Says, Tone, Packed float64 }](tab, recordTone+`("`+kind+`")`)
		if got == nil {
			t.Logf("%s: this browser does not record it", kind)
			continue
		}
		recorded++
		t.Logf("%s: %.0f bytes packed, tone %.3f s of %.3f s", kind, got.Packed, got.Tone, got.Seconds)
		if got.Rate != 48000 || got.Channels != 1 || got.Bits != 16 {
			t.Errorf("%s: %+v, want 48 kHz, one channel, 16 bits", kind, *got)
		}
		if math.Abs(got.Tone-2) > 0.05 || math.Abs(got.Seconds-got.Says) > 1e-6 || got.Seconds < got.Tone {
			t.Errorf("%s: the tone of 2 s is %.3f s long in a file of %.3f s", kind, got.Tone, got.Seconds)
		}
	}
	if recorded < 2 {
		t.Errorf("only %d types were recorded", recorded)
	}
	tab.Quiet()
}

// TestARecordingGoesIntoTheBook: a file that is chosen is made into WAV, goes
// up with its original and can be played from the page of its part.
func TestARecordingGoesIntoTheBook(t *testing.T) {
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 390, 844)
	tab.Open(s.URL + "m/codlin/sound?of=part:liner.2")
	tab.Until("the deck", `document.getElementById("deck-mic")`)
	trial.Ask[bool](tab, `(async () => {
		const room = new AudioContext(), to = room.createMediaStreamDestination(), tone = room.createOscillator();
		await room.resume();
		tone.connect(to); tone.start();
		const tape = new MediaRecorder(to.stream, {mimeType: "audio/webm;codecs=opus"}), parts = [];
		tape.ondataavailable = (ev) => parts.push(ev.data);
		tape.start();
		await new Promise((yes) => setTimeout(yes, 1200));
		await new Promise((yes) => { tape.onstop = yes; tape.stop(); });
		const hold = new DataTransfer();
		hold.items.add(new File(parts, "knock.webm", {type: "audio/webm"}));
		const field = document.getElementById("sound");
		field.files = hold.files;
		field.dispatchEvent(new Event("change", {bubbles: true}));
		return true;
	})()`)
	tab.Until("the WAV", `document.getElementById("sound").files[0].name === "sound.wav"`)
	tab.Set("#mic", "at the cover")
	tab.Set("#rpm", "800")
	tab.Click("main button.main")
	tab.Until("the recording on the part's page", `location.pathname.endsWith("/part/liner.2") && document.querySelector("#sounds audio")`)
	tab.Until("the length of the recording", `(() => { const a = document.querySelector("#sounds audio"); a.preload = "metadata"; return a.duration > 1 && a.duration < 2; })()`)
	e := lastEntries(t, s, 1)[0]
	var body struct {
		Of, Type, OriginalType, Mic string
		Compressed                  bool
		RPM, Seconds                float64
	}
	if err := json.Unmarshal(e.Body, &body); err != nil || e.Kind != "sound-added" {
		t.Fatalf("%s: %v", e.Kind, err)
	}
	if body.Of != "part:liner.2" || body.Type != "audio/wav" || body.OriginalType != "audio/webm" || !body.Compressed || body.RPM != 800 || body.Mic != "at the cover" || body.Seconds < 1 {
		t.Errorf("kept as %+v", body)
	}
	tab.Quiet()
}
