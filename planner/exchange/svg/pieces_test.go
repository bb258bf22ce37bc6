package svg_test

import (
	"context"
	"fmt"
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
	if len(left) != 5 || left["Cut one on the fold"] != drawn.Text || left["Tab"] != drawn.NoOutline || left["Cap"] != drawn.NoOutline || left["Gusset"] != drawn.NoOutline || left[""] != drawn.Grain {
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

// TestWordsName: what is written in an outline that nobody named is its name: the largest letters, what
// stands in all of them left aside; what names nothing is told.
func TestWordsName(t *testing.T) {
	text := func(x, y int, size, words string) string {
		return fmt.Sprintf(`<text x="%d" y="%d" font-size="%s">%s</text>`, x, y, size, words)
	}
	for body, want := range map[string]string{
		`<rect id="r" width="60" height="60"/>` + text(5, 30, "6", "Yoke"):                                                                   "Yoke",
		`<rect width="60" height="60"><title>Own</title></rect>` + text(5, 30, "6", "Yoke"):                                                  "Own",
		`<g id="g3"><title>Group</title><rect width="60" height="60"/>` + text(5, 30, "6", "Yoke") + `</g>`:                                  "Group",
		`<rect width="60" height="60"/>` + text(5, 20, "3", "note") + text(5, 30, "2mm", "small") + text(5, 40, "9px", "Large"):              "Large",
		`<rect width="60" height="60"/>` + text(5, 30, "6", "Yoke<tspan x='5' y='40'>cut 1</tspan>"):                                         "Yoke",
		`<rect width="60" height="60"/>` + text(5, 30, "6", "<tspan>Back</tspan> <tspan>yoke</tspan>"):                                       "Back yoke",
		`<rect width="60" height="60"/>` + text(5, 30, "6", "42"):                                                                            "Piece 1",
		`<rect width="60" height="60"/>` + text(5, 300, "6", "Yoke"):                                                                         "Piece 1",
		`<rect width="60" height="60"/><g visibility="hidden">` + text(5, 30, "6", "Yoke") + `</g>`:                                          "Piece 1",
		`<rect x="70" width="60" height="60"/><text x="69" y="30" style="text-anchor:end;font-size:8">no</text>` + text(71, 30, "4", "Yoke"): "Yoke",
		`<rect width="60" height="60"/><g transform="translate(-20 -20) scale(2)">` + text(15, 30, "6", "Yoke") + `</g>`:                     "Yoke",
		`<g><title>S</title><rect width="60" height="60"/></g><g><title>words</title><text x="9" y="30">Yoke</text></g>`:                     "S",
		`<g id="layer1"><rect width="60" height="60"/></g><g id="layer2"><text x="9" y="30">Yoke</text></g>`:                                 "Yoke",
	} {
		if pieces, _ := must(t, body).ToPieces(drawn.Choice{}); len(pieces) != 1 || pieces[0].Name != want {
			t.Errorf("%s: %+v, want %s", body, pieces, want)
		}
	}
	all := ""
	for i, name := range []string{"Front", "Back", "Sleeve"} {
		all += fmt.Sprintf(`<rect x="%d" width="60" height="60"/>`, 100*i) + text(100*i+5, 20, "9", "Quay tee") + text(100*i+5, 40, "5", name)
	}
	d := must(t, all)
	pieces, _ := d.ToPieces(drawn.Choice{})
	if len(pieces) != 3 || pieces[0].Name != "Front" || pieces[2].Name != "Sleeve" {
		t.Errorf("%+v", pieces)
	}
	if len(d.Warnings) != 1 || d.Warnings[0].Name != "Quay tee" {
		t.Errorf("%+v", d.Warnings)
	}
}

// TestWordsNameEverySize: one word names the outlines around it in every layer, and again once the sizes
// were picked by colour.
func TestWordsNameEverySize(t *testing.T) {
	d := must(t, `<g id="S"><rect width="60" height="60"/></g><g id="M"><rect width="70" height="70"/></g><g id="words"><text x="20" y="30">Front</text></g>`)
	if pieces, _ := d.ToPieces(drawn.Choice{Sizes: map[string]string{"S": "S", "M": "M"}}); len(pieces) != 1 || len(pieces[0].Outlines) != 2 || pieces[0].Name != "Front" {
		t.Errorf("%+v", pieces)
	}
	d = must(t, `<rect width="60" height="80" stroke="red"/><rect width="70" height="90" stroke="blue"/><text x="20" y="30">Front</text>`)
	d, err := d.Picked(context.Background(), drawn.Pick{By: drawn.ByColour, Sizes: map[string]string{"red": "S", "blue": "M"}})
	if err != nil {
		t.Fatal(err)
	}
	if p, _ := d.Pattern(drawn.Choice{Layers: true}); len(p.Pieces) != 1 || len(p.Pieces[0].Outlines) != 2 || p.Pieces[0].Name != "Front" {
		t.Errorf("%+v", p)
	}
}
