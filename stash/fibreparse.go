package stash

import (
	"cmp"
	"slices"
	"strings"
	"unicode"

	"tallycloth/stash/measure"
)

// longestFibres is the longest text that is read as fibre content.
const longestFibres = 400

// OtherFibres is the name for constituents that are not named one by one:
// Regulation (EU) No 1007/2011, article 9(2); 16 CFR 303.42.
const OtherFibres = "other fibres"

// fibreNames gives for each name of Regulation (EU) No 1007/2011, annex I, that
// apparel fabrics have, the names it goes by elsewhere: generic names of 16 CFR
// part 303 and ISO 2076, and words on labels of the trade in other languages. The
// pairs are from memory, except lyocell, elasterell-p and lastol, which the Federal
// Register names as subclasses (61 FR 16385, 67 FR 70835, 68 FR 3813).
var fibreNames = map[string][]string{
	"wool":             {"virgin wool", "merino", "merino wool", "wolle", "schurwolle", "laine", "lana"},
	"cashmere":         {"kaschmir", "cachemire"},
	"alpaca":           {"alpaka"},
	"mohair":           nil,
	"angora":           nil,
	"silk":             {"seide", "soie", "seta", "seda"},
	"cotton":           {"organic cotton", "pima cotton", "baumwolle", "coton", "cotone", "algodon", "algodón", "katoen", "bomuld", "bomull", "co"},
	"linen":            {"flax", "leinen", "lin", "lino"},
	"true hemp":        {"hemp", "hanf", "chanvre"},
	"ramie":            nil,
	"jute":             nil,
	"acetate":          {"acetat", "acétate"},
	"cupro":            {"cuprammonium"},
	"modal":            {"micromodal"},
	"triacetate":       nil,
	"viscose":          {"rayon", "viscose rayon", "viskose", "viscosa", "bamboo viscose", "viscose from bamboo", "rayon from bamboo", "cv"},
	"acrylic":          {"acryl", "polyacryl", "acrylique", "pan"},
	"modacrylic":       nil,
	"polyamide":        {"nylon", "polyamid", "poliammide", "poliamida", "pa"},
	"lyocell":          nil,
	"polylactide":      {"pla"},
	"polyester":        {"recycled polyester", "poliestere", "poliéster", "pes", "pl"},
	"polyethylene":     nil,
	"polypropylene":    {"olefin", "polypropylen"},
	"polyurethane":     {"polyurethan", "pu"},
	"elastane":         {"spandex", "elasthan", "élasthanne", "elasthanne", "elastan", "elastam", "elastano", "ea", "el"},
	"elastodiene":      {"rubber", "latex"},
	"elastomultiester": {"elasterell-p", "elasterell p"},
	"elastolefin":      {"lastol"},
	"metallised fibre": {"metallic", "metallic fiber", "metal"},
	"protein":          {"azlon"},
	OtherFibres:        {"other fibers", "other fiber", "other fibre", "others", "other", "sonstige fasern", "autres fibres"},
}

// fibreByName finds the name in fibreNames by any of its names.
var fibreByName = func() map[string]string {
	out := map[string]string{}
	for name, also := range fibreNames {
		out[name] = name
		for _, a := range also {
			out[a] = name
		}
	}
	return out
}()

// FibreName returns the name of Regulation (EU) No 1007/2011 for a fibre by any
// name it goes by ("spandex" is elastane, "rayon" viscose); ok is false for an
// unknown one.
func FibreName(text string) (name string, ok bool) {
	name, ok = fibreByName[strings.Join(strings.Fields(strings.ToLower(text)), " ")]
	return name, ok
}

// ParseFibres reads fibre content as labels write it: "95% cotton 5% elastane",
// "cotton 95, spandex 5", "100 % Baumwolle", "cotton" alone, "60/40 cotton/linen".
// Names become those of Regulation (EU) No 1007/2011, the largest share comes
// first, a fibre named twice is added up. An empty text is nil: not known.
//
// The error is an *Error of kind Invalid: a share that is no number, a fibre that is
// not known, or shares that do not reach 100 %, saying what is missing.
func ParseFibres(text string) (Fibres, error) {
	if len(text) > longestFibres {
		return nil, invalid("Write it as 95% cotton 5% elastane", "The text is too long to be fibre content")
	}
	shares, names, err := fibreWords(text)
	if err != nil || len(shares)+len(names) == 0 {
		return nil, err
	}
	if len(names) == 1 && len(shares) == 0 {
		shares = append(shares, whole)
	}
	if len(shares) != len(names) {
		return nil, invalid("Write it as 95% cotton 5% elastane", "Every fibre needs a share and every share a fibre")
	}
	return gather(shares, names)
}

