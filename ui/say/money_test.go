package say_test

import (
	"testing"

	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"
)

func TestTotals(t *testing.T) {
	eur, jpy, kwd := measure.Money{Minor: 3100, Currency: "EUR"}, measure.Money{Minor: 2000, Currency: "JPY"}, measure.Money{Minor: 1500, Currency: "KWD"}
	r, err := stash.ParseRate("1 JPY = 0.0061 EUR", "EUR", "2026-05-04")
	if err != nil {
		t.Fatal(err)
	}
	rates := []stash.Rate{r}
	for _, c := range []struct {
		totals []measure.Money
		rates  []stash.Rate
		want   string
	}{
		{nil, rates, "nothing noted"},
		{[]measure.Money{eur}, rates, "31.00 EUR"},
		{[]measure.Money{eur, jpy}, nil, "31.00 EUR and 2000 JPY"},
		{[]measure.Money{eur, jpy}, rates, "31.00 EUR and 2000 JPY; together about 43.20 EUR (1 JPY = 0.0061 EUR, typed 4 May 2026)"},
		{[]measure.Money{eur, jpy, kwd}, rates, "31.00 EUR, 2000 JPY and 1.500 KWD; together about 43.20 EUR (1 JPY = 0.0061 EUR, typed 4 May 2026), without KWD, for which no rate is noted"},
	} {
		if got := say.Totals(c.totals, stash.Join(c.totals, "EUR", c.rates)); got != c.want {
			t.Errorf("got  %s\nwant %s", got, c.want)
		}
	}
	if got := say.Money(measure.Money{}); got != "not noted" {
		t.Errorf("an amount that was not said is %q", got)
	}
}
