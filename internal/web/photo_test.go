package web

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"mime/multipart"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"

	"matchmark/internal/finding/sequence"
	"matchmark/internal/machine"
)

// upload posts a form with a file.
func (h *house) upload(path string, form url.Values, name string, data []byte) *page {
	h.t.Helper()
	var body bytes.Buffer
	m := multipart.NewWriter(&body)
	for k, vs := range form {
		for _, v := range vs {
			m.WriteField(k, v)
		}
	}
	if name != "" {
		f, err := m.CreateFormFile("photo", name)
		if err != nil {
			h.t.Fatal(err)
		}
		f.Write(data)
	}
	m.Close()
	r := httptest.NewRequest("POST", "http://localhost:8080"+path, &body)
	r.Header.Set("Content-Type", m.FormDataContentType())
	return h.send(r)
}

func jpegOf(t *testing.T, w, h int) []byte {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			img.Set(x, y, color.RGBA{uint8(x), uint8(y), 90, 255})
		}
	}
	var out bytes.Buffer
	if err := jpeg.Encode(&out, img, nil); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// TestRemoval records an opening with its photo, fasteners, shims and tray; a
// slip in a field keeps the photo and all that was typed.
func TestRemoval(t *testing.T) {
	h := newHouse(t)
	var j *machine.Joint
	for _, s := range h.view().Plan().Free {
		if s.Act == sequence.Open && len(s.Joint.Parts) > 1 {
			j = s.Joint
			break
		}
	}
	form := url.Values{"joint": {string(j.ID)}, "tray": {"17"}, "line": {"came off dry"}, "off": {string(j.Parts[1].ID)}, "mark": {"2 dots"},
		"set-count-0": {"four"}, "set-size-0": {"M8x1.25x30"}, "set-state-0": {"stretched"}, "shim-count-0": {"2"}, "shim-size-0": {"0,15"}, "breakaway": {"45"}}
	p := h.upload("/m/codlin/photo", form, "a.jpg", jpegOf(t, 800, 600)).is(422)
	p.says("“four” is no count", "The photo has arrived")
	for field, want := range map[string]string{"tray": "17", "line": "came off dry", "set-size-0": "M8x1.25x30", "shim-size-0": "0,15", "breakaway": "45"} {
		if got := p.value(field); got != want {
			t.Errorf("%s holds %q, want %q", field, got, want)
		}
	}
	if h.view().Machine.Joint(j.ID).State != machine.AsMade {
		t.Fatal("the joint was opened by a form that was refused")
	}
	form.Set("set-count-0", "4")
	form.Set("sum", p.value("sum"))
	h.upload("/m/codlin/photo", form, "", nil).is(303)
	got := h.view().Machine.Joint(j.ID)
	r := got.Removals[0]
	if got.State != machine.Open || r.Tray != "17" || r.Fasteners[0].Count != 4 || r.Fasteners[0].State != "stretched" || r.Shims[0].ThicknessMM != 0.15 ||
		r.Breakaway.Value != 45 || r.Breakaway.Unit != "N·m" || len(r.Photos) != 1 || len(r.Off) != 1 {
		t.Errorf("kept %+v", r)
	}
	h.ask("GET", "/m/codlin/joint/"+string(j.ID), nil).is(200).says("came off dry", "4 × M8x1.25x30", "2 × 0.15 mm", "stretched")
	full := h.ask("GET", "/m/codlin/p/"+string(r.Photos[0]), nil).is(200)
	if full.header.Get("Content-Type") != "image/jpeg" || !strings.HasPrefix(full.header.Get("Content-Security-Policy"), "sandbox") || full.header.Get("X-Content-Type-Options") != "nosniff" {
		t.Errorf("the photo is served with %v", full.header)
	}
	small := h.ask("GET", "/m/codlin/p/"+string(r.Photos[0])+"/small", nil).is(200)
	shape, err := jpeg.DecodeConfig(bytes.NewReader(small.raw))
	if err != nil || shape.Width != 480 || shape.Height != 360 {
		t.Errorf("the thumbnail is %dx%d: %v", shape.Width, shape.Height, err)
	}
	h.upload("/m/codlin/photo", form, "", nil).is(422).says("open already")
}

// TestBadPhotos: each refused by what it is, with the remedy, and nothing kept.
func TestBadPhotos(t *testing.T) {
	h := newHouse(t)
	before := h.view().Machine.Entries
	heic := append([]byte{0, 0, 0, 24}, []byte("ftypheic\x00\x00\x00\x00mif1heic")...)
	form := url.Values{"part": {"crankshaft"}, "line": {"as it lay"}}
	for name, row := range map[string]struct {
		data []byte
		say  string
	}{
		"a.heic":   {heic, "HEIC"},
		"a.jpg":    {heic, "Most Compatible"},
		"b.jpg":    {[]byte("<svg xmlns='http://www.w3.org/2000/svg'><script/></svg>"), "no JPEG or PNG"},
		"c.jpg":    {jpegOf(t, 64, 64)[:300], "whole"},
		"d.gif":    {[]byte("GIF89a\x01\x00\x01\x00\x80"), "Send a JPEG"},
		"huge.jpg": {bytes.Repeat([]byte{0xff}, maxPhoto+1), "20 MB"},
	} {
		p := h.upload("/m/codlin/photo", form, name, row.data).is(422)
		p.says(row.say)
		if p.value("line") != "as it lay" {
			t.Errorf("%s: the line is gone", name)
		}
	}
	h.upload("/m/codlin/photo", form, "far.jpg", bytes.Repeat([]byte{0xff}, maxPhoto+maxForm)).is(413).says("Nothing of it was kept")
	h.upload("/m/codlin/photo", url.Values{"part": {"crankshaft"}}, "", nil).is(422).says("neither a photo nor a line")
	h.upload("/m/codlin/photo", url.Values{"part": {"crankshaft"}, "sum": {strings.Repeat("ab", 32)}}, "", nil).is(422)
	if after := h.view().Machine.Entries; after != before {
		t.Errorf("%d entries kept", after-before)
	}
	h.ask("POST", "/m/codlin/part/crankshaft", url.Values{"do": {"note"}, "text": {strings.Repeat("x", maxForm)}}).is(413)
}

// TestPhotoOfPart ties a photo to a part; a drawing of the project is served
// as it is, without rights.
func TestPhotoOfPart(t *testing.T) {
	h := newHouse(t)
	h.upload("/m/codlin/photo", url.Values{"part": {"crankshaft"}, "line": {"pin 2 scored"}}, "x.jpg", jpegOf(t, 320, 200)).is(303)
	h.ask("GET", "/m/codlin/part/crankshaft", nil).is(200).says("pin 2 scored")
	sum, err := h.shop.Log().PutBlob(t.Context(), []byte(`<svg xmlns="http://www.w3.org/2000/svg"/>`), "image/svg+xml")
	if err != nil {
		t.Fatal(err)
	}
	h.ask("GET", "/m/codlin/p/"+string(sum), nil).is(404)
	h.record(&machine.PhotoAdded{Of: machine.RefPart("crankshaft"), Sum: sum, Type: "image/svg+xml", Caption: "sketch"})
	for _, size := range []string{"", "/small"} {
		p := h.ask("GET", "/m/codlin/p/"+string(sum)+size, nil).is(200)
		if p.header.Get("Content-Type") != "image/svg+xml" || !strings.HasPrefix(p.header.Get("Content-Security-Policy"), "sandbox") {
			t.Errorf("served with %v", p.header)
		}
	}
}
