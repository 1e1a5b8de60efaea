package recording

import (
	"encoding/binary"
	"errors"
	"testing"
)

// wav writes a file of n frames. Layout: Multimedia Programming Interface and
// Data Specifications 1.0 (1991), waveform audio file format; from memory.
func wav(format uint16, channels, rate, bits, frames int) []byte {
	frame := channels * bits / 8
	le := binary.LittleEndian
	b := append([]byte("RIFF"), le.AppendUint32(nil, uint32(36+frames*frame))...)
	b = append(b, "WAVEfmt "...)
	b = le.AppendUint32(b, 16)
	b = le.AppendUint16(b, format)
	b = le.AppendUint16(b, uint16(channels))
	b = le.AppendUint32(b, uint32(rate))
	b = le.AppendUint32(b, uint32(rate*frame))
	b = le.AppendUint16(b, uint16(frame))
	b = le.AppendUint16(b, uint16(bits))
	b = append(b, "data"...)
	b = le.AppendUint32(b, uint32(frames*frame))
	return append(b, make([]byte, frames*frame)...)
}

func TestWhatARecordingIs(t *testing.T) {
	listed := wav(1, 1, 48000, 16, 4800)
	listed = append(listed[:36:36], append([]byte("LIST\x03\x00\x00\x00abc\x00"), listed[36:]...)...)
	for name, row := range map[string]struct {
		data []byte
		want Sort
		err  error
	}{
		"mono":             {wav(1, 1, 48000, 16, 72000), Sort{"audio/wav", false, 1.5, 48000, 1, 16}, nil},
		"stereo, 24 bits":  {wav(1, 2, 44100, 24, 4410), Sort{"audio/wav", false, 0.1, 44100, 2, 24}, nil},
		"a chunk between":  {listed, Sort{"audio/wav", false, 0.1, 48000, 1, 16}, nil},
		"no samples":       {wav(1, 1, 48000, 16, 0), Sort{"audio/wav", false, 0, 48000, 1, 16}, nil},
		"floating samples": {wav(3, 1, 48000, 32, 10), Sort{}, ErrSort},
		"cut short":        {wav(1, 1, 48000, 16, 100)[:100], Sort{}, ErrBroke},
		"no data":          {wav(1, 1, 48000, 16, 100)[:36], Sort{}, ErrBroke},
		"no rate":          {wav(1, 1, 0, 16, 100), Sort{}, ErrBroke},
		"webm":             {[]byte("\x1aE\xdf\xa3rest"), Sort{Type: "audio/webm", Packed: true}, nil},
		"webm, not packed": {[]byte("\x1aE\xdf\xa3...A_PCM/FLOAT/IEEE..."), Sort{Type: "audio/webm"}, nil},
		"mp4":              {[]byte("\x00\x00\x00\x18ftypmp42"), Sort{Type: "audio/mp4", Packed: true}, nil},
		"a photo":          {[]byte("\xff\xd8\xff\xe0"), Sort{}, ErrSort},
		"nothing":          {nil, Sort{}, ErrSort},
	} {
		if got, err := Of(row.data); got != row.want || !errors.Is(err, row.err) {
			t.Errorf("%s: %+v, %v; want %+v, %v", name, got, err, row.want, row.err)
		}
	}
}

// FuzzOf: no bytes panic, and what is known has a type.
func FuzzOf(f *testing.F) {
	f.Add(wav(1, 2, 8000, 8, 4))
	f.Add([]byte("RIFF\x00\x00\x00\x00WAVE"))
	f.Fuzz(func(t *testing.T, data []byte) {
		if s, err := Of(data); err == nil && (s.Type == "" || s.Seconds < 0) {
			t.Fatalf("%+v", s)
		}
	})
}
