package nest

import (
	"cmp"
	"slices"
)

const (
	// tidyRounds is how often every copy is pushed towards the start.
	tidyRounds = 3
	// tidyShare is the share of what is left of the budget that goes to shortening a
	// layout of what was asked, so that the rest of the fabric is of use, and
	// tidySteps the most steps it takes.
	tidyShare, tidySteps = 8, 32
)

// tidy draws a layout on fabrics of given length together towards their start, so that
// what is left over is one clean piece at the far end. It never takes more length, and
// lays neither more nor less. Where only the first layout is asked for it costs
// next to nothing: a fill has laid everything as far to the start as it goes, so
// only what a search found is pushed.
func (s *search) tidy() {
	in := s.p.in
	if in.Ask == LeastLength || !s.have || in.Ask == FitsAll && len(s.best.Left) > 0 || len(s.best.Laid) == 0 {
		return
	}
	if s.searched {
		s.push()
	}
	if s.o.FirstOnly || s.o.FillOnly || s.spent() || s.ctx.Err() != nil {
		return
	}
	s.drawTogether()
	s.push()
}

// keepBack is the budget for finding the best subset: a share is kept for tidying.
func (s *search) keepBack() Options {
	o := s.o
	if s.p.in.Ask == BestSubset {
		o.Steps -= o.Steps / tidyShare
		o.Time -= o.Time / tidyShare
	}
	return o
}

// drawTogether shortens what is laid on one fabric as if it were a strip, in a
// share of what is left of the budget.
func (s *search) drawTogether() {
	if len(s.p.cloths) != 1 || s.p.cloths[0].start < 0 {
		return
	}
	set := make([]Copy, len(s.best.Laid))
	for k, l := range s.best.Laid {
		set[k] = Copy{l.Item, l.Copy}
	}
	g := newGame(s.p, set)
	if g == nil {
		return
	}
	first := newBoard(g)
	if !first.takeUp(s.best, nowhere) {
		return
	}
	whole := s.o
	s.o = s.shareOf(tidyShare)
	if s.o.Steps == 0 || s.o.Steps > s.steps+tidySteps {
		s.o.Steps = s.steps + tidySteps
	}
	s.send(newCrew(s.ctx, g, s.left(), s.start, first), (*worker).shorten)
	s.o = whole
}

// push moves single copies towards the start, those in front first, as long as that
// gains: into holes in front of them, or just against what lies there.
func (s *search) push() {
	l := s.laidOut()
	if l == nil {
		return
	}
	for range tidyRounds {
		moved := false
		for f := range l.placed {
			moved = s.pushOn(l, f) || moved
		}
		if !moved {
			break
		}
	}
	s.keep(l.solution(s.best.Left))
}

// pushOn pushes what lies on one fabric, and says whether anything moved.
func (s *search) pushOn(l *layout, fabric int) bool {
	order := slices.Clone(l.placed[fabric])
	slices.SortStableFunc(order, func(a, b laidPose) int { return cmp.Compare(a.end(s.p), b.end(s.p)) })
	moved := false
	for _, b := range order {
		if b.copy < len(s.p.in.Items[b.item].Pinned) || s.ctx.Err() != nil {
			continue
		}
		k := slices.Index(l.placed[fabric], b)
		l.placed[fabric] = slices.Delete(l.placed[fabric], k, k+1)
		if at := l.find(fabric, b.pose); at.ok && (at.end < b.end(s.p)) {
			b.at, moved = at.at, true
		}
		l.placed[fabric] = append(l.placed[fabric], b)
	}
	return moved
}

func (b laidPose) end(p *problem) int64 { return b.at.X + p.poses[b.pose].box.Max.X }

// laidOut is the best layout as the fill sees it, or nil if some copy lies in a way that
// the search does not try, at an angle between those of its tilt.
func (s *search) laidOut() *layout {
	l := newLayout(s.p)
	for _, q := range s.best.Laid {
		id := s.p.poseOf(q)
		if id < 0 {
			return nil
		}
		l.placed[q.Fabric] = append(l.placed[q.Fabric], laidPose{id, q.Item, q.Copy, q.Place.At})
	}
	return l
}

// poseOf is the pose in which a copy lies, or −1. Under several turns of a group the
// same pose is as good as another.
func (p *problem) poseOf(q Laid) int {
	for _, ids := range p.byItem[q.Item] {
		for _, id := range ids {
			if p.poses[id].angle == q.Place.Angle.Norm() && p.poses[id].mirror == q.Place.Mirror {
				return id
			}
		}
	}
	return -1
}
