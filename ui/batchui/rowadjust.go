package batchui

import (
	"context"
	"fmt"
	"reflect"
	"slices"

	"tallycloth/planner"
	"tallycloth/planner/adjust"
	"tallycloth/stash"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// offered is an adjustment that may be taken over in a row.
type offered struct {
	step adjust.Step
	take *widgets.Check
}

// offer lists what is kept for the person and what the row has already, to be ticked.
func (f *rowForm) offer() {
	chosen := f.steps()
	if f.offers == nil {
		chosen = slices.Clone(f.old.Adjustments)
	}
	f.offers = []offered{}
	for _, s := range chosen {
		f.addOffer(s, "", true)
	}
	f.showOffers()
	row := planner.Wanted{PatternID: f.chosen().ID, PersonID: f.whose(), Size: f.size.Selected}
	if row.PersonID == stash.NoID {
		return
	}
	var kept []planner.Offer
	f.page.host.Tasks.Start("batch.kept", func(ctx context.Context, _ func(func())) (err error) {
		kept, err = f.page.host.Studio.RowOffers(ctx, row)
		return err
	}, func(err error) {
		switch {
		case row.PersonID != f.whose() || row.PatternID != f.chosen().ID || row.Size != f.size.Selected:
			return
		case err != nil:
			f.adjustBox.Add(widgets.Remark("! ", say.Error(err), widgets.Careful))
		default:
			for _, o := range kept {
				f.addOffer(o.Step, o.From+": ", false)
			}
			f.showOffers()
		}
	})
}

// offerAnew forgets what was ticked for somebody else or another pattern.
func (f *rowForm) offerAnew() {
	f.old.Adjustments, f.offers = nil, nil
	f.offer()
}

// addOffer adds a step that is not there yet.
func (f *rowForm) addOffer(s adjust.Step, from string, take bool) {
	if slices.ContainsFunc(f.offers, func(o offered) bool { return reflect.DeepEqual(o.step, s) }) {
		return
	}
	check := widgets.NewCheck(say.Sentence(from+f.page.voice().Adjustment(s)), nil)
	check.SetChecked(take)
	f.offers = append(f.offers, offered{s, check})
	f.page.host.Names.Set(fmt.Sprintf("form.adjust.%d", len(f.offers)), check)
}

func (f *rowForm) showOffers() {
	f.adjustBox.RemoveAll()
	for _, o := range f.offers {
		f.adjustBox.Add(o.take)
	}
	if f.form != nil && f.form.Open() {
		f.form.Refit()
	}
}

// steps are the adjustments that are ticked.
func (f *rowForm) steps() []adjust.Step {
	var out []adjust.Step
	for _, o := range f.offers {
		if o.take.Checked {
			out = append(out, o.step)
		}
	}
	return out
}
