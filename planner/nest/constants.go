package nest

// The engine's constants in one place, with their reasons.
const (
	// tiltSteps is how many steps of a tilt are tried to either side: a tilt is at
	// most 2°, and steps under half of that gain less than the clearance.
	tiltSteps = 2
	// heightsTried is how many evenly spread heights a pose is tried at besides the
	// corners of forbidden regions: about one a centimetre on cloth 1.5 m wide.
	heightsTried = 128
	// refineSteps halves the spacing of heights about the best one so often: from a
	// centimetre to under a tenth of a millimetre.
	refineSteps = 7
	// stepsWithoutGain ends a bounded search that no longer finds anything.
	stepsWithoutGain = 400
	// defaultSteps bounds a search that was given neither steps nor time.
	defaultSteps = 64
)
