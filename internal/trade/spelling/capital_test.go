package spelling

import "testing"

// TestInside keeps the capitals of an abbreviation.
func TestInside(t *testing.T) {
	for in, want := range map[string]string{"Main cap": "main cap", "PTO guard": "PTO guard", "": "", "A": "a"} {
		if got := Inside(in); got != want {
			t.Errorf("%q becomes %q, want %q", in, got, want)
		}
	}
}

func TestHead(t *testing.T) {
	for in, want := range map[string]string{"main cap": "Main cap", "µm are read": "Μm are read", "": "", "M10": "M10"} {
		if got := Head(in); got != want {
			t.Errorf("%q becomes %q, want %q", in, got, want)
		}
	}
}
