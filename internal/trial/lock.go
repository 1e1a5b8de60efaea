package trial

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// TrustLock makes a home for a browser that trusts the authority of a server's
// bench lock, and makes it this test's HOME, so that OwnBrowser takes it. It
// skips loudly without certutil.
func (s *Server) TrustLock(t *testing.T) {
	t.Helper()
	certutil := certutilOr(t)
	home := t.TempDir()
	store := filepath.Join(home, ".pki", "nssdb")
	if err := os.MkdirAll(store, 0o700); err != nil {
		t.Fatal(err)
	}
	authority := filepath.Join(filepath.Dir(s.Book()), "bench-lock", "authority.crt")
	for _, args := range [][]string{{"-N", "--empty-password"}, {"-A", "-t", "C,,", "-n", "bench lock", "-i", authority}} {
		if out, err := exec.Command(certutil, append([]string{"-d", "sql:" + store}, args...)...).CombinedOutput(); err != nil {
			t.Fatalf("certutil %v: %v\n%s", args, err, out)
		}
	}
	t.Setenv("HOME", home)
}

func certutilOr(t *testing.T) string {
	t.Helper()
	path, err := exec.LookPath("certutil")
	if err != nil {
		t.Skip("SKIPPED: no certutil on this machine (Debian: libnss3-tools)")
	}
	return path
}
