package draft

import "tallycloth/planner/pattern"

func tankYards(p pattern.Pattern) []pattern.YardageRow { return nil }
