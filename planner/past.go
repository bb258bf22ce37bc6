package planner

import (
	"context"
	"slices"
	"strings"
	"time"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// Past says which lines of history are asked for. Everything set must hold; the zero value
// asks for all of them.
type Past struct {
	FabricID, GarmentID stash.ID
	Code                string // of a cloth, capitals aside
	Kinds               []stash.MovementKind
	// Words must each be found in the name of the fabric, the code, the name of the garment,
	// the kind or the note. Of letters A to Z it does not matter whether they are capitals.
	Words []string
	// From and To are the first and the last day on which a line was noted; "" is open.
	From, To stash.Date
	Zone     *time.Location // of those days; nil is UTC
}

// MovementKinds are the kinds of line, in the order of a cloth's life.
var MovementKinds = []stash.MovementKind{stash.Bought, stash.Added, stash.Washed, stash.MeasuredAgain, stash.Trued, stash.FlawFound, stash.Moved,
	stash.Reserved, stash.Released, stash.Cut, stash.LeftOver, stash.GivenAway, stash.Discarded, stash.Reversed}

// PastLine is a line of history with the names of what it is about, as they are now. What was
// taken back by Undo still has its name.
type PastLine struct {
	stash.Movement
	FabricID  stash.ID
	Fabric    string
	FullWidth measure.Length // of the fabric
	Code      string
	Garment   string // "" for none
	// BoughtOn is, for cloth that was bought, the day of the purchase, else "".
	BoughtOn stash.Date
	// Sentence is what the act did that the line belongs to; an undo says what it took back.
	Sentence string
	// TakenBack says that an act was undone with this line in it.
	TakenBack bool
}

// Day is the day that a line counts on in a zone: cloth on the day it was bought, all else when
// it was noted.
func (l PastLine) Day(zone *time.Location) stash.Date {
	if l.BoughtOn != "" {
		return l.BoughtOn
	}
	return stash.On(l.At.In(zoneOf(zone)))
}

// Extent is over which days lines of history lie: the first and the last that any of them was
// noted or counts on; "" without lines.
type Extent struct{ First, Last stash.Date }

// Flow is what lines of one kind that stand changed cloth of one full width by, within one span.
type Flow struct {
	Span      int // index of the day it begins with; −1 is before the first
	Kind      stash.MovementKind
	Came      bool // the area is more than zero; else less
	FullWidth measure.Length
	Area      measure.Area
}

// CutPart is what one act cut from a cloth for a garment, or wasted in cutting it.
type CutPart struct {
	ActID, ClothID stash.ID
	GarmentID      stash.ID // NoID for waste, or for cloth that was reserved for nothing
	Waste          bool
	Area           measure.Area // more than zero
}

// PastReader is what can be asked of the history of a library, however long it is. What is
// answered adds up in the store; nothing is read line by line.
type PastReader interface {
	// Past returns lines of history, the last written first: those written before the line
	// of that number, 0 for the newest, and at most limit of them.
	Past(ctx context.Context, p Past, before int64, limit int) ([]PastLine, error)
	// PastCount counts them.
	PastCount(ctx context.Context, p Past) (int, error)
	// PastExtent returns over which days they lie.
	PastExtent(ctx context.Context, p Past) (Extent, error)
	// Flows adds up what lines that stand changed cloth by, from one of the days given to the
	// next, by span, kind, sign and full width in that order. From and To of p are not looked
	// at. Lines count on their Day; those taken back do not count, nor do those that took back.
	Flows(ctx context.Context, p Past, starts []stash.Date) ([]Flow, error)
	// CutParts returns what stands of all cutting, by act, cloth, garment, waste last.
	CutParts(ctx context.Context) ([]CutPart, error)
	// ReservedParts returns what is reserved for garments and not cut yet, by cloth and garment,
	// without an act.
	ReservedParts(ctx context.Context) ([]CutPart, error)
	// EveryCloth returns all cloth, gone or not, by ID.
	EveryCloth(ctx context.Context) ([]stash.Cloth, error)
}

func zoneOf(z *time.Location) *time.Location {
	if z == nil {
		return time.UTC
	}
	return z
}

// Bounds are the moments that From and To stand for: noted at from or later, and before until.
// A zero time is open.
func (p Past) Bounds() (from, until time.Time) {
	if p.From != "" {
		from = Midnight(p.From, p.Zone)
	}
	if p.To != "" {
		until = Midnight(After(p.To), p.Zone)
	}
	return from, until
}

// Whole says whether whole pieces of cloth are asked for, so that a balance can be struck.
func (p Past) Whole() bool {
	return p.GarmentID == stash.NoID && len(p.Kinds) == 0 && len(p.Words) == 0
}

// About says whether a line is asked for, whenever it was noted.
func (p Past) About(l PastLine) bool {
	switch {
	case p.FabricID != stash.NoID && l.FabricID != p.FabricID,
		p.GarmentID != stash.NoID && l.GarmentID != p.GarmentID,
		p.Code != "" && smallAZ(l.Code) != smallAZ(p.Code),
		len(p.Kinds) > 0 && !slices.Contains(p.Kinds, l.Kind):
		return false
	}
	for _, w := range p.Words {
		w = smallAZ(w)
		has := func(s string) bool { return strings.Contains(smallAZ(s), w) }
		if !has(l.Fabric) && !has(l.Code) && !has(l.Garment) && !has(string(l.Kind)) && !has(l.Note) {
			return false
		}
	}
	return true
}

// Has says whether a line is asked for.
func (p Past) Has(l PastLine) bool {
	from, until := p.Bounds()
	return p.About(l) && (from.IsZero() || !l.At.Before(from)) && (until.IsZero() || l.At.Before(until))
}

// smallAZ writes capitals A to Z small and leaves all other letters alone, as the database does.
func smallAZ(s string) string {
	return strings.Map(func(r rune) rune {
		if r >= 'A' && r <= 'Z' {
			return r + 'a' - 'A'
		}
		return r
	}, s)
}
