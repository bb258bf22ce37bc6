package garment

import (
	"math"
	"slices"

	"tallycloth/stash/measure"
)

// StitchClass is a stitch of ISO 4915 with the thread that it takes per length of seam.
type StitchClass struct {
	Class int // its number in ISO 4915
	Name  string
	// Ratio counts, in hundredths; published ones lie from Least to Most.
	Ratio, Least, Most int
	Needle             int // percent of the thread that runs through needles
	Memory             bool
}

// stitches: ratios of 101, 103, 301 and 304 as a thread maker's guide to stitch types prints
// them, of 401 from a thread firm's bulletin on estimating consumption (2008), where they are
// said to lie between Least and Most by a table for 7 stitches/cm or a page that prints
// others. Those of 406 and above, and all shares of needle thread but 301, 304 and 401, are
// from memory: printed ratios of overedge stitches differ by half.
var stitches = []StitchClass{
	{101, "single-thread chainstitch", 500, 400, 500, 100, false},
	{103, "blindstitch", 450, 450, 450, 100, false},
	{301, "lockstitch", 250, 250, 250, 50, false},
	{304, "zigzag", 550, 550, 700, 50, false},
	{401, "two-thread chainstitch", 500, 500, 550, 40, false},
	{406, "two-needle cover stitch, bottom", 1800, 1800, 1800, 30, true},
	{503, "two-thread overlock", 1200, 400, 1200, 55, true},
	{504, "three-thread overlock", 1400, 700, 1400, 20, true},
	{512, "four-thread overlock", 1800, 1200, 1800, 25, true},
	{516, "five-thread safety stitch", 2000, 2000, 2000, 20, true},
	{602, "two-needle cover stitch, top and bottom", 2500, 2500, 2500, 20, true},
	{605, "three-needle cover stitch", 2800, 2800, 2800, 30, true},
}

// StitchClasses lists the stitches with a ratio, by number.
func StitchClasses() []StitchClass { return slices.Clone(stitches) }

// StitchOf returns the stitch of a number.
func StitchOf(class int) (StitchClass, bool) {
	i := slices.IndexFunc(stitches, func(s StitchClass) bool { return s.Class == class })
	if i < 0 {
		return StitchClass{}, false
	}
	return stitches[i], true
}

// ThreadWaste is added for ends and rethreading: 15 % (published: 10 to 20 %).
const ThreadWaste = 15 * measure.OnePercent

// SeamThread is the thread of one seam, waste included.
type SeamThread struct {
	MadeSeam
	Stitch StitchClass
	Thread measure.Length
	// Least and Most are what it comes to by the ratios that are published.
	Least, Most measure.Length
}

// Thread is the thread of a garment.
type Thread struct {
	Seams   []SeamThread
	Unknown []string // seams whose length is not known
	Waste   measure.Percent
	Total   measure.Length
	Least   measure.Length
	Most    measure.Length
	Needle  measure.Length // of the total, through needles
	Memory  bool           // a ratio that counts is from memory
}

// ThreadFor works out the thread of seams: length × rows × ratio of the stitch class × (1 +
// waste).
//
// Source: the thread firm's bulletin named above; 42 in of 401 at 5.0 with 15 % are 6.73 yd.
func ThreadFor(seams []MadeSeam, waste measure.Percent) Thread {
	out := Thread{Waste: waste}
	for _, s := range seams {
		if s.Out {
			continue
		}
		if s.Length == 0 {
			out.Unknown = append(out.Unknown, s.Name)
			continue
		}
		class, _ := StitchOf(s.Class)
		t := SeamThread{MadeSeam: s, Stitch: class}
		if s.Ratio > 0 {
			t.Stitch.Ratio, t.Stitch.Least, t.Stitch.Most, t.Stitch.Memory = s.Ratio, s.Ratio, s.Ratio, false
		}
		run := float64(s.Length) * float64(s.Rows) * (1 + waste.Fraction())
		of := func(ratio int) measure.Length { return measure.Length(math.Round(run * float64(ratio) / 100)) }
		t.Thread, t.Least, t.Most = of(t.Stitch.Ratio), of(t.Stitch.Least), of(t.Stitch.Most)
		out.Seams = append(out.Seams, t)
		out.Total, out.Least, out.Most = out.Total+t.Thread, out.Least+t.Least, out.Most+t.Most
		out.Needle += t.Thread * measure.Length(class.Needle) / 100
		out.Memory = out.Memory || t.Stitch.Memory
	}
	return out
}
