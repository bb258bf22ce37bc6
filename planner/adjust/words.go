package adjust

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Words says a step as a person would, lengths written by write. Parse reads it back.
func (s Step) Words(write func(measure.Length) string) string {
	on := ""
	if len(s.Pieces) > 0 {
		on = " on " + strings.Join(s.Pieces, ", ")
	}
	pair := func(a, b string) string { return s.kindWord() + strings.TrimPrefix(a+b, ",") + on }
	switch s.Kind {
	case TakeIn:
		out := s.verb("take in", "let out") + " " + write(size(s.Amount))
		if s.At.Said() {
			out += " at " + s.At.words(write)
		}
		if s.Seam != "" {
			out += " along the " + s.Seam
		}
		return out + tapering(s.From, s.To, write) + on
	case Lengthen:
		return s.verb("lengthen", "shorten") + " " + write(size(s.Amount)) + " at " + s.At.words(write) + on
	case Hem:
		return s.hemWords(write) + on
	case Strap:
		return pair(moved(s.Out, write, "out", "in"), moved(s.Down, write, "down", "up"))
	case StrapLength:
		return s.kindWord() + " " + write(s.Length)
	case Neckline:
		return pair(moved(s.Out, write, "wider", "narrower"), moved(s.Down, write, "deeper", "higher"))
	case Panels:
		return s.splitWords(write)
	case Mirror:
		if s.Half == "" {
			return "open out " + strings.Join(s.Pieces, ", ")
		}
		return "mirror the " + s.Half + " half of " + strings.Join(s.Pieces, ", ")
	}
	return string(s.Kind)
}

func (s Step) kindWord() string { return string(s.Kind) }

// verb chooses by whether the amount is less than zero.
func (s Step) verb(more, less string) string {
	if s.Amount < 0 {
		return less
	}
	return more
}

func size(l measure.Length) measure.Length { return max(l, -l) }

// moved says how far something is moved: ", 1 cm out".
func moved(l measure.Length, write func(measure.Length) string, more, less string) string {
	switch {
	case l == 0:
		return ""
	case l < 0:
		more = less
	}
	return ", " + write(size(l)) + " " + more
}

// words are those of a place: "the waist", "5 cm below the waist".
func (p Place) words(write func(measure.Length) string) string {
	switch {
	case p.Below > 0:
		return write(p.Below) + " below the " + p.Level
	case p.Below < 0:
		return write(-p.Below) + " above the " + p.Level
	}
	return "the " + p.Level
}

// Words says a place as a step does.
func (p Place) Words(write func(measure.Length) string) string { return p.words(write) }

func tapering(from, to Place, write func(measure.Length) string) string {
	out := ""
	if from.Said() {
		out = "from " + from.words(write)
	}
	if to.Said() {
		out += " to " + to.words(write)
	}
	if out == "" {
		return ""
	}
	return ", " + strings.TrimSpace(out)
}

func (s Step) hemWords(write func(measure.Length) string) string {
	out := ""
	switch {
	case s.Length > 0:
		out = ", at a length of " + write(s.Length)
	case s.Amount != 0:
		out = ", " + write(size(s.Amount)) + " " + s.verb("longer", "shorter")
	}
	if s.Round > 0 {
		out += ", " + write(s.Round) + " round"
	}
	return "hem" + strings.TrimPrefix(out, ",")
}

func (s Step) splitWords(write func(measure.Length) string) string {
	out := "split " + strings.Join(s.Pieces, ", ")
	if s.At.Said() {
		return out + " across at " + s.At.words(write)
	}
	return out + " along " + LineWords(s.Line)
}

// LineWords writes a line over a pattern piece as ReadLine reads it.
func LineWords(l []shape.Point) string {
	var at []string
	for _, p := range l {
		at = append(at, tenths(p.X)+" "+tenths(p.Y))
	}
	return strings.Join(at, ", ")
}

// tenths writes thousandths as a percentage.
func tenths(v int64) string { return strconv.FormatFloat(float64(v)/10, 'f', -1, 64) }

// Examples are steps in words, one of each kind.
func Examples() []string {
	return []string{
		"take in 1 cm at the waist, from the underarm to the hip", "lengthen 3 cm at 5 cm below the waist", "hem 5 cm longer",
		"hem at a length of 95 cm, 130 cm round", "strap point 1 cm out on A", "strap length 31 cm", "neckline 1 cm wider, 2 cm deeper on A",
		"split B across at the waist", "split A along 0 40, 100 55", "mirror the left half of A", "open out A",
	}
}

// tooLong is how long a text is at most.
const tooLong = 1000

var onPieces = regexp.MustCompile(`(?i) on ([\pL\pN]+(?:\s*(?:,|\band\b)\s*[\pL\pN]+)*)\s*$`)

