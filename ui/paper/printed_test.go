package paper_test

import (
	"context"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"tallycloth/planner"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/stash/measure"
	"tallycloth/ui/paper"
	"tallycloth/ui/say"
)

// distances are a line of the table of grain arrows as poppler reads it: its number, four lengths, an edge.
var distances = regexp.MustCompile(`(?m)^\s*(\d+)\s+\S.*?([\d.]+ c?m+)\s+([\d.]+ c?m+)\s+([\d.]+ c?m+)\s+([\d.]+ c?m+)\s+(the|its) (\w+)( \w+)?$`)

// inMicrometres reads a length as it is printed, without any code of ours.
func inMicrometres(t *testing.T, text string) float64 {
	t.Helper()
	number, unit, _ := strings.Cut(text, " ")
	n, err := strconv.ParseFloat(number, 64)
	if err != nil {
		t.Fatal(err)
	}
	return n * map[string]float64{"mm": 1e3, "cm": 1e4, "m": 1e6}[unit]
}

// What is printed to be chalked is what was laid out: both ends of each arrow, read by poppler from the
// sheet of a garment on A4 and on Letter, lie on the layout within the millimetre that is printed, each
// measured along from the trued end and both across from the same edge.
func TestPrintedDistances(t *testing.T) {
	s, g := studio(t)
	made, err := s.CuttingSheet(context.Background(), g.ID)
	if err != nil {
		t.Fatal(err)
	}
	for name, on := range map[string]sheet.Paper{"A4": sheet.A4, "Letter": sheet.Letter} {
		text, _ := printedOn(t, paper.Cutting(say.Voice{Units: measure.Metric}, made), on)
		rows := distances.FindAllStringSubmatch(text, -1)
		seen, laid := 0, 0
		for _, c := range made.Cloths {
			for _, p := range c.Pieces {
				laid++
				for _, row := range rows {
					if row[1] == fmt.Sprint(p.Number) && strings.Contains(row[0], p.Name) {
						seen++
						compareArrow(t, name, c, p, row)
					}
				}
			}
		}
		if laid == 0 || seen != laid || seen != len(rows) {
			t.Errorf("%s: %d arrows of %d pattern pieces, %d rows in\n%s", name, seen, laid, len(rows), text)
		}
	}
}

// compareArrow compares a printed row with the layout.
func compareArrow(t *testing.T, name string, c planner.SheetCloth, p planner.SheetPiece, row []string) {
	t.Helper()
	foot, head := p.GrainFoot, p.GrainTop
	if foot == head {
		foot, head = p.Outline.Bounds().Min, p.Outline.Bounds().Max
	}
	b := c.State.Cloth.Polygon().Bounds()
	edges := []int64{b.Min.Y}
	switch words := row[6] + " " + row[7] + row[8]; {
	case strings.HasSuffix(words, "fold"):
		edges = c.Folds
	case strings.Contains(words, "upper"):
		edges = []int64{b.Max.Y}
	}
	const most = 500.0 // half of what is printed
	for i, want := range []int64{foot.X - c.Trued, head.X - c.Trued} {
		if got := inMicrometres(t, row[2+2*i]); math.Abs(got-float64(want)) > most {
			t.Errorf("%s: %s: %s along, %d µm laid out", name, p.Name, row[2+2*i], want)
		}
	}
	near := false
	for _, e := range edges {
		near = near || math.Abs(inMicrometres(t, row[3])-math.Abs(float64(foot.Y-e))) <= most && math.Abs(inMicrometres(t, row[5])-math.Abs(float64(head.Y-e))) <= most
	}
	if !near {
		t.Errorf("%s: %s: %s and %s across from %s %s%s, at %d and %d µm with edges at %v", name, p.Name, row[3], row[5], row[6], row[7], row[8], foot.Y, head.Y, edges)
	}
}