// gather puts shares and names together, the largest share first, as long as they
// reach 100 %.
func gather(shares []measure.Percent, names []string) (Fibres, error) {
	var out Fibres
	for i, n := range names {
		at := slices.IndexFunc(out, func(f Fibre) bool { return f.Name == n })
		if at < 0 {
			out = append(out, Fibre{Name: n})
			at = len(out) - 1
		}
		out[at].Share += shares[i]
	}
	slices.SortStableFunc(out, func(a, b Fibre) int {
		return cmp.Or(FalseFirst(a.Name == OtherFibres, b.Name == OtherFibres), cmp.Compare(b.Share, a.Share))
	})
	if err := out.Validate(); err != nil {
		return nil, err
	}
	return out, nil
}

// fibreWords parts a text into its shares and its fibre names, each in order.
func fibreWords(text string) (shares []measure.Percent, names []string, err error) {
	for _, run := range fibreRuns(text) {
		if first := rune(run[0]); first >= '0' && first <= '9' || first == '-' {
			p, err := measure.ParsePercent(run)
			if err != nil {
				return nil, nil, &Error{Kind: Invalid, What: "A share of the fibre content is not a percent", Do: "Write it as 95% cotton 5% elastane", Err: err}
			}
			shares = append(shares, p)
			continue
		}
		found, unknown := knownFibres(run)
		if unknown != "" {
			return nil, nil, invalid("Use the name on the label, or write it as other fibres", "%q is not a fibre this program knows", unknown)
		}
		names = append(names, found...)
	}
	return shares, names, nil
}

// fibreRuns splits a text into runs of digits and runs of words. Separators between
// fibres end a run of words; a comma or point between digits is a decimal sign.
func fibreRuns(text string) []string {
	var out []string
	rs := []rune(strings.ToLower(text))
	for i := 0; i < len(rs); {
		c, j := rs[i], i+1
		switch {
		case ascii(c) || c == '-' && j < len(rs) && ascii(rs[j]) && (i == 0 || !ascii(rs[i-1])):
			for j < len(rs) && (ascii(rs[j]) || (rs[j] == '.' || rs[j] == ',') && j+1 < len(rs) && ascii(rs[j+1])) {
				j++
			}
			out = append(out, string(rs[i:j]))
		case unicode.IsLetter(c):
			for j < len(rs) && (unicode.IsLetter(rs[j]) || rs[j] == ' ' || rs[j] == '-') {
				j++
			}
			out = append(out, strings.Join(strings.Fields(string(rs[i:j])), " "))
		case !strings.ContainsRune(" \t\n\r\u00a0%,.;:/+&()|-", c):
			out = append(out, string(c))
		}
		i = j
	}
	return out
}

func ascii(c rune) bool { return c >= '0' && c <= '9' }

// fillers are words between fibres that say nothing.
var fillers = map[string]bool{"and": true, "und": true, "et": true, "e": true, "with": true, "mit": true, "percent": true, "pct": true, "of": true, "-": true}

// knownFibres reads a run of words as one or more fibre names, the longest name
// first at each place; unknown is what it could not read, or "".
func knownFibres(run string) (names []string, unknown string) {
	words := strings.Fields(run)
	for len(words) > 0 {
		n := longestName(words)
		switch {
		case n > 0:
			name, _ := FibreName(strings.Join(words[:n], " "))
			names = append(names, name)
		case fillers[words[0]]:
			n = 1
		default:
			return nil, strings.Join(words, " ")
		}
		words = words[n:]
	}
	return names, ""
}

// longestName returns how many words at the front name one fibre, 0 for none.
func longestName(words []string) int {
	for n := min(len(words), 4); n > 0; n-- {
		if _, ok := FibreName(strings.Join(words[:n], " ")); ok {
			return n
		}
	}
	return 0
}

// Share returns the share of one fibre, by any of its names; 0 for none.
func (f Fibres) Share(name string) measure.Percent {
	name, ok := FibreName(name)
	if !ok {
		return 0
	}
	var s measure.Percent
	for _, x := range f {
		if x.Name == name {
			s += x.Share
		}
	}
	return s
}
