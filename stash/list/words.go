package list

import (
	"strings"
	"unicode"

	"tallycloth/stash"
)

// headings are the words above columns, in the trade's English and in the German and
// French that lists of fabrics commonly have (common practice).
var headings = map[Field][]string{
	FabricName:                 {"fabric", "fabric name", "name", "name of the fabric", "material", "item", "stoff", "stoffname", "bezeichnung", "tissu", "nom", "nom du tissu"},
	Construction:               {"construction", "type", "fabric type", "kind", "kind of fabric", "how it is made", "stoffart", "art", "type de tissu"},
	Colour:                     {"colour", "color", "colour name", "color name", "colourway", "colorway", "shade", "farbe", "couleur", "coloris"},
	ColourCode:                 {"hex", "colour code", "color code", "farbcode"},
	Code:                       {"code", "label", "label code", "cloth code"},
	Length:                     {"length", "amount", "quantity", "qty", "yardage", "meterage", "metres", "meters", "yards", "remaining", "length left", "in stash", "on hand", "länge", "laenge", "menge", "meter", "longueur", "métrage", "metrage", "quantité", "quantite"},
	Width:                      {"cloth width", "width of the cloth", "width of the piece", "leftover width"},
	FullWidth:                  {"width", "full width", "fabric width", "wide", "breite", "stoffbreite", "laize", "largeur"},
	Lot:                        {"lot", "dye lot", "dyelot", "batch", "partie", "farbpartie", "bain"},
	"place":                    {"place", "location", "where", "where it is kept", "storage", "stored", "bin", "box", "shelf", "ort", "lagerort", "fach", "regal", "emplacement", "lieu"},
	"washed":                   {"washed", "prewashed", "pre washed", "preshrunk", "gewaschen", "vorgewaschen", "lavé", "prélavé"},
	FibreContent:               {"fibres", "fibers", "fibre", "fiber", "fibre content", "fiber content", "content", "contents", "composition", "zusammensetzung", "material zusammensetzung", "fasern"},
	"weight":                   {"weight", "fabric weight", "gsm", "g/m²", "g/m2", "grammage", "gewicht", "grammatur", "flächengewicht", "poids"},
	"tubular":                  {"tubular", "tube", "schlauch", "schlauchware", "tubulaire"},
	"selvedge loss":            {"selvedge loss", "selvage loss"},
	"stretch across":           {"stretch", "stretch across", "crosswise stretch", "stretch crosswise", "horizontal stretch", "dehnung", "dehnung quer", "querdehnung", "élasticité"},
	"stretch along":            {"stretch along", "lengthwise stretch", "stretch lengthwise", "vertical stretch", "dehnung längs", "längsdehnung"},
	"growth across":            {"growth across", "growth"},
	"growth along":             {"growth along"},
	"recovery across":          {"recovery", "recovery across", "crosswise recovery", "rücksprung"},
	"recovery along":           {"recovery along", "lengthwise recovery"},
	"narrowing across":         {"narrowing across", "narrowing"},
	"narrowing along":          {"narrowing along"},
	"change in washing across": {"change in washing across", "shrinkage across", "crosswise shrinkage"},
	"change in washing along":  {"change in washing along", "shrinkage", "shrinkage along", "lengthwise shrinkage", "schrumpf"},
	"direction":                {"direction", "nap", "one way", "strichrichtung"},
	"repeat along":             {"repeat along", "repeat", "pattern repeat", "print repeat", "rapport", "raccord"},
	"repeat across":            {"repeat across"},
	"same on both faces":       {"same on both faces", "reversible"},
	"thickness":                {"thickness", "dicke", "épaisseur"},
	"care":                     {"care", "washing", "care instructions", "pflege", "entretien"},
	"supplier":                 {"supplier", "vendor", "maker", "manufacturer", "lieferant", "hersteller", "fournisseur"},
	"tags":                     {"tags", "keywords", "category", "categories", "schlagworte", "kategorie"},
	"stitches":                 {"stitches", "stitch", "stitch notes", "stitch settings"},
	"fabric notes":             {"fabric notes", "about the fabric"},
	"raw start":                {"raw start"},
	"raw end":                  {"raw end"},
	"selvedge near":            {"selvedge near"},
	"selvedge far":             {"selvedge far"},
	"outline":                  {"outline"},
	CutFrom:                    {"cut from"},
	Notes:                      {"notes", "note", "comments", "comment", "remarks", "remark", "notizen", "notiz", "bemerkung", "bemerkungen", "anmerkung", "remarques", "commentaire"},
	BoughtOn:                   {"bought on", "date", "bought", "purchased", "purchase date", "date bought", "date purchased", "day", "datum", "kaufdatum", "gekauft", "gekauft am", "acheté", "date d'achat", "acheté le"},
	BoughtFrom:                 {"bought from", "purchased from", "shop", "store", "seller", "source", "where bought", "laden", "geschäft", "händler", "gekauft bei", "magasin", "boutique"},
	BoughtLength:               {"bought length", "length bought", "amount bought", "yards bought", "metres bought", "gekaufte länge"},
	Price:                      {"price", "cost", "total", "total price", "total cost", "paid", "price paid", "preis", "kosten", "gesamtpreis", "prix", "prix total", "coût"},
	PricePer:                   {"price per length", "unit price", "price per", "cost per", "preis pro", "preis je", "meterpreis", "prix par", "prix au", "prix au mètre"},
	"postage":                  {"postage", "shipping", "delivery", "versand", "versandkosten", "porto", "frais de port"},
	"tax":                      {"tax", "vat", "sales tax", "steuer", "mwst", "tva"},
	Currency:                   {"currency", "währung", "devise", "monnaie"},
	PurchaseNo:                 {"purchase no", "purchase", "order", "order no", "order number", "invoice", "receipt", "receipt no", "bestellung", "bestellnummer", "rechnung", "rechnungsnummer", "commande", "facture"},
	"purchase notes":           {"purchase notes"},
	FabricNo:                   {"fabric no", "fabric number", "stoffnummer"},
}

