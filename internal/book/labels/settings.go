package labels

import (
	"encoding/json"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Settings is what a shop keeps about printing labels, on the shelf under
// SettingsPaper: found out once, for its printers and its network.
type Settings struct {
	Address string            `json:"address,omitempty"` // of the shop's pages, as a phone comes at them
	Offsets map[string]Offset `json:"offsets,omitempty"` // by id of the size
	Size    string            `json:"size,omitempty"`    // the size last used
}

// Offset is how far a printer's print has to be moved, mm, right and down.
type Offset struct {
	X float64 `json:"x"`
	Y float64 `json:"y"`
}

// SettingsPaper is the name of the settings on the shelf.
const SettingsPaper = "labels"

// ReadSettings reads the settings as kept; nothing kept is no setting.
// Errors: a paper that is not one of settings.
func ReadSettings(data []byte) (Settings, error) {
	var s Settings
	if len(data) == 0 {
		return s, nil
	}
	if err := json.Unmarshal(data, &s); err != nil {
		return Settings{}, fmt.Errorf("the settings of the labels cannot be read: %w; keep them again on the labels page", err)
	}
	return s, nil
}

// Bytes writes the settings for the shelf.
func (s Settings) Bytes() []byte {
	data, err := json.Marshal(s)
	if err != nil {
		panic(err) // offsets come from ReadOffset, which gives finite figures only
	}
	return data
}

// With is the settings with the offset of a size changed.
func (s Settings) With(size string, o Offset) Settings {
	all := map[string]Offset{size: o}
	for id, kept := range s.Offsets {
		if id != size {
			all[id] = kept
		}
	}
	s.Offsets = all
	return s
}

// ReadOffset reads an offset in millimetres as typed, with point or comma and
// with or without the unit; nothing is 0.
func ReadOffset(typed string) (float64, error) {
	text := strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(typed), "mm"))
	text = strings.NewReplacer(",", ".", "−", "-").Replace(text)
	if text == "" {
		return 0, nil
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(v) || math.Abs(v) > MostOff {
		return 0, fmt.Errorf("“%s” is no offset; write millimetres from −%.0f to %.0f, as 0.5", strings.TrimSpace(typed), MostOff, MostOff)
	}
	return v, nil
}
