// Package recording tells what an uploaded sound is, by its content, and how
// long an uncompressed one is.
//
// What it cannot detect: what is heard, or whether the microphone was
// overdriven.
package recording

import (
	"bytes"
	"encoding/binary"
	"errors"
)

// Why a sound is not taken. Each says what to do.
var (
	ErrSort  = errors.New("that file is no recording this box knows. Send WAV, FLAC, MP3, MP4, WebM or Ogg")
	ErrBroke = errors.New("that recording did not arrive whole. Send it again")
)

// Sort is what a recording is.
type Sort struct {
	Type     string  // media type
	Packed   bool    // it may have lost detail in the packing
	Seconds  float64 // 0 where the content does not say it plainly
	Rate     int     // samples a second; 0 where not known
	Channels int
	Bits     int // of a sample
}

// marks are how the known sorts begin.
var marks = []struct {
	at   int
	mark string
	sort Sort
}{
	{0, "\x1aE\xdf\xa3", Sort{Type: "audio/webm", Packed: true}},
	{4, "ftyp", Sort{Type: "audio/mp4", Packed: true}},
	{0, "OggS", Sort{Type: "audio/ogg", Packed: true}},
	{0, "fLaC", Sort{Type: "audio/flac"}},
	{0, "ID3", Sort{Type: "audio/mpeg", Packed: true}},
	{0, "\xff\xfb", Sort{Type: "audio/mpeg", Packed: true}},
	{0, "\xff\xf3", Sort{Type: "audio/mpeg", Packed: true}},
	{0, "\xff\xf1", Sort{Type: "audio/aac", Packed: true}},
}

// Of tells what a recording is. Errors: ErrSort, ErrBroke.
func Of(data []byte) (Sort, error) {
	if len(data) >= 12 && string(data[:4]) == "RIFF" && string(data[8:12]) == "WAVE" {
		return wave(data[12:])
	}
	for _, m := range marks {
		if len(data) > m.at && bytes.HasPrefix(data[m.at:], []byte(m.mark)) {
			s := m.sort
			if bytes.Contains(data[:min(len(data), 4096)], []byte("A_PCM")) { // the codec of a WebM's sound, in its head
				s.Packed = false
			}
			return s, nil
		}
	}
	return Sort{}, ErrSort
}

// wave reads the chunks of a WAV file of whole-number samples (format 1).
func wave(rest []byte) (Sort, error) {
	s := Sort{Type: "audio/wav"}
	frame := 0 // bytes
	for len(rest) >= 8 {
		name, size := string(rest[:4]), int64(binary.LittleEndian.Uint32(rest[4:8]))
		rest = rest[8:]
		switch {
		case name == "fmt " && size >= 16 && int64(len(rest)) >= size:
			if binary.LittleEndian.Uint16(rest) != 1 {
				return Sort{}, ErrSort
			}
			s.Channels, s.Rate = int(binary.LittleEndian.Uint16(rest[2:])), int(binary.LittleEndian.Uint32(rest[4:]))
			frame, s.Bits = int(binary.LittleEndian.Uint16(rest[12:])), int(binary.LittleEndian.Uint16(rest[14:]))
		case name == "data":
			if frame == 0 || s.Rate == 0 || frame != s.Channels*s.Bits/8 || int64(len(rest)) < size {
				return Sort{}, ErrBroke
			}
			s.Seconds = float64(size/int64(frame)) / float64(s.Rate)
			return s, nil
		}
		if size += size & 1; int64(len(rest)) < size { // chunks stand at even places
			break
		}
		rest = rest[size:]
	}
	return Sort{}, ErrBroke
}
