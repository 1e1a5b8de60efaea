package identify

import (
	"math"
	"slices"
	"strings"

	"matchmark/internal/trade/catalogue"
)

// Part answers a question: the posterior over the catalogue of its kind.
// Method: Bayes with the densities of this package; sums in logarithms. Gears,
// worn bores and worn journals have likelihoods of their own.
// Errors: AskError; a table that cannot be read. Cost: items times dimensions,
// about a millisecond for the largest table.
func Part(a Ask) (Answer, error) {
	specs := Dims(a.Kind)
	if err := a.check(specs); err != nil {
		return Answer{}, err
	}
	switch a.Kind {
	case catalogue.GearRack:
		return gear(a, specs)
	case WornBore, WornJournal:
		return nominal(a, specs)
	}
	if a.Among == nil {
		std, err := catalogue.Standard()
		if err != nil {
			return Answer{}, err
		}
		a.Among = std.Of(a.Kind)
	}
	return among(a, specs), nil
}

// Dims lists what can be measured on a kind, in the order of its table; nil for
// an unknown kind.
func Dims(kind catalogue.Kind) []catalogue.Spec {
	switch kind {
	case catalogue.GearRack:
		return slices.Clone(gearDims)
	case WornBore:
		return slices.Clone(boreDims)
	case WornJournal:
		return slices.Clone(journalDims)
	}
	return catalogue.Specs(kind)
}

// Kinds lists the kinds that Part answers.
func Kinds() []catalogue.Kind { return append(catalogue.Kinds(), WornBore, WornJournal) }

func kindList() string {
	var names []string
	for _, k := range Kinds() {
		names = append(names, string(k))
	}
	return strings.Join(names, ", ")
}

// among is the posterior over the items of a.Among by their dimensions.
func among(a Ask, specs []catalogue.Spec) Answer {
	wear := a.WearMean
	if wear == 0 {
		wear = DefaultWear
	}
	b := broadOf(a.Measured, a.Among)
	logs := make([]float64, len(a.Among))
	for i := range a.Among {
		for j, m := range a.Measured {
			if d, ok := a.Among[i].Dim(m.Dim); ok {
				logs[i] += logLike(m, d, wear)
			} else {
				logs[i] += b.flat[j] // the table does not give it: anything goes
			}
		}
	}
	ans := weigh(a, logs, b.log(a.Measured, a.Among))
	explain(&ans, a, specs)
	return ans
}

// weigh turns log likelihoods of the items and of none into an Answer with
// twins put together, ranked.
func weigh(a Ask, logs []float64, none float64) Answer {
	p0 := a.NonePrior
	if p0 == 0 {
		p0 = DefaultNone
	}
	total := 0.0
	prior := make([]float64, len(a.Among))
	for i, it := range a.Among {
		prior[i] = 1
		if w, named := a.Prior[it.Designation]; named {
			prior[i] = w
		}
		total += prior[i]
	}
	if total == 0 { // nothing is thought possible: only none is left
		p0, total = 1, 1
	}
	for i := range logs {
		logs[i] += math.Log(prior[i]) + math.Log((1-p0)/total)
	}
	none += math.Log(p0)
	all := logSum(append(slices.Clone(logs), none))
	ps := make([]float64, len(logs))
	for i, l := range logs {
		ps[i] = math.Exp(l - all)
	}
	ans := Answer{Kind: a.Kind, Ranked: group(a.Among, ps), None: math.Exp(none - all)}
	ans.Set95 = smallestSet(ans.Ranked, ans.None)
	ans.Settled = len(ans.Ranked) > 0 && ans.Ranked[0].P >= coverage
	return ans
}
