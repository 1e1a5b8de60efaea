package store

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"matchmark/internal/machine"
)

// checkedLog makes an integrity check after every step that writes.
type checkedLog struct {
	Log
	t testing.TB
}

func (c checkedLog) clean() {
	c.t.Helper()
	report, err := c.Check(context.Background())
	if err != nil {
		c.t.Fatalf("check: %v", err)
	}
	for _, f := range report.Faults {
		c.t.Errorf("check: %s", f.Text)
	}
}

func (c checkedLog) Create(ctx context.Context, id machine.MachineID, name string) error {
	defer c.clean()
	return c.Log.Create(ctx, id, name)
}

func (c checkedLog) Append(ctx context.Context, id machine.MachineID, entries []machine.Entry) ([]machine.Entry, error) {
	defer c.clean()
	return c.Log.Append(ctx, id, entries)
}

func (c checkedLog) PutBlob(ctx context.Context, data []byte, mediaType string) (machine.Sum, error) {
	defer c.clean()
	return c.Log.PutBlob(ctx, data, mediaType)
}

// noon is when the tests' first entry was made.
var noon = time.Date(2024, 5, 12, 12, 0, 0, 0, time.UTC)

// entry is a note with an id, n seconds after noon.
func entry(n int, text string) machine.Entry {
	return machine.Entry{ID: machine.EntryID(fmt.Sprintf("e%04d", n)), At: noon.Add(time.Duration(n) * time.Second),
		By: "ada", Device: "bench", Version: 1, Body: &machine.Noted{Text: text}}
}

func seqs(entries []machine.Entry) []int64 {
	var out []int64
	for _, e := range entries {
		out = append(out, e.Seq)
	}
	return out
}

// conformance is what every store must do. Each gets an empty store with one
// machine, "m".
var conformance = []struct {
	name string
	run  func(*testing.T, Log)
}{
	{"create", testCreate},
	{"append gives a sequence without gaps", testAppend},
	{"append again keeps nothing twice", testAppendAgain},
	{"conflict names the culprit and keeps nothing of the batch", testConflict},
	{"invalid entries are refused", testInvalid},
	{"every kind comes back as it went in", testKinds},
	{"unknown kinds come back as they went in", testUnknownKinds},
	{"machines are apart", testApart},
	{"since", testSince},
	{"listing", testListing},
	{"attachments", testBlobs},
	{"check finds a missing attachment", testMissingBlob},
	{"papers on the shelf", testShelf},
	{"many writers at once", testWriters},
	{"a cancelled call", testCancelled},
	{"what was given is not what is kept", testAliasing},
}

func TestConformance(t *testing.T) {
	stores := map[string]func(*testing.T) Log{
		"memory": func(*testing.T) Log { return OpenMemory() },
		"sqlite": func(t *testing.T) Log { return mustOpen(t, filepath.Join(t.TempDir(), "m.db")) },
		"sqlite, odd path": func(t *testing.T) Log {
			return mustOpen(t, filepath.Join(t.TempDir(), "a b?c%20d#ü&mode=ro.db"))
		},
	}
	for name, start := range stores {
		for _, c := range conformance {
			t.Run(name+"/"+c.name, func(t *testing.T) {
				log := checkedLog{start(t), t}
				if err := log.Create(t.Context(), "m", "Machine"); err != nil {
					t.Fatal(err)
				}
				c.run(t, log)
				log.clean()
				if err := log.Close(); err != nil {
					t.Errorf("close: %v", err)
				}
			})
		}
	}
}

func mustOpen(t testing.TB, path string, settings ...string) Log {
	t.Helper()
	log, err := open(path, settings...)
	if err != nil {
		t.Fatal(err)
	}
	return log
}

func testCreate(t *testing.T, log Log) {
	if err := log.Create(t.Context(), "m", "Machine"); err != nil {
		t.Errorf("the same machine again: %v", err)
	}
	if err := log.Create(t.Context(), "m", "Other"); !errors.Is(err, ErrConflict) {
		t.Errorf("another machine under the id: got %v, want ErrConflict", err)
	}
	for _, bad := range [][2]string{{"", "name"}, {"id", ""}} {
		if err := log.Create(t.Context(), machine.MachineID(bad[0]), bad[1]); !errors.Is(err, ErrInvalid) {
			t.Errorf("create %q: got %v, want ErrInvalid", bad, err)
		}
	}
}

