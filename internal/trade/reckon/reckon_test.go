package reckon

import (
	"errors"
	"regexp"
	"slices"
	"strings"
	"testing"

	"matchmark/internal/trade/quantity"
)

// Each topic runs on its own example, names its source and how sure it is,
// and gives finite figures (Reckon refuses any other).
func TestEveryTopicRunsOnItsExample(t *testing.T) {
	for _, topic := range Topics() {
		t.Run(topic.Name, func(t *testing.T) {
			v, a, err := topic.Reckon(topic.Example)
			if err != nil {
				t.Fatalf("example %q: %v", topic.Example, err)
			}
			if len(a.Lines) == 0 || a.Source == "" || a.Sure == "" || topic.Title == "" || topic.Group == "" || topic.Source == "" || topic.Sure == "" {
				t.Errorf("topic or answer is not whole: %+v", a)
			}
			for _, l := range a.Lines {
				if l.Name == "" || l.Form == Saying && l.Words == "" || l.Form == Range && l.Low > l.High {
					t.Errorf("line %+v has no name, no words, or a range upside down", l)
				}
			}
			for _, in := range topic.Inputs {
				if in.Needed && !v.typed(in.Key) {
					t.Errorf("the example leaves out %s", in.Key)
				}
			}
		})
	}
}

func TestTopicsAreWellMade(t *testing.T) {
	seen := map[string]bool{}
	name := regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)
	for _, topic := range Topics() {
		if seen[topic.Name] || !name.MatchString(topic.Name) {
			t.Errorf("topic %q is there twice or misnamed", topic.Name)
		}
		seen[topic.Name] = true
		keys := map[string]bool{}
		for _, in := range topic.Inputs {
			if keys[in.Key] || !name.MatchString(in.Key) || in.Ask == "" {
				t.Errorf("%s: input %q is there twice, misnamed or not explained", topic.Name, in.Key)
			}
			keys[in.Key] = true
			if in.Dim != quantity.AnyDimension && in.Dim != quantity.Number && in.Dim != quantity.Count && in.Unit == "" && in.Dim != quantity.Ratio {
				t.Errorf("%s: input %s has no unit", topic.Name, in.Key)
			}
			if in.Default != "" {
				if _, err := topic.items(in, in.Default); err != nil || in.Needed {
					t.Errorf("%s: default of %s: needed %v, %v", topic.Name, in.Key, in.Needed, err)
				}
			}
		}
	}
}

// No word of a topic or an answer may read as a maker's limit.
func TestNothingReadsAsAMakersLimit(t *testing.T) {
	bad := regexp.MustCompile(`(?i)\b(makers?'?s?|manufacturer'?s?|factory|official) (limit|figure|value|torque|setting|tolerance)|\b(specification|spec|service limit|must not exceed|permitted|allowed limit)\b`)
	denied := regexp.MustCompile(`(?i)\b(not a|no|never a|before a|before any) maker'?s figure`)
	for _, topic := range Topics() {
		_, a, err := topic.Reckon(topic.Example)
		if err != nil {
			t.Fatal(err)
		}
		said := []string{topic.Title, topic.Source, topic.Sure, a.Source, a.Sure}
		for _, in := range topic.Inputs {
			said = append(said, in.Ask)
		}
		for _, l := range a.Lines {
			said = append(said, l.Name, l.Words, l.Basis)
		}
		for _, words := range slices.Concat(said, a.Working, a.Marked, a.Cautions) {
			if m := bad.FindString(denied.ReplaceAllString(words, "")); m != "" {
				t.Errorf("%s says %q in %q", topic.Name, m, words)
			}
		}
	}
}

// Any input may be nonsense: the answer is an error that names the topic, or
// finite figures; nothing panics. Text where a figure is wanted names its key.
func TestNonsenseIsRefusedByName(t *testing.T) {
	nonsense := []string{"zz", "-1", "0", "1e300", "-1e300", "1e-300", "nan", "inf", ";", "1;2;3", "//", "x", "0.5", "12345678", "3/0"}
	for _, topic := range Topics() {
		for _, in := range topic.Inputs {
			for _, bad := range nonsense {
				given := slices.DeleteFunc(slices.Clone(topic.Example), func(e string) bool { return strings.HasPrefix(e, in.Key+"=") })
				_, _, err := topic.Reckon(append(given, in.Key+"="+bad))
				if err == nil {
					continue
				}
				if !strings.Contains(err.Error(), topic.Name) {
					t.Errorf("%s=%s: error does not name the topic %s: %v", in.Key, bad, topic.Name, err)
				}
				var wrong InputError
				if bad == "zz" && in.Dim != quantity.AnyDimension && (!errors.As(err, &wrong) || wrong.Key != in.Key || wrong.Typed != bad || wrong.Want == "") {
					t.Errorf("%s %s=%s: error does not name input, value and want: %v", topic.Name, in.Key, bad, err)
				}
			}
		}
	}
}

func TestWhatIsMissingIsListedAtOnce(t *testing.T) {
	topic, err := Find("torque")
	if err != nil {
		t.Fatal(err)
	}
	_, _, err = topic.Reckon([]string{"engaged=12"})
	var missing MissingError
	if !errors.As(err, &missing) || len(missing.Inputs) != 2 || !strings.Contains(err.Error(), "thread") || !strings.Contains(err.Error(), "class") {
		t.Errorf("wanted thread and class as missing, got %v", err)
	}
}

func TestNearestSpelling(t *testing.T) {
	for _, c := range []struct{ typed, want string }{{"toque", "torque"}, {"bolt-circel", "bolt-circle"}} {
		_, err := Find(c.typed)
		var unknown UnknownError
		if !errors.As(err, &unknown) || len(unknown.Near) == 0 || unknown.Near[0] != c.want {
			t.Errorf("%s: %v; nearest %s was wanted", c.typed, err, c.want)
		}
	}
	topic, _ := Find("torque")
	if _, _, err := topic.Reckon([]string{"tread=M10"}); err == nil || !strings.Contains(err.Error(), "thread") {
		t.Errorf("tread: %v", err)
	}
	for _, given := range [][]string{{"thread"}, {"=M10"}, {"thread="}, {"thread=M10", "thread=M12"}} {
		if _, _, err := topic.Reckon(given); err == nil {
			t.Errorf("%q was taken", given)
		}
	}
}
