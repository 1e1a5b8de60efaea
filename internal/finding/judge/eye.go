package judge

import "matchmark/internal/machine"

// byEye gives the verdict of a look: OK is sound, not OK is worn. The first
// limit with words is shown as what sound and worn look like.
func (b *bench) byEye(f *Finding) {
	c := f.Check
	f.Points = 1
	f.Limit = unbound(machine.Limit{})
	for _, l := range c.Limits {
		if l.NewWords+l.WornWords == "" {
			continue
		}
		if f.Limit.Words == "" {
			f.Limit = unbound(l)
		} else {
			f.Others = append(f.Others, unbound(l))
		}
	}
	f.note(lookLimit(f.Limit))
	look := c.Look()
	passage := c.By == machine.ByPassage
	switch {
	case look == nil:
		f.Sentence = sentence(c.Name, choose(passage, "Not proved yet.", "Not looked at yet."))
		f.Settle = choose(passage, "Prove it clear", "Look") + because(c.How)
	case look.OK:
		f.Verdict, f.P, f.Read = Sound, 1, 1
		f.Sentence = sentence(c.Name, choose(passage, "proved clear", "seen")+said(look.Words)+".", "Sound.")
	default:
		f.Verdict, f.P, f.Read = Worn, 0, 1
		f.Sentence = sentence(c.Name, choose(passage, "not clear", "seen")+said(look.Words)+".", choose(passage, "Blocked.", "Worn."))
	}
	if look != nil && look.By != "" {
		f.note("the word of " + look.By)
	}
}

// note adds lines of working, leaving out empty ones.
func (f *Finding) note(lines ...string) {
	for _, l := range lines {
		if l != "" {
			f.Working = append(f.Working, l)
		}
	}
}

func choose(yes bool, a, b string) string {
	if yes {
		return a
	}
	return b
}
