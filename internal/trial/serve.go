package trial

import (
	"bufio"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
)

// Server is the built program, serving.
type Server struct {
	URL  string // where the pages are, ending in a stroke
	Home string // the folder it takes for home
	args []string
	cmd  *exec.Cmd

	mu      sync.Mutex
	printed []string
}

// Serve starts the program with a home folder of its own and waits for the
// address it prints; no words after home start the demo. The address is a free
// port of this computer unless the words give --addr. The server is killed when
// the test ends.
func Serve(t testing.TB, home string, args ...string) *Server {
	t.Helper()
	if len(args) == 0 {
		args = []string{"demo"}
	}
	s := &Server{Home: home, args: args}
	t.Cleanup(s.Kill)
	s.start(t, "127.0.0.1:0")
	return s
}

var servesAt = regexp.MustCompile(`^Serving\b.*\bat (https?://\S+)$`)

func (s *Server) start(t testing.TB, addr string) {
	t.Helper()
	args := s.args
	if !strings.Contains(strings.Join(args, " "), "--addr") {
		args = append(args[:len(args):len(args)], "--addr", addr)
	}
	s.cmd = s.command(Program(t), args)
	out, err := s.cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	s.cmd.Stderr = os.Stderr
	if err := s.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	for scan := bufio.NewScanner(out); scan.Scan(); {
		s.note(scan.Text())
		if at := servesAt.FindStringSubmatch(scan.Text()); at != nil {
			s.URL = strings.TrimSuffix(at[1], "/") + "/"
			go s.listen(scan)
			return
		}
	}
	t.Fatalf("%s printed no address:\n%s", strings.Join(args, " "), s.Printed())
}

// listen keeps reading what the program prints, so that it never waits for a
// reader.
func (s *Server) listen(scan *bufio.Scanner) {
	for scan.Scan() {
		s.note(scan.Text())
	}
}

func (s *Server) note(line string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.printed = append(s.printed, line)
}

// Printed is what the program has printed so far, all starts together.
func (s *Server) Printed() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return strings.Join(s.printed, "\n")
}

// Kill ends the program at once, as a power cut would. Killing twice is no
// harm.
func (s *Server) Kill() {
	if s.cmd == nil || s.cmd.Process == nil {
		return
	}
	_ = s.cmd.Process.Kill()
	_ = s.cmd.Wait()
	s.cmd = nil
}

// Restart starts the program again on the same home and the same port,
// killing it first where it still runs.
func (s *Server) Restart(t testing.TB) {
	t.Helper()
	s.Kill()
	at, err := url.Parse(s.URL)
	if err != nil {
		t.Fatal(err)
	}
	s.start(t, at.Host)
}

// Book is the file of the demo's book under the server's home.
func (s *Server) Book() string { return filepath.Join(s.Home, ".config", "matchmark", "demo.db") }

// Run runs a command of the program beside the server, in its home, and gives
// what it printed. It fails the test where the command fails.
func (s *Server) Run(t testing.TB, args ...string) string {
	t.Helper()
	out, err := s.command(Program(t), args).Output()
	if err != nil {
		said := ""
		if fault, ok := err.(*exec.ExitError); ok {
			said = string(fault.Stderr)
		}
		t.Fatalf("%s: %v\n%s%s", strings.Join(args, " "), err, out, said)
	}
	return string(out)
}

// Refused runs a command that is to fail and gives all it printed.
func (s *Server) Refused(t testing.TB, args ...string) string {
	t.Helper()
	out, err := s.command(Program(t), args).CombinedOutput()
	if err == nil {
		t.Errorf("%s was not refused:\n%s", strings.Join(args, " "), out)
	}
	return string(out)
}

func (s *Server) command(program string, args []string) *exec.Cmd {
	cmd := exec.Command(program, args...)
	cmd.Env = []string{"HOME=" + s.Home, "PATH=" + os.Getenv("PATH")}
	return cmd
}
