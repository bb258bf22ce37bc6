package stash_test

import (
	"errors"
	"testing"
	"time"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

func TestCosts(t *testing.T) {
	euro := func(cents int64) measure.Money { return measure.Money{Minor: cents, Currency: "EUR"} }
	p := stash.Purchase{Lines: []stash.PurchaseLine{{Price: euro(2400)}, {Price: euro(1200)}, {}}, Postage: euro(700), Tax: euro(300)}
	got, err := p.Costs()
	want := []measure.Money{euro(2400 + 667), euro(1200 + 333), euro(0)}
	if err != nil || len(got) != 3 || got[0] != want[0] || got[1] != want[1] || got[2] != want[2] {
		t.Errorf("got %v, %v; want %v", got, err, want)
	}
	p.Tax.Currency = "SEK"
	if _, err := p.Costs(); !errors.Is(err, stash.ErrInvalid) {
		t.Errorf("in two currencies: %v", err)
	}
	free := stash.Purchase{Lines: []stash.PurchaseLine{{}, {}}, Postage: euro(501)}
	if got, err := free.Costs(); err != nil || got[0] != euro(251) || got[1] != euro(250) {
		t.Errorf("postage alone: %v, %v", got, err)
	}
}

func TestDates(t *testing.T) {
	late := time.Date(2026, 3, 1, 23, 30, 0, 0, time.FixedZone("west", -5*3600))
	if got := stash.On(late); got != "2026-03-01" {
		t.Errorf("the day is %s", got)
	}
	if got := stash.Stamp(late.Add(1234 * time.Nanosecond)); got.Nanosecond() != 1000 || got.Location() != time.UTC || got.Day() != 2 {
		t.Errorf("the stamp is %s", got)
	}
}
