package list

import (
	"strings"

	"tallycloth/stash/measure"
)

// Field is one thing that a column can say, by the words a person chooses it with.
type Field string

// What a column can be besides a fact of a record.
const (
	LeaveOut Field = "leave out"
	KeepNote Field = "keep as a note" // each cell goes into the notes of its row, after the heading
)

// Fields that the program asks for by name.
const (
	FabricName   Field = "fabric"
	Construction Field = "construction"
	FibreContent Field = "fibres"
	FullWidth    Field = "full width"
	Colour       Field = "colour"
	ColourCode   Field = "colour code"
	Code         Field = "code"
	Lot          Field = "lot"
	Length       Field = "length"
	Width        Field = "cloth width"
	BoughtOn     Field = "bought on"
	BoughtFrom   Field = "bought from"
	BoughtLength Field = "bought length"
	Price        Field = "price"
	PricePer     Field = "price per length"
	Currency     Field = "currency"
	CutFrom      Field = "cut from"
	PurchaseNo   Field = "purchase no."
	FabricNo     Field = "fabric no."
	Notes        Field = "notes"
)

// part says which record a fact belongs to.
type part byte

const (
	ofFabric part = iota
	ofCloth
	ofPurchase
)

// def is what is known of a field.
type def struct {
	field Field
	part  part
	about string
	// unit is what Write writes lengths in, and kind what a bare number means.
	unit measure.Unit
	kind measure.Kind
	// at returns a pointer to the fact in a record; its type says how it is read.
	at func(*Record) any
}

const (
	cm = measure.Centimetre
	mm = measure.Millimetre
)

