package bench

import (
	"matchmark/internal/finding/identify"
	"matchmark/internal/machine"
)

// IdentifiedAs is the fact that a part is one of the candidates of an answer,
// with the sizes it was found by.
func IdentifiedAs(part machine.PartID, a identify.Answer, is identify.Candidate, sizes []Size) *machine.PartIdentified {
	fact := &machine.PartIdentified{Part: part, What: string(a.Kind), Designation: is.Item.Designation, Probability: is.P,
		Equivalents: is.Equivalents, Source: is.Item.Source}
	for _, s := range sizes {
		fact.Measured = append(fact.Measured, machine.DimensionRead{Dim: s.Dim, Amount: s.Amount, U: s.U, Worn: s.Worn})
	}
	return fact
}