// Parse reads a step as a person writes it, see Examples; a bare number is in unit. What cannot
// be read is refused with how to write it.
func Parse(text string, unit measure.Unit) (Step, error) {
	text = strings.Join(strings.Fields(text), " ")
	if len(text) > tooLong {
		return Step{}, cannotRead(text[:40] + "…")
	}
	var s Step
	rest := text
	if m := onPieces.FindStringSubmatchIndex(rest); m != nil {
		s.Pieces = codes(rest[m[2]:m[3]])
		rest = rest[:m[0]]
	}
	for _, r := range readers {
		tail, ok := cutWord(rest, r.begins)
		if !ok {
			continue
		}
		s.Kind = r.kind
		if err := r.read(&s, tail, unit); err != nil {
			return Step{}, err
		}
		return s, s.Validate()
	}
	return Step{}, cannotRead(text)
}

func cannotRead(text string) error {
	return invalid(fmt.Sprintf("%q is no adjustment that can be read", text), "Write it such as: "+strings.Join(Examples()[:3], "; ")+".")
}

// codes are letters of pattern pieces.
func codes(text string) []string {
	return strings.FieldsFunc(strings.ReplaceAll(text, " and ", ","), func(r rune) bool { return r == ',' || r == ' ' })
}

// cutWord takes a beginning off, capitals aside.
func cutWord(text, begins string) (string, bool) {
	if len(text) < len(begins) || !strings.EqualFold(text[:len(begins)], begins) {
		return "", false
	}
	rest := text[len(begins):]
	if rest != "" && rest[0] != ' ' {
		return "", false
	}
	return strings.TrimSpace(rest), true
}

// readers are the beginnings of steps.
var readers = []struct {
	begins string
	kind   Kind
	read   func(*Step, string, measure.Unit) error
}{
	{"take in", TakeIn, readTakeIn},
	{"let out", TakeIn, negative(readTakeIn)},
	{"lengthen", Lengthen, readAtLine},
	{"shorten", Lengthen, negative(readAtLine)},
	{"hem", Hem, readHem},
	{"strap point", Strap, readMoved(map[string]int{"out": 1, "in": -1, "down": 2, "up": -2})},
	{"strap length", StrapLength, readStrap},
	{"neckline", Neckline, readMoved(map[string]int{"wider": 1, "narrower": -1, "deeper": 2, "higher": -2})},
	{"split", Panels, readSplit},
	{"mirror", Mirror, readMirror},
	{"open out", Mirror, readOpen},
}

func negative(read func(*Step, string, measure.Unit) error) func(*Step, string, measure.Unit) error {
	return func(s *Step, text string, unit measure.Unit) error {
		err := read(s, text, unit)
		s.Amount = -s.Amount
		return err
	}
}

func readTakeIn(s *Step, text string, unit measure.Unit) (err error) {
	head, tail, tapers := strings.Cut(text, ", ")
	head, seam, named := strings.Cut(head, " along the ")
	if named {
		s.Seam = strings.TrimSpace(seam)
	}
	amount, at, levelled := strings.Cut(head, " at ")
	if levelled {
		if s.At, err = readPlace(at, unit); err != nil {
			return err
		}
	}
	if tapers {
		if err := s.readTaper(tail, unit); err != nil {
			return err
		}
	}
	s.Amount, err = readLength(amount, unit)
	return err
}

// readTaper reads "from the underarm to the hip", or one of the two.
func (s *Step) readTaper(text string, unit measure.Unit) (err error) {
	from, to, both := strings.Cut(" "+text, " to ")
	if from, ok := cutWord(strings.TrimSpace(from), "from"); ok {
		if s.From, err = readPlace(from, unit); err != nil {
			return err
		}
	} else if strings.TrimSpace(from) != "" || !both {
		return invalid(fmt.Sprintf("%q does not say where it has tapered to nothing", text), "Write it such as: from the underarm to the hip.")
	}
	if both {
		s.To, err = readPlace(to, unit)
	}
	return err
}

func readAtLine(s *Step, text string, unit measure.Unit) (err error) {
	amount, at, ok := strings.Cut(text, " at ")
	if !ok {
		return invalid("it is not said at which line", "Write it such as: lengthen 3 cm at the waist.")
	}
	if s.At, err = readPlace(at, unit); err != nil {
		return err
	}
	s.Amount, err = readLength(amount, unit)
	return err
}