// defs are all facts, in the order that Write writes them.
var defs = []def{
	{FabricName, ofFabric, "what the fabric is called", 0, 0, func(r *Record) any { return &r.Fabric.Name }},
	{Construction, ofFabric, "how it is made: jersey, rib, …", 0, 0, func(r *Record) any { return &r.Fabric.Construction }},
	{Colour, ofFabric, "its colour in words", 0, 0, func(r *Record) any { return &r.Fabric.ColourName }},
	{Code, ofCloth, "the code on the label of the cloth", 0, 0, func(r *Record) any { return &r.Cloth.Code }},
	{Length, ofCloth, "how long the cloth is", cm, measure.FabricLength, func(r *Record) any { return &r.Cloth.Length }},
	{Width, ofCloth, "how wide the cloth is, where that is not the full width", cm, measure.Width, func(r *Record) any { return &r.Cloth.Width }},
	{Lot, ofCloth, "dye lot", 0, 0, func(r *Record) any { return &r.Cloth.Lot }},
	{"place", ofCloth, "where it is kept", 0, 0, func(r *Record) any { return &r.Cloth.Place }},
	{"washed", ofCloth, "washed already: yes or no", 0, 0, func(r *Record) any { return &r.Cloth.Washed }},
	{FibreContent, ofFabric, "such as 95% cotton 5% elastane", 0, 0, func(r *Record) any { return &r.Fabric.Fibres }},
	{"weight", ofFabric, "g/m² or oz/yd²", 0, 0, func(r *Record) any { return &r.Fabric.Weight }},
	{FullWidth, ofFabric, "from selvedge to selvedge; of tubular cloth as it lies", cm, measure.Width, func(r *Record) any { return &r.Fabric.FullWidth }},
	{"tubular", ofFabric, "yes or no", 0, 0, func(r *Record) any { return &r.Fabric.Tubular }},
	{"selvedge loss", ofFabric, "lost at each selvedge", cm, measure.Width, func(r *Record) any { return &r.Fabric.SelvedgeLoss }},
	{"stretch across", ofFabric, "measured stretch from selvedge to selvedge, %", 0, 0, func(r *Record) any { return &r.Fabric.Crosswise.Stretch }},
	{"stretch along", ofFabric, "measured stretch along the selvedge, %", 0, 0, func(r *Record) any { return &r.Fabric.Lengthwise.Stretch }},
	{"growth across", ofFabric, "stays longer after stretching, %", 0, 0, func(r *Record) any { return &r.Fabric.Crosswise.Growth }},
	{"growth along", ofFabric, "stays longer after stretching, %", 0, 0, func(r *Record) any { return &r.Fabric.Lengthwise.Growth }},
	{"recovery across", ofFabric, "share of the stretch that goes back, %", 0, 0, func(r *Record) any { return &r.Fabric.Crosswise.Recovery }},
	{"recovery along", ofFabric, "share of the stretch that goes back, %", 0, 0, func(r *Record) any { return &r.Fabric.Lengthwise.Recovery }},
	{"narrowing across", ofFabric, "narrows while stretched across, %", 0, 0, func(r *Record) any { return &r.Fabric.Crosswise.Narrowing }},
	{"narrowing along", ofFabric, "narrows while stretched along, %", 0, 0, func(r *Record) any { return &r.Fabric.Lengthwise.Narrowing }},
	{"change in washing across", ofFabric, "%, negative when it shrinks", 0, 0, func(r *Record) any { return &r.Fabric.Crosswise.Shrinkage }},
	{"change in washing along", ofFabric, "%, negative when it shrinks", 0, 0, func(r *Record) any { return &r.Fabric.Lengthwise.Shrinkage }},
	{"direction", ofFabric, "either way, same way within a garment, same way for everything", 0, 0, func(r *Record) any { return &r.Fabric.Direction }},
	{"repeat along", ofFabric, "print repeat along the selvedge", cm, measure.Width, func(r *Record) any { return &r.Fabric.RepeatAlong }},
	{"repeat across", ofFabric, "print repeat from selvedge to selvedge", cm, measure.Width, func(r *Record) any { return &r.Fabric.RepeatAcross }},
	{"same on both faces", ofFabric, "yes or no", 0, 0, func(r *Record) any { return &r.Fabric.SameBothFace }},
	{"thickness", ofFabric, "of one layer", mm, measure.PieceLength, func(r *Record) any { return &r.Fabric.Thickness }},
	{ColourCode, ofFabric, "#rrggbb, for its swatch", 0, 0, func(r *Record) any { return &r.Fabric.Colour }},
	{"care", ofFabric, "how it is washed", 0, 0, func(r *Record) any { return &r.Fabric.Care }},
	{"supplier", ofFabric, "who sells the fabric", 0, 0, func(r *Record) any { return &r.Fabric.Supplier }},
	{"tags", ofFabric, "words to find it by, commas between", 0, 0, func(r *Record) any { return &r.Fabric.Tags }},
	{"stitches", ofFabric, "stitch settings that worked", 0, 0, func(r *Record) any { return &r.Fabric.Stitches }},
	{"fabric notes", ofFabric, "about the fabric", 0, 0, func(r *Record) any { return &r.Fabric.Notes }},
	{"raw start", ofCloth, "the first end is not straight yet: yes or no", 0, 0, func(r *Record) any { return &r.Cloth.RawStart }},
	{"raw end", ofCloth, "the other end is not straight yet: yes or no", 0, 0, func(r *Record) any { return &r.Cloth.RawEnd }},
	{"selvedge near", ofCloth, "the near edge is a selvedge: yes or no", 0, 0, func(r *Record) any { return &r.Cloth.SelvedgeLow }},
	{"selvedge far", ofCloth, "the far edge is a selvedge: yes or no", 0, 0, func(r *Record) any { return &r.Cloth.SelvedgeHigh }},
	{"outline", ofCloth, "of an odd leftover, as POLYGON ((x y, …)) in mm", 0, 0, func(r *Record) any { return &r.Cloth.Outline }},
	{CutFrom, ofCloth, "the code of the cloth it was cut from", 0, 0, func(r *Record) any { return &r.CutFrom }},
	{Notes, ofCloth, "about this cloth", 0, 0, func(r *Record) any { return &r.Cloth.Notes }},
	{BoughtOn, ofPurchase, "the day it was bought", 0, 0, func(r *Record) any { return &r.Bought.On }},
	{BoughtFrom, ofPurchase, "who sold it", 0, 0, func(r *Record) any { return &r.Bought.From }},
	{BoughtLength, ofPurchase, "how much was bought, where that is not the length now", cm, measure.FabricLength, func(r *Record) any { return &r.Bought.Length }},
	{Price, ofPurchase, "for the whole length", 0, 0, func(r *Record) any { return &r.Bought.Price }},
	{PricePer, ofPurchase, "for a metre or a yard", 0, measure.FabricLength, func(r *Record) any { return &r.Bought.Per }},
	{"postage", ofPurchase, "of the whole purchase", 0, 0, func(r *Record) any { return &r.Bought.Postage }},
	{"tax", ofPurchase, "of the whole purchase", 0, 0, func(r *Record) any { return &r.Bought.Tax }},
	{Currency, ofPurchase, "three letters, such as EUR", 0, 0, func(r *Record) any { return &r.Currency }},
	{PurchaseNo, ofPurchase, "rows with the same number were bought in one go", 0, 0, func(r *Record) any { return &r.Bought.No }},
	{"purchase notes", ofPurchase, "about the purchase", 0, 0, func(r *Record) any { return &r.Bought.Notes }},
	{FabricNo, ofFabric, "rows with the same number are of one fabric", 0, 0, func(r *Record) any { return &r.FabricNo }},
	{"to buy", ofFabric, "so much of the fabric is on the shopping list", cm, measure.FabricLength, func(r *Record) any { return &r.Fabric.Buy }},
	{"to buy for", ofFabric, "what it is on the shopping list for", 0, 0, func(r *Record) any { return &r.Fabric.BuyFor }},
}

