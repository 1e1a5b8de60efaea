package trial_test

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"testing"
	"time"

	"matchmark/internal/trial"
)

func TestMain(m *testing.M) { os.Exit(trial.Main(m)) }

// page keeps the times of key events, answers fetches and shows the cookie.
const page = `<!doctype html><html lang="en"><title>T</title><link rel="icon" href="data:,"><body><input id="in"><p id="js">off</p>
<script>
document.getElementById('js').textContent='on'
window.keys=[]
document.addEventListener('keydown',e=>keys.push(e.timeStamp))
</script>`

func site(t *testing.T) string {
	t.Helper()
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		ground := "none"
		if c, err := r.Cookie("ground"); err == nil {
			ground = c.Value
		}
		fmt.Fprint(w, page, "<p id=ground>", ground)
	}))
	t.Cleanup(s.Close)
	return s.URL + "/"
}

// TestBurstKeepsItsGaps: the page sees the keys as far apart as was asked.
func TestBurstKeepsItsGaps(t *testing.T) {
	tab := trial.NewTab(t, 390, 844)
	tab.Open(site(t))
	tab.Click("#in")
	tab.Burst("92.08\r", 8*time.Millisecond)
	if got := trial.Ask[string](tab, "document.getElementById('in').value"); got != "92.08" {
		t.Errorf("typed 92.08, the field holds %q", got)
	}
	at := trial.Ask[[]float64](tab, "keys")
	if len(at) != 6 {
		t.Fatalf("6 keys, the page saw %v", at)
	}
	for i := range at[1:] {
		if gap := at[i+1] - at[i]; gap < 7 || gap > 9 {
			t.Errorf("key %d came %.1f ms after the last, want 8", i+1, gap)
		}
	}
	tab.Quiet()
}

// TestConditionsBite: each condition is felt by the page and can be taken back.
func TestConditionsBite(t *testing.T) {
	url := site(t)
	tab := trial.NewTab(t, 390, 844)
	tab.Allow("ERR_INTERNET_DISCONNECTED")
	tab.Open(url)
	fetched := func() string {
		return trial.Ask[string](tab, "fetch('/x').then(()=>'yes',()=>'no').then(a=>a+' '+navigator.onLine)")
	}
	if got := fetched(); got != "yes true" {
		t.Errorf("on line: %s", got)
	}
	tab.Offline(true)
	if got := fetched(); got != "no false" {
		t.Errorf("off line: %s", got)
	}
	tab.Offline(false)
	if got := fetched(); got != "yes true" {
		t.Errorf("on line again: %s", got)
	}
	tab.SlowLine(300, 1.6)
	if ms := trial.Ask[float64](tab, "(async()=>{const a=performance.now();await fetch('/x');return performance.now()-a})()"); ms < 300 {
		t.Errorf("a line of 300 ms answered in %.0f", ms)
	}
	tab.Offline(false)
	for feature, value := range map[string]string{"forced-colors": "active", "prefers-reduced-motion": "reduce"} {
		tab.Media(feature, value)
		if !trial.Ask[bool](tab, fmt.Sprintf("matchMedia('(%s: %s)').matches", feature, value)) {
			t.Errorf("%s: %s is not felt", feature, value)
		}
	}
	tab.NoScript(true)
	tab.Ground(url, "film")
	tab.Open(url)
	if says := tab.Says(); !strings.Contains(says, "off") || !strings.Contains(says, "film") {
		t.Errorf("without scripts and on film the page says %q", says)
	}
	if size := tab.Picture().Bounds().Size(); size.X != 390 || size.Y != 844 {
		t.Errorf("the picture is %v, want 390 × 844", size)
	}
	tab.Quiet()
}

// TestTabsAreStrangers: a cookie of one tab is not seen by the next.
func TestTabsAreStrangers(t *testing.T) {
	url := site(t)
	trial.NewTab(t, 390, 844).Ground(url, "film")
	other := trial.NewTab(t, 390, 844)
	other.Open(url)
	if got := trial.Ask[string](other, "document.getElementById('ground').innerText"); got != "none" {
		t.Errorf("a new tab knows the ground %q of another", got)
	}
}

// TestServerComesBack: after a kill the same address answers again.
func TestServerComesBack(t *testing.T) {
	s := trial.Serve(t, t.TempDir())
	at := s.URL
	s.Kill()
	if answer, err := http.Get(at); err == nil {
		_ = answer.Body.Close()
		t.Error("a killed server answers")
	}
	s.Restart(t)
	answer, err := http.Get(s.URL)
	if err != nil {
		t.Fatal(err)
	}
	_ = answer.Body.Close()
	if s.URL != at || answer.StatusCode != http.StatusOK {
		t.Errorf("%s came back as %s with %s", at, s.URL, answer.Status)
	}
}
