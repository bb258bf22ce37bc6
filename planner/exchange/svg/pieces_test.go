package svg_test

import (
	"path/filepath"
	"testing"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/pattern"
	"tallycloth/stash/shape"
)

// TestToPieces: outlines become valid pieces of the chosen size, lines inside become
// lines drawn on them, the test square is left out.
func TestToPieces(t *testing.T) {
	d := read(t, filepath.Join(drawings, "saved_layers.svg"))
	pieces, warnings := d.ToPieces(drawn.Choice{Sizes: map[string]string{"Size 3": "3"}, Leave: []int{d.Squares[0].Shape}})
	var names []string
	for _, p := range pieces {
		names = append(names, p.Code+" "+p.Name)
	}
	if !equal(names, []string{"A Front", "B Cuff", "C Yoke", "D pocket-edge"}) {
		t.Errorf("pieces %q", names)
	}
	p := pattern.Pattern{Name: "from a drawing", Sizes: []pattern.Size{{Name: "3"}}, Roles: []pattern.Role{{Name: pattern.Main}}, Pieces: pieces}
	if err := p.Validate(); err != nil {
		t.Error(err)
	}
	front := pieces[0].Outlines["3"]
	if min := front.Cut.Bounds().Min; min != (shape.Point{}) {
		t.Errorf("the front starts at %v", min)
	}
	if len(front.Inner) != 1 || len(front.Inner[0]) != 2 || front.Inner[0][0].X != 100_000 {
		t.Errorf("the waistline is 100 mm below the top: %v", front.Inner)
	}
	if front.GrainTop.X >= front.GrainFoot.X {
		t.Errorf("the grain's top end must lie towards −x: %v, %v", front.GrainTop, front.GrainFoot)
	}
	left := map[string]drawn.Reason{}
	for _, w := range warnings {
		left[w.Name] = w.Reason
	}
	if len(left) != 4 || left["Tab"] != drawn.NoOutline || left["Cap"] != drawn.NoOutline || left["Gusset"] != drawn.NoOutline || left[""] != drawn.Grain {
		t.Errorf("warnings %v", warnings)
	}
}

// TestSizesFromLayers: outlines of one name in several layers are one graded piece.
func TestSizesFromLayers(t *testing.T) {
	d := must(t, `<g id="S"><rect id="a" width="80" height="90"><title>Front</title></rect></g>
		<g id="M"><rect width="100" height="100"><title>Front</title></rect><rect x="200" width="70" height="70"/>
		<rect x="300" width="70" height="70"><title>Front</title></rect><path d="M0 500h30"/><rect x="5" y="5" width="20" height="20"/>
		<polygon points="400,0 500,100 500,0 400,100"/></g>`)
	pieces, warnings := d.ToPieces(drawn.Choice{Role: pattern.Lining, Sizes: map[string]string{"S": "small", "M": "medium"}})
	if len(pieces) != 3 || pieces[0].Role != pattern.Lining {
		t.Fatalf("%+v", pieces)
	}
	front := pieces[0]
	if front.Name != "Front" || front.Outlines["small"].Cut.Bounds().Width() != 80_000 || front.Outlines["medium"].Cut.Bounds().Width() != 100_000 {
		t.Errorf("%+v", front)
	}
	if pieces[1].Name != "Piece 2" || pieces[1].Code != "B" || pieces[2].Name != "Front" {
		t.Errorf("%+v", pieces[1:])
	}
	if in := front.Outlines["medium"].Inner; len(in) != 1 || len(in[0]) != 5 {
		t.Errorf("a square inside is a closed line: %v", in)
	}
	reasons := map[drawn.Reason]int{}
	for _, w := range warnings {
		reasons[w.Reason]++
	}
	if reasons[drawn.Double] != 1 || reasons[drawn.OpenPath] != 1 || reasons[drawn.Crossing] != 1 || reasons[drawn.Grain] != 1 || len(warnings) != 4 {
		t.Errorf("%v", warnings)
	}
}

// TestNames: label before title before the group's name before an ID.
func TestNames(t *testing.T) {
	inkscape := `xmlns:i="http://www.inkscape.org/namespaces/inkscape"`
	for body, want := range map[string]string{
		`<rect ` + inkscape + ` i:label="Yoke" id="rect1" width="60" height="60"><title>No</title></rect>`: "Yoke",
		`<rect id="rect1" width="60" height="60"><title> Back
			yoke </title></rect>`: "Back yoke",
		`<rect id="yoke" width="60" height="60"/>`:                                                                  "yoke",
		`<g id="g7"><title>Yoke</title><rect id="rect1" width="60" height="60"/></g>`:                               "Yoke",
		`<g><title>Yoke</title><rect id="left" width="60" height="60"/></g>`:                                        "left",
		`<g ` + inkscape + ` i:groupmode="layer" i:label="Size 3"><rect id="rect12-3" width="60" height="60"/></g>`: "Piece 1",
		`<defs><rect id="rect1" width="60" height="60"/></defs><use href="#rect1"><title>Yoke</title></use>`:        "Yoke",
		`<rect width="60" height="60"/>`:                                                                            "Piece 1",
	} {
		if pieces, _ := must(t, body).ToPieces(drawn.Choice{}); len(pieces) != 1 || pieces[0].Name != want {
			t.Errorf("%s: %+v, want %s", body, pieces, want)
		}
	}
}

func TestNothingToTake(t *testing.T) {
	if pieces, warnings := must(t, "").ToPieces(drawn.Choice{}); len(pieces)+len(warnings) != 0 {
		t.Errorf("%v %v", pieces, warnings)
	}
}

// TestManyPieces: letters go on after Z.
func TestManyPieces(t *testing.T) {
	body := ""
	for range 28 {
		body += `<rect width="60" height="60"/>`
	}
	pieces, _ := must(t, body).ToPieces(drawn.Choice{})
	if len(pieces) != 28 || pieces[25].Code != "Z" || pieces[26].Code != "AA" || pieces[27].Code != "AB" {
		t.Errorf("%d pieces", len(pieces))
	}
}

// TestLines: colour and dash come from attributes, styles and rules, and are inherited.
func TestLines(t *testing.T) {
	d := must(t, `<style>.m{stroke:#00FF00;stroke-dasharray:3,1} g > path{stroke:blue}</style><g stroke="red"><rect width="60" height="60"/><rect class="m" width="60" height="60"/>
		<g style="stroke-dasharray:5 2"><path d="M0 0h90"/></g></g><rect width="50" height="40" fill="black"/><rect width="50" height="40"/>`)
	want := []drawn.Line{{Colour: "red"}, {Colour: "#00ff00", Dash: "3-1"}, {Colour: "red", Dash: "5-2"}, {Colour: "black", Filled: true}, {Filled: true}}
	if len(d.Shapes) != len(want) {
		t.Fatalf("%+v", d.Shapes)
	}
	for i, l := range want {
		if d.Shapes[i].Line != l {
			t.Errorf("%d: %+v, want %+v", i, d.Shapes[i].Line, l)
		}
	}
	for _, w := range d.Warnings {
		if w.Reason == drawn.NotRead {
			t.Errorf("a rule that hides nothing is told: %+v", w)
		}
	}
}