var defOf = func() map[Field]*def {
	out := make(map[Field]*def, len(defs))
	for i := range defs {
		out[defs[i].field] = &defs[i]
	}
	return out
}()

// Fields lists all that a column can be: the facts, then KeepNote and LeaveOut.
func Fields() []Field {
	out := make([]Field, 0, len(defs)+2)
	for _, d := range defs {
		out = append(out, d.field)
	}
	return append(out, KeepNote, LeaveOut)
}

// About says in a few words what belongs into a field.
func About(f Field) string {
	if d := defOf[f]; d != nil {
		return d.about
	}
	return ""
}

// FieldNamed finds a field by its words; capitals and blanks around do not matter.
func FieldNamed(text string) (Field, bool) {
	want := strings.ToLower(strings.Join(strings.Fields(text), " "))
	for _, f := range Fields() {
		if string(f) == want || strings.TrimSuffix(string(f), ".") == want {
			return f, true
		}
	}
	return "", false
}

// form is how the cells of a field are read.
type form byte

const (
	plainForm form = iota
	lengthForm
	numberForm // percents, weights
	moneyForm
	dayForm
)

func (d *def) form() form { return formOf[d.field] }

// formOf is worked out once: a cell of a long list asks for it several times.
var formOf = func() map[Field]form {
	out := make(map[Field]form, len(defs))
	for i := range defs {
		out[defs[i].field] = defs[i].readAs()
	}
	return out
}()

func (d *def) readAs() form {
	switch d.at(&Record{}).(type) {
	case *measure.Length:
		return lengthForm
	case *measure.Weight, *reading:
		return numberForm
	case *measure.Money:
		return moneyForm
	case *day:
		return dayForm
	}
	return plainForm
}

// AnyCurrency stands in UnitsOf for every currency of ISO 4217, by its three letters.
const AnyCurrency = "a currency"

// UnitsOf lists the units that a column of a field may have for its bare numbers, nil
// where units mean nothing.
func UnitsOf(f Field) []string {
	d := defOf[f]
	if d == nil {
		return nil
	}
	switch d.at(&Record{}).(type) {
	case *measure.Length:
		return []string{"m", "cm", "mm", "yd", "ft", "in"}
	case *measure.Weight:
		return []string{"g/m²", "oz/yd²"}
	case *measure.Money:
		if f == PricePer {
			return []string{"m", "cm", "yd", "ft", "in", AnyCurrency}
		}
		return []string{AnyCurrency}
	}
	return nil
}

// HasNumbers and HasDays say whether decimals, or the order of day and month, have to be
// known of a column of the field.
func HasNumbers(f Field) bool {
	d := defOf[f]
	return d != nil && d.form() != plainForm && d.form() != dayForm
}

// HasDays is described with HasNumbers.
func HasDays(f Field) bool {
	d := defOf[f]
	return d != nil && d.form() == dayForm
}
