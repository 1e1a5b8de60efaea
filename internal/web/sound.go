package web

import (
	"bytes"
	"errors"
	"io"
	"mime/multipart"
	"net/http"
	"strconv"
	"strings"
	"time"

	"matchmark/internal/bench"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
	"matchmark/internal/web/recording"
)

// soundView is the form that takes a recording.
type soundView struct {
	Base, Of, Name    string
	Fault             string
	Mic, RPM, Caption string
	Sum, Original     string // of files that have arrived already
}

// soundList is the recordings of one thing, with the way to take another.
type soundList struct {
	Take string
	List []soundRow
}

type soundRow struct{ At, Type, Words, Note, Withdraw string }

// soundsOf lists the recordings of a part, a joint or, with no ref, of the
// machine as a whole.
func soundsOf(m *machine.Machine, base string, ref machine.Ref) soundList {
	out := soundList{Take: base + "/sound"}
	if ref != "" {
		out.Take += "?of=" + escape(string(ref))
	}
	for _, s := range m.Sounds {
		if s.Of != ref {
			continue
		}
		row := soundRow{At: base + "/s/" + string(s.Sum), Type: s.Type, Words: minute(s.At) + ", " + s.By + behind(", ", secondsWords(s.Seconds)) + behind(", ", s.Mic)}
		if s.RPM > 0 {
			row.Words += ", " + strconv.FormatFloat(s.RPM, 'f', -1, 64) + " rpm"
		}
		row.Words += behind(": ", s.Caption)
		if s.Compressed {
			row.Note = "from a compressed recording"
		}
		out.List = append(out.List, row)
	}
	return out
}

// secondsWords says a length of time; nothing for none.
func secondsWords(s float64) string {
	if s <= 0 {
		return ""
	}
	return strconv.FormatFloat(s, 'f', 1, 64) + " s"
}

func soundPage(v *visit) error {
	return v.showSound(soundView{Of: v.asked("of")}, http.StatusOK)
}

func (v *visit) showSound(sv soundView, status int) error {
	sv.Base, sv.Name = v.base(), "the machine"
	back := sv.Base + "/prove"
	if sv.Of != "" {
		name, at := refLink(v.view.Machine, sv.Base, machine.Ref(sv.Of))
		if at == "" {
			return missing("what the recording is of", sv.Of)
		}
		sv.Name, back = spelling.Inside(name), at
	}
	return v.show("sound", status, frame{Title: "Recording of " + sv.Name, Here: "Machine", Back: back, Data: sv})
}

// soundPost keeps a recording, with the compressed one it was made from where
// there is one.
func soundPost(v *visit) error {
	sv := soundView{Of: v.typed("of"), Mic: clip(v.typed("mic"), 100), RPM: v.typed("rpm"), Caption: clip(v.typed("caption"), 400),
		Sum: v.typed("sum"), Original: v.typed("originalsum")}
	body := &machine.SoundAdded{Of: machine.Ref(sv.Of), Mic: sv.Mic, Caption: sv.Caption, TakenAt: v.takenAt(time.Time{})}
	if _, at := refLink(v.view.Machine, v.base(), body.Of); at == "" && sv.Of != "" {
		return missing("what the recording is of", sv.Of)
	}
	refused := func(say string) error {
		sv.Fault = say
		return v.showSound(sv, http.StatusUnprocessableEntity)
	}
	is, sum, err := v.keepSound("sound", sv.Sum)
	if err == nil && sum == "" {
		return refused("There was no recording, so nothing was kept. Record one or choose a file.")
	}
	var first recording.Sort
	if err == nil {
		sv.Sum = string(sum)
		first, body.Original, err = v.keepSound("original", sv.Original)
		sv.Original = string(body.Original)
	}
	if errors.Is(err, recording.ErrSort) || errors.Is(err, recording.ErrBroke) {
		return refused(spelling.Head(err.Error()) + ". What was typed is still here.")
	}
	if err != nil {
		return err
	}
	body.Sum, body.Type, body.Seconds, body.OriginalType = sum, is.Type, is.Seconds, first.Type
	body.Compressed = is.Packed || first.Packed
	if sv.RPM != "" {
		a, err := bench.Amount(sv.RPM, "rpm")
		if err != nil || a.Value <= 0 || a.Value > 20000 {
			return refused("“" + clip(sv.RPM, 20) + "” is no engine speed. The recording has arrived; write the speed in revolutions a minute, as 800, or leave it out.")
		}
		body.RPM = a.Value
	}
	if _, err := v.record(body); err != nil {
		return err
	}
	if _, at := refLink(v.view.Machine, v.base(), body.Of); at != "" {
		return v.go303(at + "#sounds")
	}
	return v.go303(v.base() + "/prove#sounds")
}

// keepSound stores a recording of the form; one of an earlier try is named by
// its sum. Empty where there is neither.
func (v *visit) keepSound(field, before string) (recording.Sort, machine.Sum, error) {
	file, _, err := v.r.FormFile(field)
	var data []byte
	switch {
	case err == nil:
		if data, err = readAll(file); err != nil {
			return recording.Sort{}, "", recording.ErrBroke
		}
	case before != "":
		if data, _, err = v.shop.Log().Blob(v.r.Context(), machine.Sum(before)); err != nil {
			return recording.Sort{}, "", nil
		}
	default:
		return recording.Sort{}, "", nil
	}
	is, err := recording.Of(data)
	if err != nil {
		return is, "", err
	}
	sum, err := v.shop.Log().PutBlob(v.r.Context(), data, is.Type)
	return is, sum, err
}

func readAll(file multipart.File) ([]byte, error) {
	defer file.Close()
	return io.ReadAll(io.LimitReader(file, maxPhoto))
}

// playSound serves a kept recording of this machine, in pieces where asked. It
// is content from outside, so it gets no rights of the site.
func playSound(v *visit) error {
	sum := machine.Sum(v.r.PathValue("sum"))
	var at time.Time
	for _, s := range v.view.Machine.Sounds {
		if s.Sum == sum || s.Original == sum {
			at = s.At
		}
	}
	if at.IsZero() {
		return plight{http.StatusNotFound, "There is no such recording", "Nothing was changed. Go back to the page it stood on."}
	}
	data, kind, err := v.shop.Log().Blob(v.r.Context(), sum)
	if err != nil || !strings.HasPrefix(kind, "audio/") {
		return plight{http.StatusNotFound, "That recording is named in the book but is not in the box", "The entry is safe. Run the check of the store, or bring the recording back from a backup."}
	}
	head := v.w.Header()
	head.Set("Content-Security-Policy", "sandbox; default-src 'none'")
	head.Set("Content-Type", kind)
	head.Set("Cache-Control", "private, max-age=31536000, immutable")
	http.ServeContent(v.w, v.r, "", at, bytes.NewReader(data))
	return nil
}
