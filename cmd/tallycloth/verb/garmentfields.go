package verb

import (
	"fmt"
	"io"
	"strings"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"
)

// recordFields is the record of a garment in JSON.
type recordFields struct {
	Name    string `json:"name"`
	Pattern string `json:"pattern"`
	Size    string `json:"size"`
	Variant string `json:"variant"`
	For     string `json:"for"`
	Purpose string `json:"purpose"`
	Wanted  string `json:"wanted"`
	State   string `json:"state"`
	Notes   string `json:"notes"`
	CopyOf  string `json:"copy_of"`

	Days       []dayField     `json:"days"`
	Fabrics    []usedFabric   `json:"fabrics"`
	Notions    []usedNotion   `json:"notions"`
	Work       []workField    `json:"work"`
	Strap      mm             `json:"strap_mm"`
	ToLength   bool           `json:"strips_to_length"`
	Seams      []seamField    `json:"seams"`
	Thread     float64        `json:"thread_m"`
	Least      float64        `json:"thread_least_m"`
	Most       float64        `json:"thread_most_m"`
	Unknown    []string       `json:"length_unknown"`
	Lockstitch []string       `json:"lockstitch_on"`
	Blend      []blendField   `json:"blend"`
	NotKnown   float64        `json:"blend_unknown_percent"`
	Grams      float64        `json:"grams"`
	Cost       *costFields    `json:"cost"`
	Fit        *sizeFields    `json:"fit"`
	Fittings   []fittingField `json:"fittings"`
	Cautions   []string       `json:"cautions"`
}

type dayField struct {
	State string `json:"state"`
	On    string `json:"on"`
}

type usedFabric struct {
	UsedFor  string  `json:"used_for"`
	Fabric   string  `json:"fabric"`
	Code     string  `json:"code"`
	Area     float64 `json:"area_m2"`
	Reserved bool    `json:"reserved"`
}

type usedNotion struct {
	Notion   string  `json:"notion"`
	Quantity float64 `json:"quantity"`
	Unit     string  `json:"unit"`
}

type workField struct {
	Number int    `json:"number"`
	Text   string `json:"text"`
	Stop   bool   `json:"stop"`
	Asks   string `json:"asks"`
	Done   bool   `json:"done"`
	On     string `json:"on"`
	Value  mm     `json:"value_mm"`
	Note   string `json:"note"`
}

type seamField struct {
	Seam   string  `json:"seam"`
	Stitch int     `json:"stitch"`
	Name   string  `json:"stitch_name"`
	Length mm      `json:"length_mm"`
	Drawn  bool    `json:"drawn"`
	Rows   int     `json:"rows"`
	Ratio  float64 `json:"ratio"`
	Thread float64 `json:"thread_m"`
	Still  bool    `json:"need_not_stretch"`
}

type blendField struct {
	Fibre   string  `json:"fibre"`
	Percent float64 `json:"percent"`
}

type fittingField struct {
	Number int    `json:"number"`
	On     string `json:"on"`
	Text   string `json:"text"`
	Photos int    `json:"photos"`
}

