package nest

import (
	"fmt"

	"tallycloth/stash/shape"
)

// Check says whether a solution keeps every rule of its instance, exactly, on
// the true outlines. It shares no code with the search: places are compared
// pair by pair with the integer predicates of package shape. Its error names
// what is wrong, in mm.
//
//  1. Every copy is laid once or listed in Left, never both; if anything is laid,
//     so is every pinned copy.
//  2. Angles, mirroring, groups, repeats and pins are as the items ask.
//  3. Everything lies on its fabric, within one band, on a fold where asked.
//  4. Nothing overlaps; clearance is kept. Distances are not rounded: a corner
//     beside an edge is too near when cross² < clearance² · length², compared in
//     128 bits (shape.Clear).
//  5. Used and Value are what the places say.
//  6. For BestSubset the items of a group are all laid or all left.
//
// Places are limited to shape.MaxCoordinate, within which all of this is exact.
// A LeastLength solution may be empty (nothing was found), which is no layout.
func Check(in Instance, sol Solution) error {
	for _, rule := range []func(Instance, Solution) error{
		checkCopies, checkPinsLaid, checkWholeGroups, checkPoses, checkFabrics, checkPairs, checkSums,
	} {
		if err := rule(in, sol); err != nil {
			return err
		}
	}
	return nil
}

func checkCopies(in Instance, sol Solution) error {
	seen := map[Copy]bool{}
	note := func(c Copy) error {
		if c.Item < 0 || c.Item >= len(in.Items) || c.Copy < 0 || c.Copy >= max(in.Items[c.Item].Count, 1) {
			return fmt.Errorf("item %d has no copy %d", c.Item, c.Copy)
		}
		if seen[c] {
			return fmt.Errorf("copy %d of item %d comes twice", c.Copy, c.Item)
		}
		seen[c] = true
		return nil
	}
	for _, l := range sol.Laid {
		if err := note(Copy{l.Item, l.Copy}); err != nil {
			return err
		}
	}
	for _, c := range sol.Left {
		if err := note(c); err != nil {
			return err
		}
	}
	for i, it := range in.Items {
		if got := len(seenOf(seen, i)); got != max(it.Count, 1) {
			return fmt.Errorf("item %d: %d of %d copies accounted for", i, got, max(it.Count, 1))
		}
	}
	return nil
}

// checkPinsLaid: a layout without a pinned copy is not the one asked for.
func checkPinsLaid(in Instance, sol Solution) error {
	for _, c := range sol.Left {
		if len(sol.Laid) > 0 && c.Copy < len(in.Items[c.Item].Pinned) {
			return fmt.Errorf("copy %d of item %d is pinned but was left out", c.Copy, c.Item)
		}
	}
	return nil
}

func checkWholeGroups(in Instance, sol Solution) error {
	if in.Ask != BestSubset {
		return nil
	}
	laid := map[int]bool{}
	for _, l := range sol.Laid {
		laid[in.Items[l.Item].Group] = true
	}
	for _, c := range sol.Left {
		if g := in.Items[c.Item].Group; g != NoGroup && laid[g] {
			return fmt.Errorf("item %d copy %d was left out while others of its group are laid", c.Item, c.Copy)
		}
	}
	return nil
}

func seenOf(seen map[Copy]bool, item int) []Copy {
	var out []Copy
	for c := range seen {
		if c.Item == item {
			out = append(out, c)
		}
	}
	return out
}

func checkPoses(in Instance, sol Solution) error {
	turns := make([][]bool, len(in.Groups)) // which of the group's turns still explain everything laid
	for g := range turns {
		turns[g] = make([]bool, len(in.Groups[g].Angles))
		for k := range turns[g] {
			turns[g][k] = true
		}
	}
	for _, l := range sol.Laid {
		it := in.Items[l.Item]
		if err := checkPose(in, it, l, turns); err != nil {
			return fmt.Errorf("item %d copy %d: %w", l.Item, l.Copy, err)
		}
	}
	return nil
}

