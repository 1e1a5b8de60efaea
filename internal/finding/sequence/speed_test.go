package sequence

import (
	"fmt"
	"math/rand"
	"testing"

	"matchmark/internal/machine"
)

// large writes a machine of 500 parts, 800 joints, 300 checks and 35 tests in
// 20 assemblies of 5 systems, with every third joint reached in two ways, and
// strips the given share of it.
func large(share float64) *book {
	rng := rand.New(rand.NewSource(1))
	b := new(book)
	const parts, joints, checks, groups = 500, 800, 300, 20
	for a := range groups {
		b.write(&machine.AssemblyAdded{ID: machine.AssemblyID(fmt.Sprintf("a%d", a)), Name: "Assembly", System: fmt.Sprintf("s%d", a%5),
			Strip: machine.Hours{Likely: 5}, Clean: machine.Hours{Likely: 5}, Measure: machine.Hours{Likely: 5}, Build: machine.Hours{Likely: 5}})
	}
	for i := range parts {
		id := machine.PartID(fmt.Sprintf("p%d", i))
		b.write(&machine.PartAdded{ID: id, Name: fmt.Sprintf("Part %d", i), Qty: 1, Assembly: machine.AssemblyID(fmt.Sprintf("a%d", i*groups/parts))})
		if i%2 == 0 {
			b.write(&machine.FeatureAdded{Part: id, Feature: "bore", Sort: machine.Bore})
		}
	}
	near := func(i int) string { return fmt.Sprintf("j%d", max(0, i-1-rng.Intn(30))) }
	for i := range joints {
		reach := ""
		if i%10 > 0 {
			reach = near(i) + " " + near(i)
			if i%3 == 0 {
				reach += " | " + near(i)
			}
		}
		b.write(joint(fmt.Sprintf("j%d", i), reach, func(j *machine.JointAdded) {
			j.Assembly = machine.AssemblyID(fmt.Sprintf("a%d", i*groups/joints))
			j.Dry = i%16 == 5
			p := i * parts / joints
			j.Parts = []machine.PartID{machine.PartID(fmt.Sprintf("p%d", p)), machine.PartID(fmt.Sprintf("p%d", rng.Intn(p+1)))}
		}))
	}
	for i := range checks {
		at := 30 + i*(joints-30)/checks
		when := []string{machine.Apart, machine.Apart, machine.Made, machine.Running}[i%4]
		hidden := fmt.Sprintf("j%d", at-10-rng.Intn(10))
		if i%5 == 0 {
			hidden += fmt.Sprintf(" j%d", at-20-rng.Intn(10))
		}
		b.write(check(fmt.Sprintf("c%d", i), when, fmt.Sprintf("j%d", at), hidden, func(c *machine.CheckAdded) {
			c.Assembly = machine.AssemblyID(fmt.Sprintf("a%d", at*groups/joints))
			c.Parts = []machine.PartID{machine.PartID(fmt.Sprintf("p%d", at*parts/joints))}
			c.Remedies = []machine.Remedy{{Key: "renew", Name: "Renew", Renews: c.Parts}}
		}))
	}
	for i := range 35 {
		b.write(&machine.TestAdded{ID: machine.TestID(fmt.Sprintf("t%d", i)), Name: "Test", System: fmt.Sprintf("s%d", i%5), Order: i})
	}
	for i := range int(share * joints) {
		b.write(opened(fmt.Sprintf("j%d", i))...)
	}
	for i := 0; i < int(share*checks); i += 5 {
		b.write(look(fmt.Sprintf("c%d", i), false), &machine.RemedyChosen{Check: machine.CheckID(fmt.Sprintf("c%d", i)), Key: "renew"})
	}
	return b
}

func BenchmarkMake(b *testing.B) {
	for _, share := range []float64{0, 0.5, 1} {
		b.Run(fmt.Sprintf("stripped=%.0f%%", share*100), func(b *testing.B) {
			m := large(share).fold()
			p := Make(m, looks{m})
			literals := 0
			for _, r := range p.rules {
				for _, alt := range r.any {
					literals += len(alt)
				}
			}
			b.Logf("%d steps, %d rules, %d literals, %d guards, %d free, %d contradictions", p.todo, len(p.rules), literals, len(p.guards), len(p.Free), len(p.Contradictions))
			for b.Loop() {
				Make(m, looks{m})
			}
		})
	}
}

// A ring through most of the machine, to be shrunk to its core.
func BenchmarkContradiction(b *testing.B) {
	m := large(0).write(inTheWay("j0", "j799"), inTheWay("j10", "j500")).fold()
	p := Make(m, looks{m})
	for _, c := range p.Contradictions {
		b.Logf("%d claims: %s", len(c.Claims), c.Words)
	}
	for b.Loop() {
		Make(m, looks{m})
	}
}

func BenchmarkMayClose(b *testing.B) {
	m := large(1).fold()
	j := m.Joint("j400")
	for b.Loop() {
		MayClose(m, looks{m}, j, true)
	}
}

func BenchmarkBlocked(b *testing.B) {
	m := large(0.5).fold()
	p := Make(m, looks{m})
	b.Run("last opening", func(b *testing.B) {
		for b.Loop() {
			p.Blocked(OpenID("j799"))
		}
	})
	b.Run("last step", func(b *testing.B) {
		last := p.Order[len(p.Order)-1].ID
		for b.Loop() {
			p.Blocked(last)
		}
	})
}