func (l *library) fieldsOfRecord(r planner.GarmentRecord) recordFields {
	g := r.Garment
	strap, _ := g.Noted(garment.AsksStrap)
	out := recordFields{Name: g.Name, Pattern: r.Pattern.Name, Size: g.Size, Variant: g.Variant, For: g.For, Purpose: g.Record.Purpose,
		Wanted: string(g.Wanted), State: string(g.State), Notes: g.Notes, CopyOf: r.CopyOf,
		Days: []dayField{}, Fabrics: []usedFabric{}, Notions: []usedNotion{}, Work: []workField{}, Strap: mm(strap), ToLength: g.StripsToLength(r.Pattern),
		Seams: []seamField{}, Thread: metres(r.Thread.Total), Least: metres(r.Thread.Least), Most: metres(r.Thread.Most), Unknown: some(r.Thread.Unknown), Lockstitch: some(r.Breaks),
		Blend: []blendField{}, NotKnown: 100 * r.Blend.Unknown.Fraction(), Grams: float64(int(r.Blend.Grams*10+0.5)) / 10, Fittings: []fittingField{}, Cautions: []string{}}
	for _, d := range g.Record.Reached {
		out.Days = append(out.Days, dayField{string(d.State), string(d.On)})
	}
	for _, f := range r.Fabrics {
		out.Fabrics = append(out.Fabrics, usedFabric{f.UsedFor, f.Fabric.Name, f.Code, m2(f.Area), f.Planned})
	}
	for _, n := range r.Notions {
		out.Notions = append(out.Notions, usedNotion{n.Notion.Name, n.Used, n.Notion.Unit})
	}
	for i, st := range r.Steps {
		w := workField{Number: i + 1, Text: st.Text, Stop: st.TryOn, Asks: st.Asks, Done: st.Done()}
		if st.Done() {
			w.On, w.Value, w.Note = string(st.Noted.On), mm(st.Noted.Value), st.Noted.Note
		}
		out.Work = append(out.Work, w)
	}
	for _, t := range r.Thread.Seams {
		out.Seams = append(out.Seams, seamField{t.Name, t.Class, t.Stitch.Name, mm(t.Length), t.Drawn, t.Rows, float64(t.Stitch.Ratio) / 100, metres(t.Thread), t.Still})
	}
	for _, f := range r.Blend.Fibres {
		out.Blend = append(out.Blend, blendField{f.Name, 100 * f.Share.Fraction()})
	}
	for i, f := range g.Record.Fittings {
		out.Fittings = append(out.Fittings, fittingField{i + 1, string(f.On), f.Text, len(f.Photos)})
	}
	for _, c := range r.Cautions {
		out.Cautions = append(out.Cautions, c.Says())
	}
	if r.Costed {
		c := fieldsOfCost(r.Cost)
		out.Cost = &c
	}
	if r.Fit.Known {
		f := l.fieldsOfSize(r.Fit.Choice)
		out.Fit = &f
	}
	return out
}

// metres is a length in metres, to the centimetre.
func metres(l measure.Length) float64 { return float64((l+5000)/10000) / 100 }

// tellGarment writes the record of a garment in words.
func (l *library) tellGarment(w io.Writer, r planner.GarmentRecord) {
	g, v := r.Garment, l.voice
	fmt.Fprintf(w, "%s: %s, %s\n", g.Name, say.About(r.Pattern.Name, g), g.State)
	line := func(head, text string) {
		if text != "" {
			fmt.Fprintln(w, "  "+pad(head, 10)+wrapped(strings.Fields(text), 12, 96, ""))
		}
	}
	if g.Wanted != "" {
		line("wanted", "for "+say.Day(g.Wanted))
	}
	line("purpose", g.Record.Purpose)
	line("copied", r.CopyOf)
	line("days", say.Days(g))
	line("next", say.NextStep(g, r.Steps))
	for _, f := range r.Fabrics {
		line("fabric", v.GarmentFabric(f))
	}
	for _, n := range r.Notions {
		line("notion", n.Notion.Name+", "+stash.FormatQuantity(n.Used, n.Notion.Unit))
	}
	line("cost", v.GarmentCost(r))
	line("fibres", say.Blend(r.Blend))
	for _, t := range v.GarmentFit(r) {
		line("fit", t)
	}
	fmt.Fprintln(w, "Order of work")
	for i, s := range r.Steps {
		fmt.Fprintln(w, "  "+say.Step(i, s))
		if s.Done() {
			fmt.Fprintln(w, "     "+v.StepNoted(*s.Noted))
		}
	}
	if len(r.Pattern.Edges) > 0 {
		line("strips", say.StripsWhen(g.StripsToLength(r.Pattern)))
		line("strips", v.AfterTakeIn(g))
		line("strips", v.Strap(g))
	}
	for i, f := range g.Record.Fittings {
		line(fmt.Sprintf("fitting %d", i+1), say.Day(f.On)+": "+f.Text)
	}
	if rows := v.ThreadRows(r.Thread); len(rows) > 1 {
		fmt.Fprintln(w)
		table(w, strings.ToUpper(strings.Join(rows[0], "|")), rows[1:])
		fmt.Fprintln(w, "Lengths with * are from the outlines.")
	}
	for _, t := range v.Thread(r.Thread) {
		fmt.Fprintln(w, wrapped(strings.Fields(t), 0, 96, ""))
	}
	for _, t := range append([]string{say.Breaks(r.Breaks)}, cautionsOf(r)...) {
		if t != "" {
			fmt.Fprintln(w, "! "+wrapped(strings.Fields(t), 2, 96, ""))
		}
	}
}

func cautionsOf(r planner.GarmentRecord) []string {
	var out []string
	for _, c := range r.Cautions {
		out = append(out, c.Says())
	}
	return out
}
