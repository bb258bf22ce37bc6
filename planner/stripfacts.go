package planner

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"tallycloth/planner/binding"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// StripFacts is what a fabric brings to a strip cut along a grain, assumed where it was
// not measured; share is how much of bench stretch is used. How far a fabric gives on the bias
// is not kept, so nothing is known of it there.
func StripFacts(f stash.Fabric, grain binding.Grain, share measure.Percent) binding.FabricFacts {
	out := binding.FabricFacts{Knit: f.Construction.Knit(), Usable: share,
		OneWay: f.Direction == stash.SameWayForAll, Repeat: f.RepeatAlong}
	full := stash.Assumed(f)
	g, measured := full.Crosswise, f.Crosswise
	switch grain {
	case binding.Bias:
		return out
	case binding.Lengthwise:
		g, measured = full.Lengthwise, f.Lengthwise
	default:
		out.Across = f.FullWidth - 2*f.SelvedgeLoss
		if f.Tubular {
			out.Across = 2 * f.FullWidth
		}
	}
	out.Stretch, out.Recovery, out.Narrowing = g.Stretch.Value, g.Recovery.Value, g.Narrowing.Value
	out.Assumed = !measured.Stretch.Known || !measured.Recovery.Known
	return out
}

// TurnOfCloth returns what goes round the edge in a wrapped finish: π × thickness, half a
// circle round one layer (derived here; 0.6 mm gives 1.9 mm, 1 mm 3.1 mm, common practice is 2–3
// mm). 2 mm where the thickness is not known.
func TurnOfCloth(thickness measure.Length) measure.Length {
	if thickness <= 0 {
		return turnOfCloth
	}
	return measure.Length(math.Round(math.Pi * float64(thickness)))
}

// UsualRule is the rule of thumb for a band of a fabric, strip to edge: rib 3/4, other knits
// 85 % (rib: home sewing trade association, 2/3–3/4; jersey: from memory); zero for wovens.
func UsualRule(f stash.Fabric) float64 {
	switch {
	case f.ID == stash.NoID || !f.Construction.Knit():
		return 0
	case f.Construction == stash.Rib:
		return 0.75
	}
	return 0.85
}

// mostPast is how many strips that worked are offered again.
const mostPast = 2

// RatioOffers lists the ways to the ratios of a job side by side; f is the fabric of the
// strip, or one without an ID where none is chosen. A rule of thumb in the job is offered
// instead of the usual one.
func RatioOffers(j binding.Job, f stash.Fabric, set Settings) []binding.Offer {
	facts, rule := binding.FabricFacts{}, j.Rule
	if f.ID != stash.NoID {
		facts = StripFacts(f, j.Grain, set.UsableStretch)
	}
	if rule == 0 || j.By == binding.ByLast {
		rule = UsualRule(f)
	}
	if j.Finish.Technique.Bought() {
		rule = j.Rule // the usual ones are of bands cut from cloth
	}
	var past []binding.Past
	for _, n := range f.StripsBy(string(j.Finish.Technique)) {
		if len(past) < mostPast {
			past = append(past, binding.Past{Words: pastWords(n), Ratio: n.Ratio})
		}
	}
	return binding.Offers(j, facts, rule, past)
}

// pastWords say of what and when a strip was that worked: "neck, 2026-05-04: lies flat".
func pastWords(n stash.StripNote) string {
	var out []string
	for _, s := range []string{n.Edge, string(n.Date), n.Note} {
		if s != "" {
			out = append(out, s)
		}
	}
	return strings.Join(out, ", ")
}

// KeepStrip keeps on a fabric that a strip of it worked, dated today, so that it is offered
// the next time. drawn is how far free parts drew out in sewing, zero where nobody measured it.
func (s *Studio) KeepStrip(ctx context.Context, fabricID stash.ID, strip binding.Strip, drawn float64, note string) (stash.Fabric, error) {
	f, err := s.Fabric(ctx, fabricID)
	if err != nil {
		return f, fmt.Errorf("keeping a strip that worked: %w", err)
	}
	fin := strip.Job.Finish
	n := stash.StripNote{Edge: strip.Job.Name, Technique: string(fin.Technique), Ratio: strip.SewnRatio(), Drawn: drawn,
		Width: fin.Width, Seam: fin.Seam, CutWidth: strip.CutWidth, Note: note, Date: s.today()}
	if f, err = f.WithStrip(n); err != nil {
		return f, err
	}
	err = s.act(ctx, fmt.Sprintf("Noted a strip that worked on %s", f.Name), func(tx Tx) error {
		now, err := tx.Fabric(ctx, fabricID)
		if err != nil {
			return err
		}
		if f, err = now.WithStrip(n); err != nil {
			return err
		}
		return tx.PutFabric(ctx, f)
	})
	return f, err
}

