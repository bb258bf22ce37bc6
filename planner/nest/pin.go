package nest

import "tallycloth/stash/shape"

// pinned lists the copies that are pinned.
func pinned(in Instance) []Laid {
	var out []Laid
	for i, it := range in.Items {
		for k, pin := range it.Pinned {
			out = append(out, Laid{i, k, pin.Fabric, pin.Place})
		}
	}
	return out
}

// withPins is a layout with the pinned copies where they must be, whatever it says of them.
func withPins(in Instance, laid []Laid) []Laid {
	out := pinned(in)
	for _, l := range laid {
		if l.Copy >= len(in.Items[l.Item].Pinned) {
			out = append(out, l)
		}
	}
	return out
}

// addGiven adds the ways in which copies of an item are given, where its tilt allows
// them: a hand turns by other angles than the few that the search tries.
func (p *problem) addGiven(i int, it Item, group shape.Angle, add func(shape.Angle, bool, bool, bool)) {
	if it.Tilt == 0 || it.OnFold {
		return
	}
	for _, l := range p.given {
		face := it.Mirror == EitherFace || l.Place.Mirror == (it.Mirror == Mirrored)
		if own := l.Place.Angle - group; l.Item == i && face && angleAllowed(it, own) {
			add(own, l.Place.Mirror, false, false)
		}
	}
}

// pins lays the pinned copies where they must be, and turns each group so that all of
// its pinned copies are turned with it.
func (l *layout) pins() {
	for g, wish := range l.turn {
		l.turn[g] = l.p.turnPinned(g, wish)
	}
	for _, q := range pinned(l.p.in) {
		turn := 0
		if g := l.p.in.Items[q.Item].Group; g != NoGroup {
			turn = max(l.turn[g], 0)
		}
		if id := l.p.poseUnder(q, turn); id >= 0 {
			l.placed[q.Fabric] = append(l.placed[q.Fabric], laidPose{id, q.Item, q.Copy, q.Place.At})
		}
	}
}

// turnPinned is a turn of a group under which all of its pinned copies can lie as they
// are pinned, the one wished for if it is one; without pinned copies it is the wish.
func (p *problem) turnPinned(group, wish int) int {
	some := false
	suits := func(turn int) bool {
		for _, q := range pinned(p.in) {
			if p.in.Items[q.Item].Group == group {
				some = true
				if p.poseUnder(q, turn) < 0 {
					return false
				}
			}
		}
		return true
	}
	if wish >= 0 && suits(wish) {
		return wish
	}
	for turn := range p.in.Groups[group].Angles {
		if suits(turn) && some {
			return turn
		}
	}
	return wish
}

// poseUnder is the pose in which a copy lies under a turn of its group, or −1.
func (p *problem) poseUnder(q Laid, turn int) int {
	for _, id := range p.byItem[q.Item][turn] {
		if p.poses[id].angle == q.Place.Angle.Norm() && p.poses[id].mirror == q.Place.Mirror {
			return id
		}
	}
	return -1
}