func checkPose(in Instance, it Item, l Laid, turns [][]bool) error {
	switch {
	case it.Mirror == AsDrawn && l.Place.Mirror && !it.OnFold:
		return fmt.Errorf("laid mirrored, which it may not be")
	case it.Mirror == Mirrored && !l.Place.Mirror && !it.OnFold:
		return fmt.Errorf("must be laid mirrored and is not")
	case it.Repeat > 0 && (l.Place.At.X-it.Phase)%it.Repeat != 0:
		return fmt.Errorf("does not meet the print repeat")
	}
	if l.Copy < len(it.Pinned) {
		if pin := it.Pinned[l.Copy]; pin.Fabric != l.Fabric || pin.Place != l.Place {
			return fmt.Errorf("was moved from where it is pinned")
		}
	}
	if it.Group == NoGroup || len(in.Groups[it.Group].Angles) == 0 {
		if !angleAllowed(it, l.Place.Angle) {
			return fmt.Errorf("turned by %.1f°, which it may not be", float64(l.Place.Angle)/1000)
		}
		return nil
	}
	some := false
	for k, g := range in.Groups[it.Group].Angles {
		turns[it.Group][k] = turns[it.Group][k] && angleAllowed(it, l.Place.Angle-g)
		some = some || turns[it.Group][k]
	}
	if !some {
		return fmt.Errorf("turned by %.1f°, not as the rest of its group", float64(l.Place.Angle)/1000)
	}
	return nil
}

// angleAllowed says whether a turn is one of the item's own, within its tilt.
func angleAllowed(it Item, a shape.Angle) bool {
	own := it.Angles
	if len(own) == 0 {
		own = []shape.Angle{0}
	}
	for _, b := range own {
		d := (a - b).Norm()
		if d <= it.Tilt || d >= 360_000-it.Tilt {
			return true
		}
	}
	return false
}

func checkFabrics(in Instance, sol Solution) error {
	for _, l := range sol.Laid {
		if l.Fabric < 0 || l.Fabric >= len(in.Fabrics) {
			return fmt.Errorf("item %d lies on fabric %d, which is not there", l.Item, l.Fabric)
		}
		if at := l.Place.At; max(at.X, at.Y) > shape.MaxCoordinate || min(at.X, at.Y) < -shape.MaxCoordinate {
			return fmt.Errorf("item %d copy %d lies further off than can be measured", l.Item, l.Copy)
		}
		f, ring := in.Fabrics[l.Fabric], l.Place.Apply(in.Items[l.Item].Outline)
		if err := onFabric(f, ring, in.Clearance); err != nil {
			return fmt.Errorf("item %d copy %d %w", l.Item, l.Copy, err)
		}
		if err := inBand(f, in.Items[l.Item], l, ring.Bounds()); err != nil {
			return fmt.Errorf("item %d copy %d %w", l.Item, l.Copy, err)
		}
	}
	return nil
}

func onFabric(f Fabric, ring shape.Ring, clearance int64) error {
	if err := withinCloth(f, ring, clearance); err != nil {
		return err
	}
	for i, o := range f.Obstacles {
		if shape.ClearPolygon(ring, o, clearance) {
			continue
		}
		if depth := shape.Depth(ring, o.Outer); depth > 0 {
			return fmt.Errorf("lies %.3f mm over the flaw or reserved part %d", depth/1000, i)
		}
		return fmt.Errorf("lies nearer than %.3f mm to the flaw or reserved part %d", float64(clearance)/1000, i)
	}
	return nil
}

func withinCloth(f Fabric, ring shape.Ring, clearance int64) error {
	if len(f.Outline.Outer) > 0 {
		switch {
		case !shape.Inside(ring, f.Outline):
			return fmt.Errorf("lies %.3f mm over the edge of the cloth", outBy(ring, f.Outline)/1000)
		case !shape.InsideBy(ring, f.Outline, clearance):
			return fmt.Errorf("lies nearer than %.3f mm to the edge of the cloth", float64(clearance)/1000)
		}
		return nil
	}
	b := ring.Bounds()
	over := max(-b.Min.X, -b.Min.Y, b.Max.Y-f.Width)
	if f.Length > 0 {
		over = max(over, b.Max.X-f.Length)
	}
	if over > 0 {
		return fmt.Errorf("lies %.3f mm over the edge of the cloth", float64(over)/1000)
	}
	return nil
}

