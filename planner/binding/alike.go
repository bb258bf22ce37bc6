package binding

// Alike returns the strips with one cut width, the widest, for all that are finished
// alike, so that they can share lengths cut across. Strips that are stretched differently when sewn
// narrow differently, by a millimetre as a rule, and nobody sets a ruler for each.
// What hangs on the width is worked out again. The strips given are not changed.
func Alike(strips []Strip) []Strip {
	out := make([]Strip, len(strips))
	for i, s := range strips {
		for _, o := range strips {
			if o.Job.Finish == s.Job.Finish && o.CutWidth > s.CutWidth {
				s.CutWidth = o.CutWidth
			}
		}
		if s.CutWidth != strips[i].CutWidth {
			s.Parts = append([]StripPart(nil), s.Parts...)
			s.layOut()
			s.Marks = marks(s)
		}
		out[i] = s
	}
	return out
}
