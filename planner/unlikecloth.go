package planner

import (
	"fmt"
	"strings"

	"tallycloth/planner/binding"
	"tallycloth/stash"
)

// CheckUnlike is the kind of a check of strips that come from cloths that are not alike.
const CheckUnlike binding.CheckKind = "unlike cloth"

// Unlike says where strips of one plan come from cloths that may look or shrink differently: of another
// dye lot, or washed and not (`common practice`: what meets in one garment is of one lot, washed alike).
// False where they are alike or come from one cloth.
func (a BindingAnswer) Unlike() (binding.Check, bool) {
	var used []stash.Cloth
	unlike := false
	for i, taken := range a.Plan.Taken {
		if taken <= 0 || i >= len(a.Cloths) {
			continue
		}
		c := a.Cloths[i].Cloth
		unlike = unlike || len(used) > 0 && (used[0].Lot != c.Lot || used[0].Washed != c.Washed)
		used = append(used, c)
	}
	if !unlike {
		return binding.Check{}, false
	}
	var words []string
	for _, c := range used {
		words = append(words, fmt.Sprintf("%s (%s, %s)", c.Code, lotWords(c), washedWords(c)))
	}
	return binding.Check{Kind: CheckUnlike, OK: true, Mind: true, Text: "The strips come from cloths that are not alike: " + strings.Join(words, " and "),
		Do: "Compare their colour by daylight, wash what is not washed first, or leave all but one of them out."}, true
}

func lotWords(c stash.Cloth) string {
	if c.Lot == "" {
		return "lot not noted"
	}
	return "lot " + c.Lot
}

func washedWords(c stash.Cloth) string {
	if c.Washed {
		return "washed"
	}
	return "not washed"
}