// outBy is how far, in µm, the furthest corner outside lies from the outline, or
// how deep the ring reaches into a hole: for the message only.
func outBy(ring shape.Ring, out shape.Polygon) float64 {
	far := 0.0
	for _, p := range ring {
		if out.Outer.Locate(p) == shape.Outside {
			far = max(far, shape.Distance(shape.Ring{p}, out.Outer))
		}
	}
	for _, h := range out.Holes {
		far = max(far, shape.Depth(ring, h))
	}
	return far
}

func inBand(f Fabric, it Item, l Laid, b shape.Box) error {
	bands := f.Bands
	if len(bands) == 0 {
		if it.OnFold || it.Layers == 2 {
			return fmt.Errorf("needs folded cloth")
		}
		return nil
	}
	for _, band := range bands {
		if b.Min.Y < band.From || b.Max.Y > band.To || it.Layers != 0 && it.Layers != band.Layers {
			continue
		}
		if !it.OnFold || foldEdgeOn(band, l.Place, b) {
			return nil
		}
	}
	return fmt.Errorf("lies in no part of the folded cloth that serves it")
}

// foldEdgeOn says whether the item's line y = 0 lies on a fold of the band, with
// the rest of it inside.
func foldEdgeOn(band Band, p shape.Placement, b shape.Box) bool {
	upright := (p.Angle == shape.Turn0) != p.Mirror // y ≥ 0 stays up
	if p.Angle != shape.Turn0 && p.Angle != shape.Turn180 {
		return false
	}
	if upright {
		return band.FoldLow && p.At.Y == band.From && b.Min.Y == band.From
	}
	return band.FoldHigh && p.At.Y == band.To && b.Max.Y == band.To
}

func checkPairs(in Instance, sol Solution) error {
	rings := make([]shape.Ring, len(sol.Laid))
	for i, l := range sol.Laid {
		rings[i] = l.Place.Apply(in.Items[l.Item].Outline)
	}
	for i, a := range sol.Laid {
		for j := i + 1; j < len(sol.Laid); j++ {
			b := sol.Laid[j]
			if a.Fabric != b.Fabric || shape.Clear(rings[i], rings[j], in.Clearance) {
				continue
			}
			two := fmt.Sprintf("item %d copy %d and item %d copy %d", a.Item, a.Copy, b.Item, b.Copy)
			if depth := shape.Depth(rings[i], rings[j]); depth > 0 {
				return fmt.Errorf("%s overlap by %.3f mm", two, depth/1000)
			}
			return fmt.Errorf("%s lie %.3f mm apart, nearer than the clearance of %.3f mm",
				two, shape.Distance(rings[i], rings[j])/1000, float64(in.Clearance)/1000)
		}
	}
	return nil
}

func checkSums(in Instance, sol Solution) error {
	used := make([]int64, len(in.Fabrics))
	var value int64
	for _, l := range sol.Laid {
		start := int64(0)
		if f := in.Fabrics[l.Fabric]; len(f.Outline.Outer) > 0 {
			start = f.Outline.Bounds().Min.X
		}
		end := l.Place.Apply(in.Items[l.Item].Outline).Bounds().Max.X
		used[l.Fabric] = max(used[l.Fabric], end-start)
		value += in.Items[l.Item].Value
	}
	if value != sol.Value {
		return fmt.Errorf("the value is %d, the solution says %d", value, sol.Value)
	}
	for f := range used {
		if len(sol.Used) != len(used) || used[f] != sol.Used[f] {
			return fmt.Errorf("the length used on fabric %d is %d µm, the solution says %v", f, used[f], sol.Used)
		}
	}
	return nil
}
