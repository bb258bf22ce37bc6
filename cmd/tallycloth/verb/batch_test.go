package verb_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tallycloth/cmd/tallycloth/verb"
)

// planned is what batch plan and show say with --json.
type planned struct {
	Name         string
	Wanted, Made int
	AtMostMore   int `json:"at_most_more"`
	Best         bool
	Tried        int
	Whole        int     `json:"whole_lengths"`
	Waste        float64 `json:"waste_m2"`
	Priorities   []struct{ Priority, Wanted, Made int }
	Cloth        []struct {
		Code, Fabric string
		Whole        bool    `json:"whole_length"`
		Waste        float64 `json:"waste_m2"`
		Parts        []struct {
			Garment    int
			UsedFor    string `json:"used_for"`
			Conditions []string
			Pieces     []struct {
				Code, Name, Layer string
				UsedFor           string `json:"used_for"`
				Copy, Part        int
				Turned            float64 `json:"turned_degrees"`
				Mirrored          bool
				Outline           [][2]float64 `json:"outline_mm"`
			}
			Kept [][2]float64 `json:"kept_mm"`
		}
		Left []struct {
			Outline  [][2]float64 `json:"outline_mm"`
			Straight [2]float64   `json:"straight_mm"`
		}
	}
	Garments []struct {
		Number, Row              int
		Pattern, Size, For, Date string
		Variant                  string
		Adjustments              []string
		From                     []struct {
			UsedFor string `json:"used_for"`
			Code    string
		}
	}
	Missing []struct {
		Row, Count    int
		Pattern, Size string
		Why           []string
	}
	Buy []struct {
		UsedFor string `json:"used_for"`
		Fabric  string
		For     []int
		Lengths []struct {
			Width   float64 `json:"width_mm"`
			Needed  float64 `json:"needed_mm"`
			Buy     float64 `json:"buy_mm"`
			Apart   float64 `json:"apart_mm"`
			Saves   float64 `json:"saves_mm"`
			ByTable bool    `json:"by_table"`
		}
	}
	Sizes []struct {
		Row                    int
		Person, Size, Proposed string
		Between                bool
		Why                    []string
	}
	Blended  []string
	Kept     bool
	Reserved []string
}

// wants writes a list of what is wanted.
func (d *desk) wants(name, text string) string {
	d.t.Helper()
	path := filepath.Join(d.t.TempDir(), name)
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		d.t.Fatal(err)
	}
	return path
}

// On the demo library: a list is planned from leftovers, kept, shown again and reserved; the
// garments are there, one undo takes all of them back, and the same plan is refused once the
// shelf has changed.
func TestBatchVerb(t *testing.T) {
	d := newDesk(t)
	d.done("demo")
	list := d.wants("spring.csv", "pattern,size,count,priority,for,date,uses\nFennel tank,4,2,1,Ida,2026-06-01,\nMillpond shorts,4,1,2,,,\n")
	var p planned
	d.answer(&p, "batch", "plan", list, "--rounds", "1", "--name", "spring")
	if p.Wanted != 3 || p.Made == 0 || p.Whole != 0 || !p.Kept || len(p.Garments) != p.Made || len(p.Cloth) == 0 {
		t.Fatalf("%+v", p)
	}
	if g := p.Garments[0]; g.Pattern != "Fennel tank" || g.For != "Ida" || g.Date != "2026-06-01" || len(g.From) == 0 {
		t.Errorf("%+v", g)
	}
	laid := map[int]int{}
	for _, c := range p.Cloth {
		for _, part := range c.Parts {
			laid[part.Garment] += len(part.Pieces)
		}
	}
	for _, g := range p.Garments {
		if laid[g.Number] == 0 {
			t.Errorf("garment %d has no pattern pieces", g.Number)
		}
	}
	var kept []struct {
		Name, Changed string
		Wanted, Made  int
	}
	d.answer(&kept, "batch", "list")
	if len(kept) != 1 || kept[0].Name != "spring" || kept[0].Wanted != 3 || kept[0].Made != p.Made {
		t.Errorf("%+v", kept)
	}
	var shown planned
	d.answer(&shown, "batch", "show", "spr")
	if shown.Made != p.Made || len(shown.Cloth) != len(p.Cloth) {
		t.Errorf("shown %+v", shown)
	}
	var before []garmentLine
	d.answer(&before, "list", "garments")
	d.answer(&p, "batch", "plan", list, "--rounds", "1", "--reserve", "--leave-out", p.Cloth[0].Code)
	for _, c := range p.Cloth {
		if c.Code == shown.Cloth[0].Code {
			t.Errorf("%s is cut though it is left out", c.Code)
		}
	}
	var after []garmentLine
	d.answer(&after, "list", "garments")
	if len(after) != len(before)+p.Made || len(p.Reserved) != p.Made {
		t.Errorf("%d garments, before %d, reserved %v", len(after), len(before), p.Reserved)
	}
	if said := d.done("undo"); !strings.Contains(said, "Reserved cloth for") {
		t.Error(said)
	}
	if d.answer(&after, "list", "garments"); len(after) != len(before) {
		t.Errorf("%d garments after undo", len(after))
	}
	var together struct {
		Name     string
		Reserved []string
	}
	d.answer(&together, "batch", "reserve", "spring")
	if d.answer(&after, "list", "garments"); len(together.Reserved) != shown.Made || len(after) != len(before)+shown.Made {
		t.Errorf("%d garments, before %d, reserved %v", len(after), len(before), together.Reserved)
	}
	d.refused(verb.Failed, []string{"Plan the batch again"}, "batch", "reserve", "spring")
	if d.done("undo"); !strings.Contains(d.done("batch", "reserve", "spring"), "undo releases all of it") {
		t.Error("not reserved again after undo")
	}
	d.done("undo")
	d.run("batch", "plan", list, "--rounds", "1", "--whole-lengths", "--name", "with lengths")
	var plans []struct {
		Name, Changed        string
		Planned              bool
		Wanted, Made, Cloths int
		AtMostMore           int `json:"at_most_more"`
		Priorities           []struct{ Priority, Wanted, Made int }
		Whole                int     `json:"whole_lengths"`
		Waste                float64 `json:"waste_m2"`
		Buy                  float64 `json:"buy_mm"`
		Garments             []struct {
			Garment string
			Made    int
		}
	}
	d.answer(&plans, "batch", "compare", "spring", "with lengths")
	if len(plans) != 2 || plans[0].Made != shown.Made || plans[1].Made != 3 || plans[1].Buy != 0 || len(plans[0].Garments) != 2 || len(plans[0].Priorities) != 2 ||
		plans[0].Made < 3 && plans[0].Buy == 0 {
		t.Errorf("%+v", plans)
	}
	if said := d.done("batch", "compare"); !strings.Contains(said, "with lengths") || strings.Contains(said, "MADE DIFFERENTLY") != (shown.Made < 3) {
		t.Error(said)
	}
	d.done("batch", "drop", "with lengths")
	d.done("batch", "drop", "spring")
	if d.answer(&kept, "batch", "list"); len(kept) != 0 {
		t.Errorf("still there: %+v", kept)
	}
}

