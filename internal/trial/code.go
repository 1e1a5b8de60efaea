package trial

import (
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// ReadCode gives what a reader of codes that is not ours (zbarimg, Debian's
// zbar-tools) reads in a picture. It skips loudly without one.
func ReadCode(t *testing.T, img image.Image) string {
	t.Helper()
	reader, err := exec.LookPath("zbarimg")
	if err != nil {
		t.Skip("SKIPPED: no zbarimg on this machine")
	}
	name := filepath.Join(t.TempDir(), "code.png")
	f, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	if err := png.Encode(f, img); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(reader, "--quiet", "--raw", name).Output()
	if err != nil {
		t.Errorf("the code is not read: %v", err)
	}
	return strings.TrimSpace(string(out))
}
