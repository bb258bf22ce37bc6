package batch

// garments puts together what is cut: every task of the loads in one garment. false where the
// loads do not come out even, or the lots do not go together.
func (s *shape) garments(loads []Load) ([]Made, bool) {
	on := make([][]int, len(s.tasks)) // the cloth of each copy
	for c, l := range loads {
		for _, sh := range l {
			t := s.index(sh.Task)
			for range sh.N {
				on[t] = append(on[t], c)
			}
		}
	}
	var made []Made
	for r, row := range s.Rows {
		mains := on[s.first[r]]
		if len(mains) > row.Count {
			return nil, false
		}
		of := make([]Made, len(mains))
		for g := range of {
			of[g] = Made{r, make([]int, len(row.Roles))}
			of[g].Cloths[0] = mains[g]
		}
		for j := 1; j < len(row.Roles); j++ {
			if !s.deal(Task{r, j}, on[s.first[r]+j], of) {
				return nil, false
			}
		}
		made = append(made, of...)
	}
	return made, true
}

// deal gives each garment of a row its copy of a role.
func (s *shape) deal(t Task, copies []int, of []Made) bool {
	if len(copies) != len(of) {
		return false
	}
	one := make([]int, len(of))
	for i := range one {
		one[i] = 1
	}
	flow, total := transport(one, one, func(i, g int) bool {
		return s.goes(t, s.Cloths[copies[i]].Lot, s.Cloths[of[g].Cloths[0]].Lot)
	})
	for i := range flow {
		for g, n := range flow[i] {
			if n > 0 {
				of[g].Cloths[t.Role] = copies[i]
			}
		}
	}
	return total == len(of)
}

// plan makes a plan of one fact for each cloth (nil: not cut).
func (s *shape) plan(facts []*fact) (Plan, bool) {
	loads := make([]Load, len(facts))
	p := Plan{Classes: s.classes}
	p.Score.Made = make([]int, len(s.classes))
	for c, f := range facts {
		if f == nil {
			continue
		}
		loads[c] = f.load
		p.Cuts = append(p.Cuts, Cut{c, f.load, f.waste, f.ref})
		p.Score.cutInto(s.Cloths[c], f.waste)
		p.Score.Pins += s.pinsKept(c, f.load)
	}
	var ok bool
	if p.Made, ok = s.garments(loads); !ok {
		return Plan{}, false
	}
	for _, m := range p.Made {
		p.Score.Made[s.class[m.Row]]++
	}
	return p, true
}
