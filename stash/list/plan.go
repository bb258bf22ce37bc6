package list

import (
	"fmt"
	"strings"

	"tallycloth/stash"
)

// Known is what the library holds, as far as a list may meet it.
type Known struct {
	Fabrics []stash.Fabric
	// Lots are the lots there are of each fabric, to tell another lot from another length.
	Lots map[stash.ID][]string
	// ClothByCode finds cloth of the library by its code, gone ones included.
	ClothByCode func(code string) (stash.ID, bool)
	// Like returns the code of cloth in the library of the same fabric, size, lot and
	// place, or "": the list may have been brought in before.
	Like func(c stash.Cloth) string
}

// Outcome is what becomes of a row.
type Outcome string

// The outcomes.
const (
	MakesFabric Outcome = "new fabric"
	MakesLength Outcome = "another length"
	MakesLot    Outcome = "another lot"
	FabricAlone Outcome = "fabric without cloth"
	Refused     Outcome = "refused"
)

// Row is what the dry run says of one row.
type Row struct {
	Line    int // in the file
	Index   int // in the table
	Outcome Outcome
	Says    string   // what will be made of it, a sentence
	Why     []string // for a refused row: what is wrong and what to do, sentences
	Remarks []string // what else to know, sentences
}

// NewCloth is cloth that a list brings.
type NewCloth struct {
	stash.Cloth
	Kind stash.MovementKind // Bought or Added
	From string             // who sold it
}

// Result is what a list becomes: nothing is written by it.
type Result struct {
	Columns   []Settled
	Questions []Question
	Rows      []Row
	// Fabrics are the new ones and known ones with facts added; Cloths without a code get
	// one when they are written. Purchases have their lines.
	Fabrics   []stash.Fabric
	Cloths    []NewCloth
	Purchases []stash.Purchase
	// NewFabrics, Changed count the fabrics that are new, and the known ones that learn
	// something; Refused the rows that are left out.
	NewFabrics, Changed, Refused int
}

// MostRows is the longest list that is read.
const MostRows = 200_000

// Plan is the dry run of a list. IDs come from newID; today is the day it is read on.
// Rows that cannot be are refused one by one, with all that is wrong of them; rows
// without anything written are passed over.
func Plan(t Table, m Mapping, known Known, newID func() stash.ID, today stash.Date) (Result, error) {
	if len(t.Rows) > MostRows {
		return Result{}, &stash.Error{Kind: stash.Invalid, What: fmt.Sprintf("The list has %d rows, more than %d", len(t.Rows), MostRows), Do: "Split it into several files"}
	}
	cols, questions := Settle(t, m)
	p := newPlanner(t, m, cols, known, newID, today)
	p.out.Columns, p.out.Questions = cols, questions
	p.out.Rows, p.out.Cloths = make([]Row, 0, len(t.Rows)), make([]NewCloth, 0, len(t.Rows))
	always, err := p.always()
	if err != nil {
		return Result{}, err
	}
	for i := m.Headings + 1; i < len(t.Rows); i++ {
		if !t.empty(i) {
			p.row(i, always)
		}
	}
	p.finish()
	return p.out, nil
}

// OK says whether nothing is left to ask and no row is refused.
func (r Result) OK() bool { return len(r.Questions) == 0 && r.Refused == 0 }

// Empty says whether the list brings nothing at all.
func (r Result) Empty() bool { return len(r.Fabrics)+len(r.Cloths)+len(r.Purchases) == 0 }

// planner is a dry run while it goes on.
type planner struct {
	cellReader
	table   Table
	cols    []Settled
	known   Known
	newID   func() stash.ID
	out     Result
	shelf   *shelf
	codes   map[string]stash.ID // of this list
	bought  map[string]*basket
	baskets []*basket
	// quantities says that a column holds bought lengths.
	quantities bool
	// sellers says that a column names who sold each.
	sellers bool
}

