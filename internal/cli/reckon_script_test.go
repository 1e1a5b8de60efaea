package cli

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"matchmark/internal/trade/reckon"
)

// reckonScripts holds one script for each topic: its example and the whole
// answer, figures, working and source. The figures are our own and only keep
// an answer from changing unseen; the rows that prove them stand with each
// trade package and in reckon_*.txtar. -update writes scripts for new topics.
const reckonScripts = "testdata/reckon"

func TestReckonScripts(t *testing.T) {
	if *update {
		writeReckonScripts(t)
	}
	testscript.Run(t, testscript.Params{Dir: reckonScripts, UpdateScripts: *update})
}

func TestEveryTopicHasAScript(t *testing.T) {
	for _, topic := range reckon.Topics() {
		if _, err := os.Stat(scriptOf(topic)); err != nil {
			t.Errorf("topic %q has no script; run go test ./internal/cli -run ReckonScripts -update and read what it writes", topic.Name)
		}
	}
}

func scriptOf(topic reckon.Topic) string {
	return filepath.Join(reckonScripts, topic.Name+".txtar")
}

func writeReckonScripts(t *testing.T) {
	t.Helper()
	if err := os.MkdirAll(reckonScripts, 0o755); err != nil {
		t.Fatal(err)
	}
	for _, topic := range reckon.Topics() {
		if _, err := os.Stat(scriptOf(topic)); err == nil {
			continue
		}
		var args []string
		for _, given := range topic.Example {
			args = append(args, "'"+strings.ReplaceAll(given, "'", "''")+"'")
		}
		text := fmt.Sprintf("# %s.\n# Source: %s\nmatchmark reckon %s %s\ncmp stdout answer\n! matchmark reckon %s no-such-key=1\nstderr no-such-key\n-- answer --\n",
			topic.Title, topic.Source, topic.Name, strings.Join(args, " "), topic.Name)
		if err := os.WriteFile(scriptOf(topic), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}
