package garment_test

import (
	"testing"

	"tallycloth/planner/garment"
)

func TestSizeIsSaidOnce(t *testing.T) {
	for _, c := range []struct{ name, size, want string }{
		{"Fennel tank", "4", "Fennel tank, size 4"},
		{"Fennel tank, size 4", "4", "Fennel tank, size 4"},
		{"Fennel tank, size 4, for Ida (2 of 3)", "4", "Fennel tank, size 4, for Ida (2 of 3)"},
		{"Fennel tank, size 4 (2 of 3)", "4", "Fennel tank, size 4 (2 of 3)"},
		{"Copy of size 40", "4", "Copy of size 40, size 4"},
		{"Shawl", "", "Shawl"},
	} {
		if got := (garment.Garment{Name: c.name, Size: c.size}).Sized(); got != c.want {
			t.Errorf("%q in size %q is called %q", c.name, c.size, got)
		}
	}
}

func TestNamedForAnotherSize(t *testing.T) {
	for _, c := range []struct{ name, size, to, want string }{
		{"Fern tank, size M, waist S", "M, waist S", "L", "Fern tank, size L"},
		{"Fennel tank, size 4 (2 of 3)", "4", "5", "Fennel tank, size 5 (2 of 3)"},
		{"Sunday tank", "4", "5", "Sunday tank"},
		{"Shawl", "", "5", "Shawl"},
	} {
		if got := (garment.Garment{Name: c.name, Size: c.size}).NamedFor(c.to); got != c.want {
			t.Errorf("%q in size %q, for %q, is called %q", c.name, c.size, c.to, got)
		}
	}
}