func testAppend(t *testing.T, log Log) {
	first, err := log.Append(t.Context(), "m", []machine.Entry{entry(1, "a"), entry(2, "b")})
	if err != nil {
		t.Fatal(err)
	}
	odd := entry(3, "c")
	odd.Seq = 99 // a number that came in counts for nothing
	second, err := log.Append(t.Context(), "m", []machine.Entry{odd})
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff([]int64{1, 2, 3}, append(seqs(first), seqs(second)...)); diff != "" {
		t.Errorf("numbers (-want +got):\n%s", diff)
	}
	if out, err := log.Append(t.Context(), "m", nil); err != nil || len(out) != 0 {
		t.Errorf("append of nothing: %v, %v", out, err)
	}
	if _, err := log.Append(t.Context(), "other", []machine.Entry{entry(1, "a")}); !errors.Is(err, ErrNoMachine) {
		t.Errorf("append to no machine: got %v, want ErrNoMachine", err)
	}
}

func testAppendAgain(t *testing.T, log Log) {
	ctx := t.Context()
	batch := []machine.Entry{entry(1, "a"), entry(2, "b"), entry(3, "c")}
	if _, err := log.Append(ctx, "m", batch[:2]); err != nil {
		t.Fatal(err)
	}
	got, err := log.Append(ctx, "m", batch) // the answer was lost; sent again with one more
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff([]int64{1, 2, 3}, seqs(got)); diff != "" {
		t.Errorf("numbers of the second sending (-want +got):\n%s", diff)
	}
	got, err = log.Append(ctx, "m", []machine.Entry{entry(4, "d"), entry(1, "a"), entry(4, "d")})
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff([]int64{4, 1, 4}, seqs(got)); diff != "" {
		t.Errorf("numbers of a batch that names one twice (-want +got):\n%s", diff)
	}
	kept, err := log.Since(ctx, "m", 0)
	if err != nil || len(kept) != 4 {
		t.Errorf("kept %d entries, %v; want 4", len(kept), err)
	}
}

func testConflict(t *testing.T, log Log) {
	ctx := t.Context()
	if _, err := log.Append(ctx, "m", []machine.Entry{entry(1, "a")}); err != nil {
		t.Fatal(err)
	}
	batches := map[string][]machine.Entry{
		"with what is kept": {entry(2, "b"), entry(1, "other"), entry(3, "c")},
		"within the batch":  {entry(2, "b"), entry(3, "c"), entry(2, "other")},
	}
	culprits := map[string]machine.EntryID{"with what is kept": "e0001", "within the batch": "e0002"}
	for name, batch := range batches {
		_, err := log.Append(ctx, "m", batch)
		var e *Error
		if !errors.Is(err, ErrConflict) || !errors.As(err, &e) || e.Entry != culprits[name] {
			t.Errorf("%s: got %v, want ErrConflict naming %s", name, err, culprits[name])
		}
	}
	kept, err := log.Since(ctx, "m", 0)
	if err != nil || len(kept) != 1 {
		t.Fatalf("kept %d entries, %v; want the first alone", len(kept), err)
	}
	got, err := log.Append(ctx, "m", []machine.Entry{entry(2, "b"), entry(3, "c")})
	if diff := cmp.Diff([]int64{2, 3}, seqs(got)); err != nil || diff != "" {
		t.Errorf("sent again without the culprit: %v (-want +got):\n%s", err, diff)
	}
}

func testInvalid(t *testing.T, log Log) {
	nan := entry(3, "")
	nan.Body = &machine.ReadingTaken{Check: "c", Amount: machine.Amount{Value: math.NaN()}}
	bad := map[string]machine.Entry{"no id": {At: noon, Body: &machine.Noted{}}, "no body": {ID: "x", At: noon}, "not a number": nan}
	for name, e := range bad {
		_, err := log.Append(t.Context(), "m", []machine.Entry{entry(1, "a"), e})
		var own *Error
		if !errors.Is(err, ErrInvalid) || !errors.As(err, &own) || own.Entry != e.ID {
			t.Errorf("%s: got %v, want ErrInvalid naming %q", name, err, e.ID)
		}
	}
	if kept, err := log.Since(t.Context(), "m", 0); err != nil || len(kept) != 0 {
		t.Errorf("kept %d entries, %v; want none", len(kept), err)
	}
}

func testKinds(t *testing.T, log Log) {
	var batch []machine.Entry
	for i, b := range machine.Bodies() {
		e := entry(i+1, "")
		e.Body, e.Supersedes = b, "e0000"
		batch = append(batch, e)
	}
	sent, err := log.Append(t.Context(), "m", batch)
	if err != nil {
		t.Fatal(err)
	}
	kept, err := log.Since(t.Context(), "m", 0)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(sent, kept, cmpopts.EquateEmpty()); diff != "" {
		t.Errorf("entries (-sent +kept):\n%s", diff)
	}
}