func newPlanner(t Table, m Mapping, cols []Settled, known Known, newID func() stash.ID, today stash.Date) *planner {
	p := &planner{cellReader: cellReader{m, today}, table: t, cols: cols, known: known, newID: newID,
		shelf: newShelf(known.Fabrics), codes: map[string]stash.ID{}, bought: map[string]*basket{}}
	for _, c := range cols {
		p.quantities = p.quantities || c.Field == BoughtLength
		p.sellers = p.sellers || c.Field == BoughtFrom
	}
	return p
}

// line is a row while it is being read.
type line struct {
	Row
	rec  Record
	said map[Field]bool
}

func (l *line) refuse(why string, args ...any) {
	l.Why = append(l.Why, sentence(fmt.Sprintf(why, args...)))
}
func (l *line) remark(say string, args ...any) {
	l.Remarks = append(l.Remarks, sentence(fmt.Sprintf(say, args...)))
}

// sentence gives a clause a capital and its full stop.
func sentence(s string) string {
	if s == "" {
		return s
	}
	r := []rune(s)
	s = strings.ToUpper(string(r[0])) + string(r[1:])
	if !strings.ContainsRune(".?!", rune(s[len(s)-1])) {
		s += "."
	}
	return s
}

// always reads the facts that hold for every row.
func (p *planner) always() (map[Field]Cell, error) {
	out := map[Field]Cell{}
	for f, text := range p.mapping.Always {
		d := defOf[f]
		if d == nil {
			return nil, &stash.Error{Kind: stash.Invalid, What: fmt.Sprintf("%q is nothing a list can say", f), Do: "Choose a fact of fabric, cloth or purchase"}
		}
		var rec Record
		if _, err := p.read(p.alwaysColumn(d), Cell{Text: text}, &rec); err != nil {
			return nil, &stash.Error{Kind: stash.Invalid, What: fmt.Sprintf("The %s for every row cannot be read", f), Do: sentence(err.Error())}
		}
		out[f] = Cell{Text: text}
	}
	return out, nil
}

func (p *planner) alwaysColumn(d *def) Settled {
	s := Settled{Column: Column{Field: d.field, Decimal: Point, Order: DayFirst}, def: d}
	s.settleUnit(p.mapping, looked{})
	return s
}

// row reads one row and decides what becomes of it.
func (p *planner) row(i int, always map[Field]Cell) {
	l := &line{Row: Row{Line: p.table.Line(i), Index: i}, said: make(map[Field]bool, len(p.cols))}
	p.readCells(l, always)
	if len(l.Why) == 0 {
		p.place(l)
	}
	if len(l.Why) > 0 {
		l.Outcome, l.Says = Refused, "Left out."
		p.out.Refused++
	}
	p.out.Rows = append(p.out.Rows, l.Row)
}

// readCells reads the currency first, which amounts need, then all else.
func (p *planner) readCells(l *line, always map[Field]Cell) {
	for k, s := range p.cols {
		if s.Field == Currency {
			l.rec.Currency = strings.ToUpper(p.table.At(l.Index, k).Text)
		}
	}
	for k, s := range p.cols {
		c := p.table.At(l.Index, k)
		switch {
		case c.Text == "" || s.Field == LeaveOut || s.Field == Currency:
		case s.def == nil:
			addNote(&l.rec.extra, strings.TrimPrefix(s.Heading+": "+c.Text, ": "))
		default:
			p.readCell(l, s, s.name(k), c)
		}
	}
	for f, c := range always {
		if !l.said[f] {
			p.readCell(l, p.alwaysColumn(defOf[f]), string(f), c)
		}
	}
}

func (p *planner) readCell(l *line, s Settled, name string, c Cell) {
	remark, err := p.read(s, c, &l.rec)
	if err != nil {
		l.refuse("%s: %s", strings.Trim(name, "“”"), err.Error())
		return
	}
	if remark != "" {
		l.remark("%s", remark)
	}
	l.said[s.Field] = true
}
