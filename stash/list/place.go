package list

import (
	"cmp"
	"errors"
	"fmt"
	"math/big"
	"strings"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// place finds or makes the fabric of a row, its cloth and its purchase. Nothing is kept
// of a row that is refused.
func (p *planner) place(l *line) {
	l.rec.Fabric.Name = strings.Join(strings.Fields(l.rec.Fabric.Name), " ")
	if l.rec.Fabric.Name == "" {
		l.refuse("there is no name of a fabric in this row; write one, or leave the row out if it is no fabric")
		return
	}
	e, why := p.shelf.find(l)
	if why != "" {
		l.refuse("%s", why)
		return
	}
	isNew := e == nil
	fab, learned := p.fabricOf(l, e)
	if err := fab.Validate(); err != nil {
		l.refuse("%s", said(err))
		return
	}
	c, ok := p.clothOf(l, fab)
	if len(l.Why) > 0 {
		return
	}
	var b *basket
	if ok {
		if b = p.basketOf(l, &c); len(l.Why) > 0 {
			return
		}
	} else {
		p.aloneNotes(l, &fab)
	}
	if isNew {
		e = &entry{}
		p.out.NewFabrics++
	}
	if learned && e.known {
		l.remark("%s learns what was not known of it", fab.Name)
		if !e.changed {
			p.out.Changed++
		}
		e.changed = true
	}
	p.keep(l, e, fab, isNew, c, ok, b)
}

// keep writes a row that is in order into the result.
func (p *planner) keep(l *line, e *entry, fab stash.Fabric, isNew bool, c NewCloth, ok bool, b *basket) {
	e.fab = fab
	if isNew {
		p.shelf.add(e)
	}
	if l.rec.FabricNo != "" && e.no == "" {
		e.no = l.rec.FabricNo
		p.shelf.byNo[e.no] = e
	}
	l.Outcome = p.outcome(l, e, isNew, ok)
	l.Says = p.says(l, fab, c, ok)
	if !ok {
		return
	}
	if c.Code != "" {
		p.codes[c.Code] = c.ID
	}
	if e.lots == nil {
		e.lots = map[string]bool{}
	}
	e.lots[c.Lot] = true
	b.take()
	p.out.Cloths = append(p.out.Cloths, c)
}

func (p *planner) outcome(l *line, e *entry, isNew, cloth bool) Outcome {
	switch {
	case isNew && cloth:
		return MakesFabric
	case !cloth:
		return FabricAlone
	case p.newLot(l.rec.Cloth.Lot, e):
		return MakesLot
	}
	return MakesLength
}

// newLot says whether a lot is another than those there are of the fabric.
func (p *planner) newLot(lot string, e *entry) bool {
	if lot == "" || e.lots[lot] {
		return false
	}
	there := p.known.Lots[e.fab.ID]
	for _, k := range there {
		if k == lot {
			return false
		}
	}
	return len(there)+len(e.lots) > 0
}

// says puts what becomes of a row in a sentence.
func (p *planner) says(l *line, f stash.Fabric, c NewCloth, ok bool) string {
	along := measure.Style{System: p.mapping.Units, Kind: measure.FabricLength}
	across := measure.Style{System: p.mapping.Units, Kind: measure.Width}
	size := ""
	if ok {
		size = along.Format(c.Length) + " × " + across.Format(c.Width)
	}
	switch l.Outcome {
	case MakesFabric:
		return fmt.Sprintf("New fabric %s, with a length of %s.", f.Name, size)
	case MakesLot:
		return fmt.Sprintf("%s of %s as another lot, %s.", size, f.Name, c.Lot)
	case MakesLength:
		return fmt.Sprintf("Another length of %s, %s.", f.Name, size)
	}
	return fmt.Sprintf("%s, of which no cloth is there.", f.Name)
}

// fabricOf is the fabric as it is after the row: a new one, or the known one with what
// was not known of it, which is then learned.
func (p *planner) fabricOf(l *line, e *entry) (f stash.Fabric, learned bool) {
	if e != nil {
		f = e.fab
		for _, d := range differing(f, l) {
			rec := Record{Fabric: f}
			unit := strings.NewReplacer("(", "", ")", "").Replace(unitWords(d))
			l.remark("the list says %s for the %s of %s; %s is kept", exact(d, &l.rec)+unit, d.field, f.Name, exact(d, &rec)+unit)
		}
		learned := learn(&f, l)
		return f, learned
	}
	f = l.rec.Fabric
	f.ID = p.newID()
	if f.Construction == "" {
		c, ok := constructionIn(f.Name)
		f.Construction = cmp.Or(c, stash.OtherKnit)
		if !ok {
			l.remark("how %s is made is not said: taken for another knit, about which the least is assumed", f.Name)
		}
	}
	if !l.said["direction"] {
		f.Direction = f.Construction.UsualDirection()
	}
	if f.FullWidth == 0 && l.rec.Cloth.Width > 0 {
		f.FullWidth = l.rec.Cloth.Width
		l.remark("the width of the cloth is taken for the full width of %s", f.Name)
	}
	addTo(&f.Notes, l.rec.extraFabric)
	return f, false
}

func addTo(to *string, note string) {
	if note != "" {
		addNote(to, note)
	}
}

// aloneNotes keeps with the fabric what a row without cloth says besides.
func (p *planner) aloneNotes(l *line, f *stash.Fabric) {
	for _, n := range []string{l.rec.Cloth.Notes, l.rec.extra} {
		if n != "" && !strings.Contains(f.Notes, n) {
			addNote(&f.Notes, n)
		}
	}
	if b := l.rec.Bought; b.said() {
		note := strings.TrimSpace("bought " + strings.Join(strings.Fields(string(b.On)+" "+b.From+" "+b.Price.String()), " "))
		if !strings.Contains(f.Notes, note) {
			addNote(&f.Notes, note)
		}
		l.remark("no cloth of it is there, so its purchase is kept as a note")
	}
}

// clothOf makes the cloth of a row; ok is false when the row has none.
func (p *planner) clothOf(l *line, fab stash.Fabric) (c NewCloth, ok bool) {
	c = NewCloth{Cloth: l.rec.Cloth, Kind: stash.Added}
	if !c.Plain() {
		b := c.Outline.Bounds()
		length, width := measure.Length(b.Length()), measure.Length(b.Width())
		if l.said[Length] && length != c.Length || l.said[Width] && width != c.Width {
			l.refuse("length and width do not match the outline; leave them empty, or the outline")
			return c, false
		}
		c.Length, c.Width = length, width
	}
	if c.Length == 0 {
		return c, false
	}
	c.ID, c.FabricID = p.newID(), fab.ID
	if c.Width == 0 {
		c.Width = fab.OpenWidth()
	}
	p.edges(l, fab, &c.Cloth)
	addTo(&c.Notes, l.rec.extra)
	if p.known.Like != nil {
		if code := p.known.Like(c.Cloth); code != "" {
			l.remark("the library has such cloth already, %s; leave the row out if it is the same", code)
		}
	}
	p.checkCode(l, &c.Cloth)
	p.cutFrom(l, &c.Cloth)
	valid := c.Cloth
	valid.Code = cmp.Or(valid.Code, "new")
	if err := valid.Validate(); err != nil {
		l.refuse("%s", said(err))
	}
	return c, true
}

// edges decides what the row leaves open: a plain length over the whole width has raw
// ends, and selvedges unless it is tubular.
func (p *planner) edges(l *line, fab stash.Fabric, c *stash.Cloth) {
	whole := c.Plain() && c.Width == fab.OpenWidth()
	for _, o := range []struct {
		f    Field
		to   *bool
		then bool
	}{{"raw start", &c.RawStart, whole}, {"raw end", &c.RawEnd, whole},
		{"selvedge near", &c.SelvedgeLow, whole && !fab.Tubular}, {"selvedge far", &c.SelvedgeHigh, whole && !fab.Tubular}} {
		if !l.said[o.f] {
			*o.to = o.then
		}
	}
}

// checkCode refuses a code that other cloth has.
func (p *planner) checkCode(l *line, c *stash.Cloth) {
	if c.Code == "" {
		return
	}
	if _, twice := p.codes[c.Code]; twice {
		l.refuse("the code %s is in the list twice; give one of them another code", c.Code)
	}
	if p.known.ClothByCode == nil {
		return
	}
	if _, there := p.known.ClothByCode(c.Code); there {
		l.refuse("cloth with the code %s is in the library already; leave the row out, or give it another code", c.Code)
	}
}

// cutFrom finds the cloth that this was cut from: in the library or an earlier row. One
// that is in neither is kept as a note.
func (p *planner) cutFrom(l *line, c *stash.Cloth) {
	code := l.rec.CutFrom
	if code == "" {
		return
	}
	if id, ok := p.codes[code]; ok {
		c.CutFrom = id
		return
	}
	if p.known.ClothByCode != nil {
		if id, ok := p.known.ClothByCode(code); ok {
			c.CutFrom = id
			return
		}
	}
	addNote(&c.Notes, "cut from "+code)
	l.remark("there is no cloth with the code %s: that it was cut from it is kept as a note", code)
}

// priceOf is what the row's length cost.
func (p *planner) priceOf(l *line, quantity measure.Length) measure.Money {
	b := l.rec.Bought
	if b.Per == (measure.Money{}) {
		return b.Price
	}
	unit := measure.Metre
	for _, s := range p.cols {
		if s.Field == PricePer {
			unit = s.perLength(p.mapping)
		}
	}
	worth := new(big.Rat).Mul(big.NewRat(b.Per.Minor, 1), big.NewRat(int64(quantity), int64(unit)))
	twice := worth.Mul(worth, big.NewRat(2, 1)).Add(worth, big.NewRat(1, 1))
	n := new(big.Int).Quo(twice.Num(), new(big.Int).Mul(twice.Denom(), big.NewInt(2)))
	price := measure.Money{Minor: n.Int64(), Currency: b.Per.Currency}
	if b.Price != (measure.Money{}) && b.Price != price {
		l.remark("the price is %s, though %s for each unit of length would make %s", b.Price, b.Per, price)
		return b.Price
	}
	return price
}

// said puts an error of a record into a clause.
func said(err error) string {
	var own *stash.Error
	if errors.As(err, &own) {
		return strings.TrimSuffix(own.Error(), ".")
	}
	return err.Error()
}
