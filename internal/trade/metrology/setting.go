package metrology

// SettingShift is what an instrument reads too much, from one reading of a
// setting piece of known size: the reading less the piece. Readings that follow
// are corrected by it and take over its uncertainty, the same error for all of
// them: u² = u_piece² + repeat² + step²/12. The limit of error of the scale is
// not in it, for it stays with every reading: a piece proves the scale at its
// own size only.
// Method: GUM 3.2.4 (what is known to be wrong is corrected), 4.3, 5.1.2.
// Errors: RangeError.
func SettingShift(piece Estimate, read float64, in Instrument) (Estimate, error) {
	if err := in.Check(); err != nil {
		return Estimate{}, err
	}
	shown := Estimate{Value: read, U: SumSquares(in.Repeat, FromStep(in.Step))}
	if in.Repeat > 0 {
		shown.Dof = EffectiveDof([]Part{{"repeat", in.Repeat, priorDof}, {"step", FromStep(in.Step), 0}})
	}
	return Difference(shown, piece, 0)
}

// AtTemperature is the size of a piece of a material at a temperature, from its
// size at 20 °C: L·(1 + α(t − 20)), with the uncertainties of temperature and
// coefficient added. Units: mm, °C. Method: ISO 1; GUM 5.1.2.
// Errors: RangeError.
func AtTemperature(length Estimate, m Material, celsius Estimate) (Estimate, error) {
	return correct(length, Material{}, m, celsius)
}
