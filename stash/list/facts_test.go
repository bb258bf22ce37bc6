package list_test

import (
	"fmt"
	"reflect"
	"slices"
	"testing"

	"tallycloth/stash"
	"tallycloth/stash/list"
)

// Every fact of a fabric and of a cloth has a column, but for what is named here: the single
// stretch tests, of which the means are written, and strips that worked.
func TestEveryFactHasAColumn(t *testing.T) {
	f := stash.Fabric{ID: stash.ID{1}, Name: "moss"}
	c := stash.Cloth{ID: stash.ID{2}, FabricID: f.ID}
	row := func(f stash.Fabric, c stash.Cloth) string {
		return fmt.Sprint(list.Write([]stash.ClothState{{Cloth: c, Fabric: f}}, []stash.Fabric{f}, nil).Rows[1:])
	}
	plain := row(f, c)
	for _, k := range missingFacts(f, func(f stash.Fabric) bool { return row(f, c) == plain }) {
		if !slices.Contains([]string{"ID", "Bench", "Strips"}, k) {
			t.Errorf("the fabric's %s has no column", k)
		}
	}
	for _, k := range missingFacts(c, func(c stash.Cloth) bool { return row(f, c) == plain }) {
		if !slices.Contains([]string{"ID", "FabricID", "PurchaseID", "CutFrom", "Gone"}, k) { // links have numbers and codes
			t.Errorf("the cloth's %s has no column", k)
		}
	}
}

// missingFacts names the fields that change nothing when they change.
func missingFacts[T any](v T, same func(T) bool) []string {
	var out []string
	for i := range reflect.TypeFor[T]().NumField() {
		changed := v
		f := reflect.ValueOf(&changed).Elem().Field(i)
		name := reflect.TypeFor[T]().Field(i).Name
		if name == "ID" || name == "FabricID" {
			continue
		}
		other(f)
		if same(changed) {
			out = append(out, name)
		}
	}
	return out
}

// other gives a value that is another than the one it has.
func other(v reflect.Value) {
	switch v.Kind() {
	case reflect.Bool:
		v.SetBool(!v.Bool())
	case reflect.String:
		v.SetString(v.String() + "x")
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 1, 1))
		other(v.Index(0))
	case reflect.Array:
		other(v.Index(0))
	case reflect.Struct:
		for i := range v.NumField() {
			other(v.Field(i))
		}
	case reflect.Uint8:
		v.SetUint(7)
	case reflect.Int, reflect.Int64:
		v.SetInt(v.Int() + 7)
	}
}
