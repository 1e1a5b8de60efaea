package main_test

import (
	"io"
	"net/http"
	"os"
	"strings"
	"testing"
	"time"

	"matchmark/internal/trial"
)

func TestMain(m *testing.M) { os.Exit(trial.Main(m)) }

func TestDemoPrintsItsFiguresAndServes(t *testing.T) {
	s := trial.Serve(t, t.TempDir())
	for _, want := range []string{"parts ", "checks ", "failing checks ", "steps free now ", "held "} {
		if !strings.Contains(s.Printed(), want) {
			t.Errorf("the demo does not print %q:\n%s", want, s.Printed())
		}
	}
	for _, path := range []string{"", "m/codlin", "m/codlin/machine", "m/codlin/trays", "m/codlin/fits", "m/codlin/build", "m/codlin/book", "m/codlin/questions"} {
		answer, err := http.Get(s.URL + path)
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
	first := trial.Serve(t, t.TempDir())
	if said := first.Refused(t, "demo", "--addr", "127.0.0.1:0"); !strings.Contains(said, first.URL) {
		t.Errorf("a second server on one book was told\n%s\nwant a refusal that names %s", said, first.URL)
	}
	first.Run(t, "check", "--book", first.Book())
}

// BenchmarkFirstPage: from starting the program to the first page in hand, the
// demo's book being there already.
func BenchmarkFirstPage(b *testing.B) {
	home := b.TempDir()
	trial.Serve(b, home).Kill()
	for b.Loop() {
		s := trial.Serve(b, home)
		answer, err := http.Get(s.URL + "m/codlin")
		if err != nil {
			b.Fatal(err)
		}
		_ = answer.Body.Close()
		b.StopTimer()
		s.Kill()
		time.Sleep(10 * time.Millisecond)
		b.StartTimer()
	}
}
