package judge

import (
	"fmt"
	"math"

	"matchmark/internal/finding/nominal"
	"matchmark/internal/machine"
)

// Nominal proposes what a bore or journal was made to, from its own unworn
// surface or, where that was not read, from the like surface of the first other
// part of its kind that has one read. ok is false where there is nothing to go
// by. Cost: a millisecond at most.
func Nominal(m *machine.Machine, ft *machine.Feature) (p nominal.Proposal, ok bool) {
	return newBench(m).proposal(ft, "")
}

// proposal is Nominal, reckoned once for each surface and instrument to assume.
func (b *bench) proposal(ft *machine.Feature, usual string) (nominal.Proposal, bool) {
	if ft == nil || ft.Part == nil || ft.Sort != machine.Bore && ft.Sort != machine.Shaft {
		return nominal.Proposal{}, false
	}
	key := surfaceKey{ft.ID, usual}
	if p, known := b.proposals[key]; known {
		return p, len(p.Options) > 0
	}
	p := b.propose(ft, usual)
	for _, other := range b.m.Features {
		if len(p.Options) > 0 {
			break
		}
		if other != ft && other.Part != nil && other.Part.Type == ft.Part.Type && other.ID.Name() == ft.ID.Name() {
			p = b.propose(other, usual)
		}
	}
	b.proposals[key] = p
	return p, len(p.Options) > 0
}

// propose goes by the unworn surface of one feature; empty where there is none.
func (b *bench) propose(ft *machine.Feature, usual string) nominal.Proposal {
	surf := b.surface(ft, usual, b.scaleOf("mm"))
	if surf.unworn == nil {
		return nominal.Proposal{}
	}
	p, err := nominal.Propose(nominal.Evidence{Sort: ft.Sort, Unworn: surf.unworn.est, Place: "unworn surface of " + ft.Called() + in(ft.Unworn)})
	if err != nil {
		return nominal.Proposal{}
	}
	return p
}

// unlike is the share of a size by which two like surfaces of a machine do not
// differ: the steps of rework and all wear are within it. Common practice, no
// source.
const unlike = 0.03

// proposedSize is the variable of a limit's formulas from a proposal that is
// sure enough; line says one that is not.
func (b *bench) proposedSize(ft *machine.Feature, usual string) (size float64, words, line string) {
	p, ok := b.proposal(ft, usual)
	if !ok {
		return 0, "", ""
	}
	best, sure := p.Best()
	switch mean, read := b.meanReading(usual, ft); {
	case !read: // a like surface is gone by only where the own size bears it out
		return 0, "", ""
	case math.Abs(mean-best.Size()) > unlike*best.Size():
		return 0, "", fmt.Sprintf("the %s has another size: not gone by", p.Place)
	}
	if !sure {
		return 0, "", fmt.Sprintf("from the %s: %s: not sure enough to go by", p.Place, p.Words())
	}
	return best.Size(), fmt.Sprintf("%s mm, from the %s, probability %s", figure(best.Size(), 3), p.Place, nominal.Chance(best.P)), ""
}
