package verb

import (
	"time"

	"tallycloth/planner"
)

// historyFields is a page of history in JSON.
type historyFields struct {
	Lines     int              `json:"lines"`
	Movements []movementFields `json:"movements"`
}

type movementFields struct {
	Noted     string  `json:"noted"`
	Kind      string  `json:"kind"`
	Fabric    string  `json:"fabric"`
	Code      string  `json:"code"`
	Garment   string  `json:"garment"`
	YardageMM mm      `json:"yardage_mm"`
	AreaM2    float64 `json:"area_m2"`
	BoughtOn  string  `json:"bought_on"`
	TakenBack bool    `json:"taken_back"`
	Note      string  `json:"note"`
}

func fieldsOfMovement(l planner.PastLine) movementFields {
	return movementFields{Noted: l.At.Format(time.RFC3339), Kind: string(l.Kind), Fabric: l.Fabric, Code: l.Code, Garment: l.Garment,
		YardageMM: mm(planner.YardsOf(l.Area, l.FullWidth).Length), AreaM2: m2(l.Area), BoughtOn: string(l.BoughtOn), TakenBack: l.TakenBack, Note: l.Note}
}

// yardsFields is an amount of fabric in JSON.
type yardsFields struct {
	YardageMM mm      `json:"yardage_mm"`
	AreaM2    float64 `json:"area_m2"`
}

func fieldsOfYards(y planner.Yards) yardsFields { return yardsFields{mm(y.Length), m2(y.Area)} }

type flowedFields struct {
	In      yardsFields `json:"in"`
	Cut     yardsFields `json:"cut"`
	Gone    yardsFields `json:"gone"`
	Changed yardsFields `json:"changed"`
}

func fieldsOfFlowed(f planner.Flowed) flowedFields {
	return flowedFields{fieldsOfYards(f.In), fieldsOfYards(f.Cut), fieldsOfYards(f.Gone), fieldsOfYards(f.Changed)}
}

type spanFields struct {
	From string `json:"from"`
	To   string `json:"to"`
	flowedFields
	There *yardsFields `json:"there"`
}

type yardageFields struct {
	Before *yardsFields `json:"before"`
	After  *yardsFields `json:"after"`
	Total  flowedFields `json:"total"`
	Spans  []spanFields `json:"spans"`
}

func fieldsOfYardage(y planner.Yardage) yardageFields {
	balance := func(b planner.Yards) *yardsFields {
		if !y.Struck {
			return nil
		}
		f := fieldsOfYards(b)
		return &f
	}
	out := yardageFields{Before: balance(y.Before), After: balance(y.After()), Total: fieldsOfFlowed(y.Total), Spans: []spanFields{}}
	for _, s := range y.Spans {
		out.Spans = append(out.Spans, spanFields{string(s.From), string(s.To), fieldsOfFlowed(s.Flowed), balance(s.Balance)})
	}
	return out
}

// worthFields is what the shelf is worth in JSON.
type worthFields struct {
	Pieces int `json:"pieces"`
	yardsFields
	Totals   []string            `json:"totals"`
	Joined   joinedFields        `json:"joined"`
	Unpriced int                 `json:"pieces_without_a_price"`
	Fabrics  []fabricWorthFields `json:"fabrics"`
}

type fabricWorthFields struct {
	Fabric string `json:"fabric"`
	Pieces int    `json:"pieces"`
	yardsFields
	Totals   []string `json:"totals"`
	Unpriced int      `json:"pieces_without_a_price"`
}

func fieldsOfWorth(w planner.Worth) worthFields {
	out := worthFields{Pieces: w.Pieces, yardsFields: fieldsOfYards(w.Yards), Totals: amounts(w.Totals), Joined: fieldsOfJoined(w.Joined), Unpriced: w.Unpriced, Fabrics: []fabricWorthFields{}}
	for _, f := range w.Fabrics {
		out.Fabrics = append(out.Fabrics, fabricWorthFields{f.Fabric.Name, f.Pieces, fieldsOfYards(f.Yards), amounts(f.Totals), f.Unpriced})
	}
	return out
}

// costFields is what a garment costs in JSON.
type costFields struct {
	Garment  string           `json:"garment"`
	Pattern  string           `json:"pattern"`
	Size     string           `json:"size"`
	State    string           `json:"state"`
	AreaM2   float64          `json:"area_m2"`
	WasteM2  float64          `json:"waste_m2"`
	Totals   []string         `json:"totals"`
	Joined   joinedFields     `json:"joined"`
	Unpriced int              `json:"parts_without_a_price"`
	Planned  bool             `json:"planned"`
	Cloth    []clothCostField `json:"cloth"`
	Notions  []usedField      `json:"notions"`
}

type clothCostField struct {
	Fabric  string  `json:"fabric"`
	Code    string  `json:"code"`
	AreaM2  float64 `json:"area_m2"`
	WasteM2 float64 `json:"waste_m2"`
	Cost    string  `json:"cost"`
	Planned bool    `json:"planned"`
}

type usedField struct {
	Name     string  `json:"name"`
	Quantity float64 `json:"quantity"`
	Unit     string  `json:"unit"`
	Cost     string  `json:"cost"`
}

func fieldsOfCost(g planner.GarmentCost) costFields {
	out := costFields{Garment: g.Garment.Name, Pattern: g.Pattern, Size: g.Garment.Size, State: string(g.Garment.State), AreaM2: m2(g.Area), WasteM2: m2(g.Waste),
		Totals: amounts(g.Totals), Joined: fieldsOfJoined(g.Joined), Unpriced: g.Unpriced, Planned: g.Planned, Cloth: []clothCostField{}, Notions: []usedField{}}
	for _, c := range g.Cloth {
		out.Cloth = append(out.Cloth, clothCostField{c.Fabric, c.Code, m2(c.Area), m2(c.Waste), c.Cost.Amount().String(), c.Planned})
	}
	for _, n := range g.Notions {
		out.Notions = append(out.Notions, usedField{n.Name, n.Quantity, n.Unit, n.Cost.String()})
	}
	return out
}
