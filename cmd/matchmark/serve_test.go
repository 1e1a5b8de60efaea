package main_test

import (
	"bufio"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// program is the path of the built program, made once for all tests here.
var program string

func TestMain(m *testing.M) {
	dir, err := os.MkdirTemp("", "matchmark")
	if err != nil {
		panic(err)
	}
	program = filepath.Join(dir, "matchmark")
	cmd := exec.Command("go", "build", "-o", program, ".")
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0")
	if out, err := cmd.CombinedOutput(); err != nil {
		fmt.Fprintf(os.Stderr, "build: %v\n%s", err, out)
		os.Exit(1)
	}
	code := m.Run()
	_ = os.RemoveAll(dir)
	os.Exit(code)
}

// server is the built program serving the demo from a folder of its own.
type server struct {
	cmd     *exec.Cmd
	url     string
	printed []string
}

// serveDemo starts the demo and waits for its address. The folder keeps its
// book, so that a second start finds it.
func serveDemo(t testing.TB, home string) *server {
	t.Helper()
	cmd := exec.Command(program, "demo", "--addr", "127.0.0.1:0")
	cmd.Env = []string{"HOME=" + home, "PATH=" + os.Getenv("PATH")}
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	cmd.Stderr = os.Stderr
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	s := &server{cmd: cmd}
	t.Cleanup(s.kill)
	for scan := bufio.NewScanner(out); scan.Scan(); {
		s.printed = append(s.printed, scan.Text())
		if at, ok := strings.CutPrefix(scan.Text(), "Serving at "); ok {
			s.url = at
			return s
		}
	}
	t.Fatalf("the demo printed no address:\n%s", strings.Join(s.printed, "\n"))
	return nil
}

// kill ends the program at once, as a power cut would.
func (s *server) kill() {
	_ = s.cmd.Process.Kill()
	_ = s.cmd.Wait()
}

func TestDemoPrintsItsFiguresAndServes(t *testing.T) {
	s := serveDemo(t, t.TempDir())
	text := strings.Join(s.printed, "\n")
	for _, want := range []string{"parts ", "checks ", "failing checks ", "steps free now ", "held "} {
		if !strings.Contains(text, want) {
			t.Errorf("the demo does not print %q:\n%s", want, text)
		}
	}
	for _, path := range []string{"", "m/codlin", "m/codlin/machine", "m/codlin/trays", "m/codlin/fits", "m/codlin/build", "m/codlin/book", "m/codlin/questions"} {
		answer, err := http.Get(s.url + path)
		if err != nil {
			t.Fatal(err)
		}
		_, _ = io.Copy(io.Discard, answer.Body)
		_ = answer.Body.Close()
		if answer.StatusCode != http.StatusOK {
			t.Errorf("/%s answers %s", path, answer.Status)
		}
	}
}

// TestSecondServerIsToldWhoServes: one book is served once; commands beside
// the server are welcome.
func TestSecondServerIsToldWhoServes(t *testing.T) {
	home := t.TempDir()
	first := serveDemo(t, home)
	second := exec.Command(program, "demo", "--addr", "127.0.0.1:0")
	second.Env = []string{"HOME=" + home}
	out, err := second.CombinedOutput()
	if err == nil || !strings.Contains(string(out), first.url) {
		t.Errorf("a second server on one book gave %v:\n%s\nwant a refusal that names %s", err, out, first.url)
	}
	beside := exec.Command(program, "check", "--book", filepath.Join(home, ".config", "matchmark", "demo.db"))
	if out, err := beside.CombinedOutput(); err != nil {
		t.Errorf("check beside the server: %v\n%s", err, out)
	}
}

// BenchmarkFirstPage: from starting the program to the first page in hand, the
// demo's book being there already.
func BenchmarkFirstPage(b *testing.B) {
	home := b.TempDir()
	serveDemo(b, home).kill()
	for b.Loop() {
		s := serveDemo(b, home)
		answer, err := http.Get(s.url + "m/codlin")
		if err != nil {
			b.Fatal(err)
		}
		_ = answer.Body.Close()
		b.StopTimer()
		s.kill()
		time.Sleep(10 * time.Millisecond)
		b.StartTimer()
	}
}