// DrawnLast is how far free parts drew out when last measured on a fabric with a technique,
// binding.DrawnOut where nobody measured it.
func DrawnLast(f stash.Fabric, technique binding.Technique) float64 {
	for _, n := range f.StripsBy(string(technique)) {
		if n.Drawn > 0 {
			return n.Drawn
		}
	}
	return binding.DrawnOut
}

// OwnTechnique is a way to finish edges that the person added, as layers in words; see
// binding.ParseRecipe.
type OwnTechnique struct{ Name, Layers string }

// OwnTechniques are a person's techniques, one a line, "name: layers": as text, so that
// Settings can be compared.
type OwnTechniques string

// List returns the techniques in the order they were added.
func (o OwnTechniques) List() []OwnTechnique {
	var out []OwnTechnique
	for line := range strings.Lines(string(o)) {
		name, layers, ok := strings.Cut(strings.TrimSpace(line), ": ")
		if ok {
			out = append(out, OwnTechnique{name, layers})
		}
	}
	return out
}

func joinTechniques(all []OwnTechnique) OwnTechniques {
	var b strings.Builder
	for _, o := range all {
		fmt.Fprintf(&b, "%s: %s\n", o.Name, o.Layers)
	}
	return OwnTechniques(b.String())
}

// mostTechniques is how many a person may add.
const mostTechniques = 50

// AddTechnique keeps a technique of the person's own, or other layers for one of that name.
// Errors: a name that is empty, long or taken; layers that cannot be read.
func (s *Studio) AddTechnique(ctx context.Context, name, layers string) error {
	name = strings.Join(strings.Fields(strings.ReplaceAll(name, ":", " ")), " ")
	switch {
	case name == "" || len(name) > 60:
		return invalid("Give it a short name", "The technique has no name")
	case slices.ContainsFunc(binding.Techniques(), func(t binding.Technique) bool { return strings.EqualFold(string(t), name) }):
		return invalid("Choose another name", "%s is known already", name)
	}
	r, err := binding.ParseRecipe(layers)
	if err != nil {
		return err
	}
	set, err := s.Settings(ctx)
	if err != nil {
		return fmt.Errorf("adding a technique: %w", err)
	}
	own := slices.DeleteFunc(set.Techniques.List(), func(o OwnTechnique) bool { return strings.EqualFold(o.Name, name) })
	if len(own) >= mostTechniques {
		return invalid("Remove one first", "There are %d techniques of your own already", len(own))
	}
	set.Techniques = joinTechniques(append(own, OwnTechnique{Name: name, Layers: r.String()}))
	return s.act(ctx, "Added the technique "+name, func(tx Tx) error { return tx.PutSettings(ctx, set) })
}

// DropTechnique removes a technique of the person's own. Strips already worked out keep their layers.
func (s *Studio) DropTechnique(ctx context.Context, name string) error {
	set, err := s.Settings(ctx)
	if err != nil {
		return fmt.Errorf("removing a technique: %w", err)
	}
	own := slices.DeleteFunc(set.Techniques.List(), func(o OwnTechnique) bool { return o.Name == name })
	if len(own) == len(set.Techniques.List()) {
		return refused("Choose one of your own", "There is no technique %q of yours", name)
	}
	set.Techniques = joinTechniques(own)
	return s.act(ctx, "Removed the technique "+name, func(tx Tx) error { return tx.PutSettings(ctx, set) })
}

// AllTechniques are the techniques known by themselves, then the person's own.
func (set Settings) AllTechniques() []binding.Technique {
	out := binding.Techniques()
	for _, o := range set.Techniques.List() {
		out = append(out, binding.Technique(o.Name))
	}
	return out
}

// Recipe returns the layers of a technique of the person's own; nothing for others.
func (set Settings) Recipe(t binding.Technique) binding.Recipe {
	for _, o := range set.Techniques.List() {
		if o.Name == string(t) {
			r, err := binding.ParseRecipe(o.Layers)
			if err == nil {
				return r
			}
		}
	}
	return binding.Recipe{}
}