func testUnknownKinds(t *testing.T, log Log) {
	lines := []string{
		`{"id":"u1","at":"2031-01-02T03:04:05.000006Z","by":"b","device":"d","kind":"part-scanned","v":3,"body":{"cloud":[1.50,2],"deep":{"x":null}}}`,
		`{"id":"u2","at":"2031-01-02T03:04:05Z","by":"b","device":"d","kind":"noted","v":2,"body":{"lines":["a","b"]}}`,
		`{"id":"u3","at":"2031-01-02T03:04:05Z","by":"b","device":"d","kind":"noted","v":1,"body":"words only"}`,
	}
	var batch []machine.Entry
	for _, l := range lines {
		batch = append(batch, machine.Decode([]byte(l)))
	}
	if _, err := log.Append(t.Context(), "m", batch); err != nil {
		t.Fatal(err)
	}
	if got, err := log.Append(t.Context(), "m", batch); err != nil || len(got) != 3 || got[2].Seq != 3 {
		t.Errorf("sent again: %v, %v", seqs(got), err)
	}
	kept, err := log.Since(t.Context(), "m", 0)
	if err != nil || len(kept) != len(lines) {
		t.Fatalf("kept %d, %v", len(kept), err)
	}
	for i, e := range kept {
		e.Seq = 0
		text, err := json.Marshal(e)
		if err != nil || string(text) != lines[i] {
			t.Errorf("unknown kind:\n got %s %v\nwant %s", text, err, lines[i])
		}
	}
}

func testApart(t *testing.T, log Log) {
	ctx := t.Context()
	if err := log.Create(ctx, "n", "Other"); err != nil {
		t.Fatal(err)
	}
	a, errA := log.Append(ctx, "m", []machine.Entry{entry(1, "a"), entry(2, "b")})
	b, errB := log.Append(ctx, "n", []machine.Entry{entry(1, "another fact under the same id")})
	if errA != nil || errB != nil {
		t.Fatal(errA, errB)
	}
	if diff := cmp.Diff([]int64{1, 2, 1}, append(seqs(a), seqs(b)...)); diff != "" {
		t.Errorf("numbers (-want +got):\n%s", diff)
	}
}

func testSince(t *testing.T, log Log) {
	ctx := t.Context()
	for n := 1; n <= 5; n++ {
		if _, err := log.Append(ctx, "m", []machine.Entry{entry(n, fmt.Sprint(n))}); err != nil {
			t.Fatal(err)
		}
	}
	for seq, want := range map[int64][]int64{-3: {1, 2, 3, 4, 5}, 0: {1, 2, 3, 4, 5}, 3: {4, 5}, 5: nil, 77: nil} {
		got, err := log.Since(ctx, "m", seq)
		if diff := cmp.Diff(want, seqs(got)); err != nil || diff != "" {
			t.Errorf("since %d: %v (-want +got):\n%s", seq, err, diff)
		}
	}
	if _, err := log.Since(ctx, "other", 0); !errors.Is(err, ErrNoMachine) {
		t.Errorf("since of no machine: got %v, want ErrNoMachine", err)
	}
}

func testListing(t *testing.T, log Log) {
	ctx := t.Context()
	if err := log.Create(ctx, "a", "Empty"); err != nil {
		t.Fatal(err)
	}
	late := entry(9, "late")
	late.At = late.At.In(time.FixedZone("", 2*3600))
	if _, err := log.Append(ctx, "m", []machine.Entry{late, entry(2, "arrived later, made earlier")}); err != nil {
		t.Fatal(err)
	}
	got, err := log.Machines(ctx)
	if err != nil {
		t.Fatal(err)
	}
	want := []Listing{{ID: "a", Name: "Empty"}, {ID: "m", Name: "Machine", Entries: 2, Last: noon.Add(9 * time.Second)}}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("listing (-want +got):\n%s", diff)
	}
}

