package binding

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"tallycloth/stash/measure"
)

// mostEdgeWords is how long the words of an edge may be, mostParts how many parts it has.
const mostEdgeWords, mostParts = 2000, 60

// ParseEdge reads an edge in words: its name, how many of it, its parts in order with their length,
// whether they turn, lie free, and what mark follows, and "ring" where it is closed:
//
//	neck: 62 cm turns 360, ring
//	armhole x2: back 20 cm turns 52 mark side seam, front 22 cm turns 92 catches neck, strap 16 cm free
//
// A turn below zero is an outside curve. A part may say "no join", "join here" (at its end) and a ratio,
// "at 88 %". Words without a colon are one part without a name. bare is the unit of plain
// numbers. Errors name the words that were not understood.
func ParseEdge(text string, bare measure.Unit) (Job, error) {
	if len(text) > mostEdgeWords {
		return Job{}, invalid("the edge is too long to be read", "Give its parts with their lengths alone.")
	}
	j := Job{Name: "edge", Count: 1}
	head, parts, ok := strings.Cut(text, ":")
	if !ok {
		head, parts = "", text
	}
	if name, count, many := strings.Cut(head, " x"); many {
		n, err := strconv.Atoi(strings.TrimSpace(count))
		if err != nil || n < 1 || n > mostCount {
			return Job{}, invalid(fmt.Sprintf("%q is no number of strips", strings.TrimSpace(count)), "Write for instance: armhole x2: 42 cm.")
		}
		head, j.Count = name, n
	}
	if head = strings.TrimSpace(head); head != "" {
		j.Name = head
	}
	for _, words := range splitParts(parts) {
		if words = strings.TrimSpace(words); strings.EqualFold(words, "ring") {
			j.Closed = true
			continue
		}
		s, err := parsePart(words, bare)
		if err != nil {
			return Job{}, err
		}
		if s.Name == "" {
			s.Name = j.Name
		}
		j.Segments = append(j.Segments, s)
	}
	if len(j.Segments) == 0 || len(j.Segments) > mostParts {
		return Job{}, invalid(fmt.Sprintf("the edge has %d parts", len(j.Segments)), "Write for instance: neck: back 21 cm turns 74, front 34 cm turns 166.")
	}
	return j, nil
}

// splitParts parts words at commas, but not at the comma of a decimal number.
func splitParts(text string) []string {
	var out []string
	from := 0
	for i := range len(text) {
		digits := i > 0 && i+1 < len(text) && isDigit(text[i-1]) && isDigit(text[i+1])
		if text[i] == ',' && !digits {
			out, from = append(out, text[from:i]), i+1
		}
	}
	return append(out, text[from:])
}

func isDigit(b byte) bool { return b >= '0' && b <= '9' }

// partWords are the words that begin what is said of a part.
var partWords = []string{"turns", "mark", "catches", "at", "free", "no join", "join here"}

// parsePart reads one part: name, length, then what is said of it.
func parsePart(words string, bare measure.Unit) (Segment, error) {
	var s Segment
	fields := strings.Fields(words)
	from := 0
	for from < len(fields) && !strings.ContainsAny(fields[from][:1], "0123456789.½¼¾⅛⅜⅝⅞⅓⅔") {
		from++
	}
	s.Name = strings.Join(fields[:from], " ")
	rest := strings.Join(fields[from:], " ")
	length, said := rest, ""
	for _, w := range partWords {
		if i := strings.Index(length+" ", " "+w+" "); i >= 0 {
			length, said = rest[:i], strings.TrimSpace(rest[i:])
		}
	}
	l, err := measure.ParsePositiveLength(length, bare)
	if err != nil {
		return s, invalid(fmt.Sprintf("%q has no length", words), "Write for instance: front 34 cm turns 166.")
	}
	s.Length = l
	for said != "" {
		word, value := said, ""
		next := len(said)
		for _, w := range partWords {
			if strings.HasPrefix(said+" ", w+" ") {
				word = w
			}
		}
		for _, w := range partWords {
			if i := strings.Index(said[min(len(word), len(said)):]+" ", " "+w+" "); i >= 0 {
				next = min(next, len(word)+i)
			}
		}
		value = strings.TrimSpace(said[min(len(word), len(said)):next])
		if err := s.say(word, value); err != nil {
			return s, err
		}
		said = strings.TrimSpace(said[next:])
	}
	return s, nil
}

// say takes one thing that is said of a part.
func (s *Segment) say(word, value string) error {
	bad := invalid(fmt.Sprintf("%q is not understood", strings.TrimSpace(word+" "+value)), "Say of a part: turns 90, free, mark side seam, catches neck, no join, join here, at 88 %.")
	flag := map[string]*bool{"free": &s.Free, "no join": &s.NoJoin, "join here": &s.JoinHere}[word]
	switch {
	case flag != nil && value == "":
		*flag = true
	case flag != nil:
		return bad
	case word == "mark" && value != "":
		s.Mark = value
	case word == "catches" && value != "":
		s.Catches = value
	case word == "turns":
		d, err := strconv.ParseFloat(strings.TrimSuffix(value, "°"), 64)
		if err != nil || !between(d, -720, 720) {
			return bad
		}
		s.Turning = d * math.Pi / 180
	case word == "at":
		p, err := measure.ParsePercent(value)
		if err != nil || p <= 0 {
			return bad
		}
		s.Ratio = p.Fraction()
	default:
		return bad
	}
	return nil
}

// corner is how far an edge turns at one point to be a corner, where it is split: 40°
// (ours; points drawn along a curve lie closer to each other than that).
const corner = 40 * math.Pi / 180

// EdgeAlong returns the parts of an edge drawn by points in order, x and y in µm: split at corners, each
// as long as its line and turning as far as that does in all. The garment lies on the right of the line
// as it is drawn with y upwards, so that a turn to the left is a neckline's. A closed line comes back
// to its first point; a corner there parts it too. Errors: fewer than two points.
func EdgeAlong(points [][2]float64, closed bool) ([]Segment, error) {
	var p [][2]float64
	for _, q := range points {
		if n := len(p); n == 0 || math.Hypot(q[0]-p[n-1][0], q[1]-p[n-1][1]) >= 1 {
			p = append(p, q)
		}
	}
	if closed && len(p) > 2 {
		p = append(p, p[0], p[1])
	}
	if len(p) < 2 {
		return nil, invalid("the edge has no length", "Draw it with two points at least.")
	}
	var out []Segment
	length, turned := 0.0, 0.0
	end := func() {
		if length > 0 {
			out = append(out, Segment{Name: fmt.Sprintf("part %d", len(out)+1), Length: rounded(length), Turning: turned})
		}
		length, turned = 0, 0
	}
	for i := 1; i < len(p); i++ {
		if closed && i == len(p)-1 {
			break
		}
		length += math.Hypot(p[i][0]-p[i-1][0], p[i][1]-p[i-1][1])
		if i+1 == len(p) {
			break
		}
		by := math.Remainder(direction(p[i], p[i+1])-direction(p[i-1], p[i]), 2*math.Pi)
		if math.Abs(by) > corner {
			end()
			continue
		}
		turned += by
	}
	end()
	return out, nil
}

func direction(a, b [2]float64) float64 { return math.Atan2(b[1]-a[1], b[0]-a[0]) }
