package paper

import (
	"fmt"
	"strings"

	"tallycloth/planner"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/ui/say"
)

// CutList is all that is to be cut, cloth by cloth: each pattern piece of each garment a line, with
// its count, a box to tick and where it stands on the layout.
func CutList(v say.Voice, s planner.CuttingSheet) sheet.Report {
	r := sheet.Report{Title: "Cut list: " + s.Title, Notes: garmentLines(s)}
	for _, c := range s.Cloths {
		part := sheet.Part{Heading: c.State.Fabric.Name + ", " + c.State.Cloth.Code, Table: cutTable(s, c)}
		part.Lines = []string{say.Sentence(where(v, c.State.Cloth)), lie(v, c)}
		r.Parts = append(r.Parts, part)
	}
	r.Parts = append(r.Parts, sheet.Part{Heading: "Mind", Lines: Cautions(s)})
	return r
}

// garmentLines are the garments of a sheet in a line each, numbered where there are several.
func garmentLines(s planner.CuttingSheet) []string {
	var out []string
	if s.Planned {
		out = append(out, "As it was planned; reserve the cloth before you cut.")
	}
	for k, g := range s.Garments {
		line := about(g)
		if len(s.Garments) > 1 {
			line = fmt.Sprintf("%s  %s", garmentNumber(k), line)
		}
		out = append(out, line)
	}
	return out
}

// garmentNumber tells the garments of a sheet apart.
func garmentNumber(k int) string { return fmt.Sprintf("no. %d", k+1) }

// cutLine is a pattern piece of a garment, with the numbers of its outlines on the layout.
type cutLine struct {
	piece   planner.SheetPiece
	numbers []string
}

// cutLines are the pattern pieces of a cloth in the order in which they lie, each once.
func cutLines(c planner.SheetCloth) []cutLine {
	type key struct {
		garment       int
		usedFor, name string
	}
	at := map[key]int{}
	var out []cutLine
	for _, p := range c.Pieces {
		if p.Spoiled {
			continue
		}
		k := key{p.Garment, p.UsedFor, p.Name}
		i, there := at[k]
		if !there {
			i = len(out)
			at[k], out = i, append(out, cutLine{piece: p})
		}
		out[i].numbers = append(out[i].numbers, fmt.Sprint(p.Number))
	}
	return out
}

func cutTable(s planner.CuttingSheet, c planner.SheetCloth) sheet.Table {
	t := sheet.Table{Columns: []sheet.Column{{Share: 5}, {Title: "Count", Share: 11, Right: true}, {Title: "Pattern piece", Share: 50}, {Title: "Size", Share: 14}, {Title: "Used for", Share: 20},
		{Title: "On the pattern", Share: 42}, {Title: "On the layout", Share: 36}}}
	many := len(s.Garments) > 1
	if many {
		t.Columns = append(t.Columns, sheet.Column{Title: "Garment", Share: 18})
	}
	whole := 0
	for _, l := range cutLines(c) {
		whole += len(l.numbers)
		on := ""
		if l.piece.Known {
			on = CutCount(l.piece.Piece)
		}
		row := []string{sheet.Box, fmt.Sprint(len(l.numbers)), pieceName(l.piece), l.piece.Size, l.piece.UsedFor, on, "no. " + strings.Join(l.numbers, ", ")}
		if many {
			row = append(row, garmentNumber(l.piece.Garment))
		}
		t.Rows = append(t.Rows, row)
	}
	t.Totals = [][]string{{"", fmt.Sprint(whole), "in all"}}
	return t
}

// pieceName is a pattern piece with its code where that is not its name.
func pieceName(p planner.SheetPiece) string {
	if !p.Known || p.Piece.Code == "" || p.Piece.Code == p.Name {
		return p.Name
	}
	return p.Piece.Code + "  " + p.Name
}