// A person stands for a size: the one proposed for her, or her blend if that is to be kept.
func TestBatchVerbForPerson(t *testing.T) {
	d := newDesk(t)
	d.done("demo")
	d.done("person", "add", "Wren")
	d.done("person", "measure", "Wren", "--at", "bust=36 in", "--at", "hip=40 in")
	list := d.wants("wren.csv", "pattern,person,variant,adjustments\nFennel tank,Wren,cropped,hem 3 cm longer\n")
	said := d.run("batch", "plan", list, "--rounds", "1").out
	for _, want := range []string{"for Wren: size 4", "--blend", "size 4, cropped, for Wren"} {
		if !strings.Contains(said, want) {
			t.Errorf("it does not say %q:\n%s", want, said)
		}
	}
	var p planned
	d.answer(&p, "batch", "plan", list, "--rounds", "1", "--blend")
	if len(p.Sizes) != 1 || p.Sizes[0].Size == "4" || p.Sizes[0].Between || p.Sizes[0].Person != "Wren" || len(p.Blended) != 1 || p.Garments[0].Variant != "cropped" || p.Garments[0].Size != p.Sizes[0].Size ||
		len(p.Garments[0].Adjustments) != 1 || p.Garments[0].Adjustments[0] != "hem 30 mm longer" {
		t.Errorf("%+v", p)
	}
}

// What cannot be made is told with why and what to buy, in words too, and the exit code is 3
// where nothing can be.
func TestBatchVerbFallsShort(t *testing.T) {
	d := newDesk(t).withPatterns()
	d.log(jersey, "40 cm", "--kind", "jersey", "--width", "150 cm", "--stretch-across", "60%", "--fibres", "95% cotton 5% elastane")
	list := d.wants("wanted.json", `[{"pattern": "Harbour sleep shirt", "size": "4", "count": 2}]`)
	got := d.run("batch", "plan", list, "--rounds", "1", "--whole-lengths")
	if got.code != verb.Answered {
		t.Fatalf("%+v", got)
	}
	for _, want := range []string{"None of 2 garments", "2 not made", "short on", "To buy", "cm wide"} {
		if !strings.Contains(got.out, want) {
			t.Errorf("it does not say %q:\n%s", want, got.out)
		}
	}
}

// Everything that is wrong in a list is told at once; nothing is planned or kept.
func TestBatchVerbRefuses(t *testing.T) {
	d := newDesk(t).withPatterns()
	list := d.wants("wanted.csv", "pattern;size;count\nNo such;4;1\nFennel tank;4;many\n")
	d.refused(verb.Mistyped, []string{"line 2", "No such", "line 3", "many", "whole number"}, "batch", "plan", list, "--name", "x")
	good := d.wants("good.csv", "pattern,size\nFennel tank,4\n")
	d.refused(verb.Mistyped, []string{"name of the file"}, "batch", "plan", good+".not")
	d.refused(verb.Mistyped, []string{"No cloth", "Z99"}, "batch", "plan", good, "--first", "Z99")
	d.refused(verb.Mistyped, []string{"order", "each once"}, "batch", "plan", good, "--order", "little waste")
	d.refused(verb.Mistyped, []string{"so long"}, "batch", "plan", good, "--seconds", "0")
	d.refused(verb.Mistyped, []string{"plan, list, show, compare, reserve or drop"}, "batch")
	d.refused(verb.Mistyped, []string{"no batch"}, "batch", "show", "x")
}
