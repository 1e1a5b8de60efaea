package web

import (
	"bytes"
	"encoding/binary"
	"mime/multipart"
	"net/http/httptest"
	"strings"
	"testing"
)

// silence is a WAV of so many seconds: 48 kHz, one channel, 16 bits.
func silence(seconds float64) []byte {
	n, le := int(seconds*48000)*2, binary.LittleEndian
	b := append([]byte("RIFF"), le.AppendUint32(nil, uint32(36+n))...)
	b = append(b, "WAVEfmt \x10\x00\x00\x00\x01\x00\x01\x00\x80\xbb\x00\x00\x00\x77\x01\x00\x02\x00\x10\x00data"...)
	return append(le.AppendUint32(b, uint32(n)), make([]byte, n)...)
}

// sendFiles posts a form with files.
func (h *house) sendFiles(path string, fields map[string]string, files map[string][]byte) *page {
	h.t.Helper()
	var body bytes.Buffer
	form := multipart.NewWriter(&body)
	for name, value := range fields {
		form.WriteField(name, value)
	}
	for name, data := range files {
		w, err := form.CreateFormFile(name, name)
		if err != nil {
			h.t.Fatal(err)
		}
		w.Write(data)
	}
	form.Close()
	r := httptest.NewRequest("POST", "http://localhost:8080"+path, &body)
	r.Header.Set("Content-Type", form.FormDataContentType())
	return h.send(r)
}

// TestARecordingIsKept with the one it was made from, stands on its page, and
// is played in pieces.
func TestARecordingIsKept(t *testing.T) {
	h := newHouse(t)
	for _, row := range []struct{ of, shown string }{
		{"part:liner.2", "/m/codlin/part/liner.2"}, {"joint:timing-cover-block", "/m/codlin/joint/timing-cover-block"}, {"", "/m/codlin/prove"},
	} {
		h.ask("GET", "/m/codlin/sound?of="+row.of, nil).is(200)
		fields := map[string]string{"once": "s" + row.of, "of": row.of, "mic": "at the cover", "rpm": "800", "caption": "knock", "taken": "2026-11-30T10:00:00Z"}
		to := h.sendFiles("/m/codlin/sound", fields, map[string][]byte{"sound": silence(1.5), "original": []byte("\x1aE\xdf\xa3 " + row.of)}).is(303).header.Get("Location")
		if to != row.shown+"#sounds" {
			t.Errorf("leads to %q", to)
		}
		h.ask("GET", row.shown, nil).is(200).says("1.5 s, at the cover, 800 rpm: knock", "from a compressed recording")
	}
	m := h.view().Machine
	if len(m.Sounds) != 3 {
		t.Fatalf("%d recordings", len(m.Sounds))
	}
	s := m.Sounds[0]
	if s.Type != "audio/wav" || s.OriginalType != "audio/webm" || s.Seconds != 1.5 || s.RPM != 800 || s.TakenAt.Hour() != 10 {
		t.Errorf("kept as %+v", s)
	}
	r := httptest.NewRequest("GET", "http://localhost:8080/m/codlin/s/"+string(s.Sum), nil)
	r.Header.Set("Range", "bytes=0-3")
	p := h.send(r).is(206)
	if string(p.raw) != "RIFF" || p.header.Get("Content-Type") != "audio/wav" || !strings.HasPrefix(p.header.Get("Content-Security-Policy"), "sandbox") {
		t.Errorf("played as %q, %v", p.raw, p.header)
	}
	h.ask("GET", "/m/codlin/s/"+strings.Repeat("0", 64), nil).is(404)
	if words := h.ask("GET", "/m/codlin/book", nil).is(200).text; !strings.Contains(words, "Recording of") {
		t.Error("the book does not tell of the recordings")
	}
}

// TestARecordingIsRefused by name, with what was typed.
func TestARecordingIsRefused(t *testing.T) {
	h := newHouse(t)
	fields := map[string]string{"once": "s", "mic": "at the cover", "rpm": "800"}
	h.sendFiles("/m/codlin/sound", fields, map[string][]byte{"sound": []byte("\xff\xd8\xff\xe0 a photo")}).is(422).says("no recording this box knows")
	h.sendFiles("/m/codlin/sound", fields, nil).is(422).says("There was no recording")
	fields["rpm"] = "fast"
	p := h.sendFiles("/m/codlin/sound", fields, map[string][]byte{"sound": silence(0.1)}).is(422)
	p.says("is no engine speed", "The recording has arrived")
	if mic, sum := p.value("mic"), p.value("sum"); mic != "at the cover" || len(sum) != 64 {
		t.Errorf("typed %q, sum %q", mic, sum)
	}
	fields["rpm"], fields["sum"] = "850", p.value("sum")
	h.sendFiles("/m/codlin/sound", fields, nil).is(303)
	h.ask("GET", "/m/codlin/sound?of=part:none", nil).is(404)
	if n := len(h.view().Machine.Sounds); n != 1 {
		t.Errorf("%d recordings, want 1", n)
	}
}