func readHem(s *Step, text string, unit measure.Unit) (err error) {
	for _, part := range strings.Split(text, ", ") {
		words := strings.Fields(part)
		if len(words) < 2 {
			return cannotRead("hem " + text)
		}
		last := strings.ToLower(words[len(words)-1])
		amount := strings.Join(words[:len(words)-1], " ")
		length, at := cutWord(part, "at a length of")
		switch {
		case at:
			s.Length, err = readLength(length, unit)
		case last == "round":
			s.Round, err = readLength(amount, unit)
		case last == "longer" || last == "shorter":
			if s.Amount, err = readLength(amount, unit); last == "shorter" {
				s.Amount = -s.Amount
			}
		default:
			return cannotRead("hem " + text)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

func readStrap(s *Step, text string, unit measure.Unit) (err error) {
	s.Length, err = readLength(text, unit)
	return err
}

// readMoved reads how far something is moved: 1 is outwards, 2 down.
func readMoved(ways map[string]int) func(*Step, string, measure.Unit) error {
	return func(s *Step, text string, unit measure.Unit) error {
		for _, part := range strings.Split(text, ", ") {
			words := strings.Fields(part)
			if len(words) < 2 {
				return cannotRead(string(s.Kind) + " " + text)
			}
			l, err := readLength(strings.Join(words[:len(words)-1], " "), unit)
			if err != nil {
				return err
			}
			switch ways[strings.ToLower(words[len(words)-1])] {
			case 1:
				s.Out = l
			case -1:
				s.Out = -l
			case 2:
				s.Down = l
			case -2:
				s.Down = -l
			default:
				return cannotRead(string(s.Kind) + " " + text)
			}
		}
		return nil
	}
}

func readSplit(s *Step, text string, unit measure.Unit) (err error) {
	if code, at, ok := strings.Cut(text, " across at "); ok {
		s.Pieces = codes(code)
		s.At, err = readPlace(at, unit)
		return err
	}
	code, along, ok := strings.Cut(text, " along ")
	if !ok {
		return cannotRead("split " + text)
	}
	s.Pieces = codes(code)
	s.Line, err = ReadLine(along)
	return err
}

// ReadLine reads a line drawn over a pattern piece: of each point how far down and how far out it
// lies, in percent, "0 40, 100 55".
func ReadLine(text string) ([]shape.Point, error) {
	var out []shape.Point
	for _, part := range strings.Split(text, ",") {
		var v []int64
		for _, w := range strings.Fields(part) {
			f, err := strconv.ParseFloat(strings.TrimSuffix(w, "%"), 64)
			if err != nil || f < -20 || f > 120 {
				return nil, badLine(part)
			}
			v = append(v, int64(f*10+1000.5)-1000)
		}
		if len(v) != 2 {
			return nil, badLine(part)
		}
		out = append(out, shape.Point{X: v[0], Y: v[1]})
	}
	return out, nil
}

func badLine(part string) error {
	return invalid(fmt.Sprintf("%q is no point of a line", strings.TrimSpace(part)), "Write of each point how far down and how far out it lies, in percent: 0 40, 100 55.")
}

func readMirror(s *Step, text string, _ measure.Unit) error {
	text, _ = cutWord(text, "the")
	half, code, ok := strings.Cut(text, " half of ")
	if !ok {
		return cannotRead("mirror " + text)
	}
	s.Half, s.Pieces = strings.ToLower(half), codes(code)
	return nil
}

func readOpen(s *Step, text string, _ measure.Unit) error {
	s.Pieces = codes(text)
	return nil
}

// readPlace reads "the waist" or "5 cm below the waist".
func readPlace(text string, unit measure.Unit) (Place, error) {
	words := strings.Fields(strings.ToLower(text))
	if len(words) == 0 {
		return Place{}, Place{Level: text}.validate()
	}
	p := Place{Level: words[len(words)-1]}
	words = words[:len(words)-1]
	if n := len(words); n > 0 && words[n-1] == "the" {
		words = words[:n-1]
	}
	if n := len(words); n > 0 {
		way := words[n-1]
		l, err := readLength(strings.Join(words[:n-1], " "), unit)
		if err != nil || !slices.Contains([]string{"below", "above"}, way) {
			return p, invalid(fmt.Sprintf("%q is no place on a garment", text), "Write it such as: the waist, or 5 cm below the waist.")
		}
		if p.Below = l; way == "above" {
			p.Below = -l
		}
	}
	return p, p.validate()
}

// ReadPlace reads a place as a step names it.
func ReadPlace(text string, unit measure.Unit) (Place, error) { return readPlace(text, unit) }

func readLength(text string, unit measure.Unit) (measure.Length, error) {
	l, err := measure.ParsePositiveLength(text, unit)
	if err != nil {
		return 0, invalid(fmt.Sprintf("%q is not a length", text), "Write it such as 1 cm or 1/2 in.")
	}
	return l, nil
}