// fieldOf finds a field by a heading in plain form.
var fieldOf = func() map[string]Field {
	out := map[string]Field{}
	for f, words := range headings {
		for _, w := range words {
			out[w] = f
		}
	}
	return out
}()

// made are other words for constructions (common practice; German and French from memory).
var made = map[string]stash.Construction{
	"single jersey": stash.Jersey, "t-shirt knit": stash.Jersey, "single knit": stash.Jersey,
	"ribbing": stash.Rib, "rib knit": stash.Rib, "1x1 rib": stash.Rib, "2x2 rib": stash.Rib, "rippe": stash.Rib, "bündchen": stash.Rib, "bord-côte": stash.Rib, "bord-côtes": stash.Rib,
	"double knit": stash.Interlock, "interlock knit": stash.Interlock,
	"loopback": stash.FrenchTerry, "loop back": stash.FrenchTerry, "terry": stash.FrenchTerry, "sommersweat": stash.FrenchTerry,
	"fleece": stash.Sweatshirt, "sweatshirt": stash.Sweatshirt, "sweat": stash.Sweatshirt, "brushed fleece": stash.Sweatshirt, "molleton": stash.Sweatshirt,
	"ponte roma": stash.Ponte, "ponte di roma": stash.Ponte, "ponte knit": stash.Ponte, "romanit": stash.Ponte, "punto di roma": stash.Ponte,
	"swim": stash.SwimKnit, "swimwear": stash.SwimKnit, "swim tricot": stash.SwimKnit, "badestoff": stash.SwimKnit,
	"netz": stash.Mesh, "powernet": stash.PowerNet, "powermesh": stash.PowerNet, "power mesh": stash.PowerNet,
	"velvet knit": stash.Velour, "nicki": stash.Velour,
	"plain weave": stash.WovenPlain, "poplin": stash.WovenPlain, "lawn": stash.WovenPlain, "popeline": stash.WovenPlain, "twill": stash.WovenTwill, "denim": stash.WovenTwill,
	"knit": stash.OtherKnit, "knitted": stash.OtherKnit, "strick": stash.OtherKnit, "maille": stash.OtherKnit,
	"woven": stash.OtherWoven, "webware": stash.OtherWoven, "tissé": stash.OtherWoven,
}

func init() {
	for _, c := range stash.Constructions() {
		made[string(c)] = c
	}
}

// constructionIn finds the longest word for a construction in a text, at word bounds.
func constructionIn(text string) (stash.Construction, bool) {
	padded := " " + strings.Join(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune(",;/()", r) }), " ") + " "
	best, found := "", stash.Construction("")
	for word, c := range made {
		if strings.Contains(padded, " "+word+" ") && (len(word) > len(best) || len(word) == len(best) && word < best) {
			best, found = word, c
		}
	}
	return found, best != ""
}

var yesNo = map[string]bool{
	"yes": true, "y": true, "true": true, "1": true, "x": true, "✓": true, "✔": true, "ja": true, "j": true, "wahr": true, "oui": true, "o": true, "vrai": true,
	"no": false, "n": false, "false": false, "0": false, "-": false, "–": false, "nein": false, "falsch": false, "non": false, "faux": false,
}

var directions = map[string]stash.Direction{
	"either way": stash.EitherWay, "no nap": stash.EitherWay, "none": stash.EitherWay, "two way": stash.EitherWay, "without nap": stash.EitherWay,
	"same way within a garment": stash.SameWayInGarment, "same way in a garment": stash.SameWayInGarment,
	"same way for everything": stash.SameWayForAll, "one way": stash.SameWayForAll, "with nap": stash.SameWayForAll, "pile": stash.SameWayForAll, "nap": stash.SameWayForAll,
}

// directionWords are how Write says a direction.
var directionWords = map[stash.Direction]string{
	stash.EitherWay: "either way", stash.SameWayInGarment: "same way within a garment", stash.SameWayForAll: "same way for everything",
}

// plainHeading is a heading in small letters, without what stands in brackets, signs or
// blanks too many.
func plainHeading(s string) string {
	s = brackets.ReplaceAllString(strings.ToLower(s), " ")
	s = strings.Map(func(r rune) rune {
		if strings.ContainsRune("_:*.#?-", r) {
			return ' '
		}
		return r
	}, s)
	return strings.Join(strings.Fields(s), " ")
}
