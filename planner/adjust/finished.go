package adjust

import (
	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
)

// girthLevels are the finished measurements that follow from an adjustment: what they are
// called in a pattern, and the level at which the garment is measured.
var girthLevels = map[string]string{
	pattern.Bust: Underarm, pattern.Waist: Waist, pattern.Hip: HipLevel, pattern.Thigh: Crotch, "hem": HemLevel,
}

// girths are what the pieces of the body measure at the levels, by finished measurement.
type girths map[string]float64

func (w *work) girths() girths {
	out := girths{}
	for name, level := range girthLevels {
		for _, b := range w.bodies {
			if x, ok := b.levels[level]; ok && !b.sleeve() {
				if arm, ok := deepest(b.o, "armhole"); ok && level == Underarm && arm > x+b.seam {
					x = arm // a steep armhole that was let out ends lower than it did
				}
				out[name] += b.breadth(name, x)
			}
		}
	}
	for _, b := range w.bodies {
		if !b.sleeve() && len(b.levels) > 0 {
			out[pattern.BodyLen] = float64(b.levels[HemLevel] - b.levels[Top])
			break
		}
	}
	return out
}

// breadth is what all the pieces cut of this one measure at a depth, allowances included.
func (b *body) breadth(name string, x int64) float64 {
	if x >= b.o.Cut.Bounds().Max.X {
		x = b.o.Cut.Bounds().Max.X - 1
	}
	ys := Crossings(b.o.Cut, x)
	if len(ys) < 2 {
		return 0
	}
	wide := float64(ys[len(ys)-1] - ys[0])
	if b.OnFold {
		wide = 2 * float64(ys[len(ys)-1])
	}
	wide *= float64(max(b.Cut, 1))
	if _, legs := b.levels[Crotch]; legs && (name == pattern.Thigh || name == "hem") {
		wide /= 2
	}
	return wide
}

// follow changes the finished measurements by what the pieces changed.
func (w *work) follow(before girths) {
	f := w.p.Sizes[0].Finished
	for name, now := range w.girths() {
		if _, known := f[name]; known {
			f[name] += measure.Length(now - before[name])
		}
	}
}
