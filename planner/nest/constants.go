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
	// bodyCorners is how many corners of an outline the search works with: a garment's
	// outlines then grow by less than 1 %, and no-fit regions stay small.
	bodyCorners = 24
	// bodyFree is the share of its area an outline may grow by for each corner left
	// out beyond that.
	bodyFree = 2e-6
	// stepsWithoutGain ends a bounded search that no longer finds anything.
	stepsWithoutGain = 400
	// defaultSteps bounds a search that was given neither steps nor time.
	defaultSteps = 64
)

// Of the overlap minimisation. Where no other reason is given the figure is that
// of Gardeyn, Vanden Berghe, Wauters, 2025, and held up in our own comparisons.
const (
	// wideSamples and nearSamples are how many places of a copy are looked at over
	// all its room, and near where it lies.
	wideSamples = 25
	nearSamples = 15
	// cornerSamples is how many places in corners between two copies are looked at,
	// cornerOnEdge the share of them moved to an edge of the cloth.
	cornerSamples = 15
	cornerOnEdge  = 0.2
	// descents is how many of the best samples are followed downhill.
	descents = 3
	// The steps of short and of long descents, as shares of the copy's size.
	coarseFrom, coarseTo = 0.25, 0.02
	fineFrom, fineTo     = 0.02, 0.0001
	// stepGrow and stepShrink change the step of a descent after success and failure.
	stepGrow, stepShrink = 1.1, 0.5
	// The weight of a pair that does not overlap fades by weightFade each pass, down to one.
	weightFade = 0.95
	// leastGain is the share by which loss must fall to count as a gain.
	leastGain = 0.02
	// movesPerStep is how many moves of a copy count as one step of the budget: about
	// as much work as one fill.
	movesPerStep = 200
	// squeezeFrom is the depth, as a share of the cloth's width, up to which moving
	// everything at once is tried; squeezeAgain the share of the loss of the last
	// failure that makes it worth trying again.
	squeezeFrom, squeezeAgain = 0.01, 0.6
	// squeezeRounds bounds it; every squeezeCheck rounds the worst push must have
	// come down to squeezeGain of what it was.
	squeezeRounds, squeezeCheck, squeezeGain = 240, 20, 0.8
	// exploreShare of the budget goes to exploration, the rest to compression.
	exploreShare = 0.8
	// exploreFirst is the share of the length taken off at once; it grows by shrinkUp,
	// up to exploreMost, where that could be parted, and falls by shrinkDown, down to
	// exploreLater, where not: a wide step from many starts was measured to come
	// sooner to the same length than many small ones from one.
	exploreFirst, exploreMost, exploreLater = 0.02, 0.05, 0.001
	shrinkUp, shrinkDown                    = 1.5, 0.5
	// patience is how many starts are tried before a step is made smaller.
	patience = 2
	// Strikes, and passes without a gain each, before parting is given up.
	exploreStrikes, explorePasses   = 2, 100
	compressStrikes, compressPasses = 3, 60
	// compressFirst and compressLast are the shares taken off in compression.
	compressFirst, compressLast = 0.001, 0.0001
	// poolSize bounds the states kept, poolSpread is the spread of the choice among them.
	poolSize, poolSpread = 30, 0.15
	// A restart lays scatterLeast to scatterMost copies anywhere: with the length asked
	// for held, that came two to six times as fast to layouts of four sets as swaps of
	// two large copies, as more copies, or as all of them.
	scatterLeast, scatterMost = 2, 6
	// swapShare of the restarts exchange two large copies instead, which few outlines
	// of very different sizes answer to best; largeShare of the area, in the largest
	// copies, counts as large.
	swapShare, largeShare = 0.25, 0.75
)

// Of the exact end.
const (
	// contactShare of the cloth's width counts as contact while searching: a
	// thousandth of a millimetre on the usual cloth, far under what can be cut.
	contactShare = 1e-6
	// settleReach is how many contacts a copy is moved by at most, settleRounds how
	// often on average, until a layout is given up.
	settleReach, settleRounds = 8, 12
	// relaxRounds bounds the relaxation; a stack of ten settles in some dozens.
	relaxRounds = 600
	// relaxedTo is the push, in µm, that no longer matters once rounded.
	relaxedTo = 0.002
	// roundingBias moves the fractions that halving leaves off the rounding's edge.
	roundingBias = 0.0437
	// roundingRoom, in µm, is kept at slanted contacts: two places rounded to whole
	// µm move towards each other by √2 at most.
	roundingRoom = 1.5
)
