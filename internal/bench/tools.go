package bench

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"matchmark/internal/trade/wedge"
)

// Tool is a measuring tool of the shop that types: its profile, and which
// instrument its readings are made with. It belongs to no machine.
type Tool struct {
	ID         string        `json:"id"`
	Name       string        `json:"name"`
	Instrument string        `json:"instrument,omitempty"` // id as readings name it; empty is the usual one for the point
	Profile    wedge.Profile `json:"profile"`
	Taught     time.Time     `json:"taught,omitzero"`
}

// toolPaper is how the papers of tools are called on the shelf.
const toolPaper = "tool/"

// Tools lists the taught tools by name. A paper that cannot be read is left
// out: teaching the tool again replaces it.
func (s *Shop) Tools(ctx context.Context) ([]Tool, error) {
	names, err := s.log.Papers(ctx, toolPaper)
	if err != nil {
		return nil, err
	}
	var out []Tool
	for _, name := range names {
		if t, err := s.Tool(ctx, strings.TrimPrefix(name, toolPaper)); err == nil && t != nil {
			out = append(out, *t)
		}
	}
	slices.SortStableFunc(out, func(a, b Tool) int { return strings.Compare(a.Name, b.Name) })
	return out, nil
}

// Tool finds a taught tool, nil where there is none of that id.
func (s *Shop) Tool(ctx context.Context, id string) (*Tool, error) {
	data, err := s.log.Paper(ctx, toolPaper+id)
	if err != nil || id == "" || len(data) == 0 {
		return nil, err
	}
	var t Tool
	if err := json.Unmarshal(data, &t); err != nil {
		return nil, fmt.Errorf("the paper of tool %q cannot be read: %w", id, err)
	}
	if err := t.Profile.Fault(); err != nil {
		return nil, fmt.Errorf("the paper of tool %q: %w", id, err)
	}
	t.ID = id
	return &t, nil
}

// KeepTool puts a tool on the shelf and gives its id, made of its name; a tool
// of that name is replaced.
// Errors: *InputError for a name or a profile that cannot stand.
func (s *Shop) KeepTool(ctx context.Context, t Tool) (string, error) {
	t.Name = strings.TrimSpace(t.Name)
	if t.ID = slug(t.Name); t.ID == "" || utf8.RuneCountInString(t.Name) > 60 {
		return "", &InputError{Field: "name", Typed: t.Name, Say: "a tool needs a name of up to 60 characters, such as long calliper"}
	}
	if err := t.Profile.Fault(); err != nil {
		field := "profile"
		if fault := new(wedge.FaultError); errors.As(err, &fault) {
			field = fault.Field
		}
		return "", &InputError{Field: field, Say: err.Error()}
	}
	t.Taught = s.now().UTC()
	data, err := json.Marshal(t)
	if err != nil {
		return "", err
	}
	return t.ID, s.log.PutPaper(ctx, toolPaper+t.ID, data)
}

// DropTool takes a tool off the shelf; readings made with it stay as they are.
func (s *Shop) DropTool(ctx context.Context, id string) error {
	if id == "" {
		return nil
	}
	return s.log.PutPaper(ctx, toolPaper+id, nil)
}

// slug makes an id of a name: "Long calliper, 300" is long-calliper-300.
func slug(name string) string {
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r > 0x7f)
	})
	return strings.Join(words, "-")
}