func testBlobs(t *testing.T, log Log) {
	ctx := t.Context()
	data := []byte("abc")
	// SHA-256 of "abc": FIPS 180-4, example SHA256 (ShortMsg "abc"), from memory.
	const want = machine.Sum("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad")
	sum, err := log.PutBlob(ctx, data, "image/jpeg")
	if err != nil || sum != want {
		t.Fatalf("put: %s, %v; want %s", sum, err, want)
	}
	if again, err := log.PutBlob(ctx, data, "text/plain"); err != nil || again != sum {
		t.Errorf("put again: %s, %v", again, err)
	}
	got, mediaType, err := log.Blob(ctx, sum)
	if err != nil || string(got) != "abc" || mediaType != "image/jpeg" {
		t.Errorf("blob: %q, %q, %v", got, mediaType, err)
	}
	if _, _, err := log.Blob(ctx, "00"); !errors.Is(err, ErrNoBlob) {
		t.Errorf("unknown attachment: got %v, want ErrNoBlob", err)
	}
	for name, bad := range map[string][]byte{"empty": nil, "too large": make([]byte, MaxBlob+1)} {
		if _, err := log.PutBlob(ctx, bad, "image/jpeg"); !errors.Is(err, ErrInvalid) {
			t.Errorf("%s: got %v, want ErrInvalid", name, err)
		}
	}
	report, err := log.Check(ctx)
	if diff := cmp.Diff(Report{Machines: 1, Blobs: 1, Unused: 1}, report); err != nil || diff != "" {
		t.Errorf("report: %v (-want +got):\n%s", err, diff)
	}
}

func testMissingBlob(t *testing.T, log Log) {
	ctx := t.Context()
	raw := log.(checkedLog).Log // its checks would fail here, as they should
	e := entry(1, "")
	e.Body = &machine.JointOpened{Joint: "j", Photos: []machine.Sum{sumOf([]byte("photo")), sumOf([]byte("lost"))}}
	if _, err := raw.Append(ctx, "m", []machine.Entry{e}); err != nil {
		t.Fatal(err)
	}
	if _, err := raw.PutBlob(ctx, []byte("photo"), "image/jpeg"); err != nil {
		t.Fatal(err)
	}
	report, err := raw.Check(ctx)
	if err != nil || len(report.Faults) != 1 || report.Faults[0].Entry != e.ID || report.Faults[0].Blob != sumOf([]byte("lost")) {
		t.Errorf("report: %+v, %v; want one fault that names the entry and the attachment", report, err)
	}
	if _, err := raw.PutBlob(ctx, []byte("lost"), "image/jpeg"); err != nil { // it came after all
		t.Fatal(err)
	}
}

func testWriters(t *testing.T, log Log) {
	ctx := t.Context()
	raw := log.(checkedLog).Log
	const writers, each = 8, 25
	var group sync.WaitGroup
	for w := range writers {
		group.Go(func() {
			for i := range each {
				n := w*each + i + 1
				// every entry is sent twice, by two writers
				batch := []machine.Entry{entry(n, "x"), entry(n%(writers*each)+1, "x")}
				if _, err := raw.Append(ctx, "m", batch); err != nil {
					t.Error(err)
				}
			}
		})
	}
	group.Wait()
	kept, err := raw.Since(ctx, "m", 0)
	if err != nil || len(kept) != writers*each {
		t.Fatalf("kept %d, %v; want %d", len(kept), err, writers*each)
	}
	for i, e := range kept {
		if e.Seq != int64(i+1) {
			t.Fatalf("entry %d has number %d", i+1, e.Seq)
		}
	}
}

func testCancelled(t *testing.T, log Log) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := log.Append(ctx, "m", []machine.Entry{entry(1, "a")}); !errors.Is(err, context.Canceled) {
		t.Errorf("append: got %v, want context.Canceled", err)
	}
	if _, err := log.Since(ctx, "m", 0); !errors.Is(err, context.Canceled) {
		t.Errorf("since: got %v, want context.Canceled", err)
	}
	if kept, err := log.Since(t.Context(), "m", 0); err != nil || len(kept) != 0 {
		t.Errorf("kept %d, %v; want none", len(kept), err)
	}
}

func testAliasing(t *testing.T, log Log) {
	ctx := t.Context()
	body := &machine.Noted{Text: "as said"}
	e := entry(1, "")
	e.Body = body
	if _, err := log.Append(ctx, "m", []machine.Entry{e}); err != nil {
		t.Fatal(err)
	}
	body.Text = "altered by the caller"
	first, _ := log.Since(ctx, "m", 0)
	first[0].Body.(*machine.Noted).Text = "altered by a reader"
	second, err := log.Since(ctx, "m", 0)
	if err != nil || second[0].Body.(*machine.Noted).Text != "as said" {
		t.Errorf("kept %+v, %v", second[0].Body, err)
	}
}
