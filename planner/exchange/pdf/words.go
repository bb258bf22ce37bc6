package pdf

import (
	"math"
	"strings"

	"tallycloth/planner/exchange/drawn"
)

// writing is the state of text (ISO 32000-1, 9.3 and 9.4); it is saved and brought back with the rest.
type writing struct {
	font                                   *font
	size, letters, words, wide, lead, rise float64
	at, line                               matrix
}

// wordOn is what is written in one line of a page, in mm.
type wordOn struct {
	text     string
	from, to drawn.Place
	height   float64
	layer    string
}

var still = matrix{1, 0, 0, 1, 0, 0}

// write carries the operators of text out.
func (p *painter) write(op string) {
	t := &p.state.text
	v, ok := p.numbers(map[string]int{"Tm": 6, "Td": 2, "TD": 2, "Tf": 1, "Tc": 1, "Tw": 1, "Tz": 1, "TL": 1, "Ts": 1}[op])
	if !ok {
		return
	}
	switch op {
	case "BT":
		t.at, t.line = still, still
	case "Tf":
		t.size = p.args[len(p.args)-1].value
		t.font = p.fontOf(p.lastName())
	case "Tc":
		t.letters = v[0]
	case "Tw":
		t.words = v[0]
	case "Tz":
		t.wide = v[0]/100 - 1
	case "TL":
		t.lead = v[0]
	case "Ts":
		t.rise = v[0]
	case "Tm":
		t.at, t.line = matrix(v), matrix(v)
	case "TD":
		t.lead = -v[1]
		fallthrough
	case "Td":
		p.nextLine(v[0], v[1])
	case "T*":
		p.nextLine(0, -t.lead)
	}
}

func (p *painter) nextLine(x, y float64) {
	t := &p.state.text
	t.line = t.line.after(matrix{1, 0, 0, 1, x, y})
	t.at = t.line
}

// show writes the strings of an operator that shows text.
func (p *painter) show(op string) {
	p.page.Words++
	t := &p.state.text
	switch op {
	case "'":
		p.nextLine(0, -t.lead)
	case "\"":
		if len(p.args) > 2 {
			t.words, t.letters = p.args[0].value, p.args[1].value
		}
		p.nextLine(0, -t.lead)
	}
	for _, a := range p.args {
		switch a.kind {
		case text:
			p.letters(a.text)
		case number:
			if op == "TJ" {
				p.move(-a.value / 1000 * t.size * (1 + t.wide))
			}
		}
	}
}

func (p *painter) move(by float64) {
	t := &p.state.text
	if m := t.at.after(matrix{1, 0, 0, 1, by, 0}); m.finite() {
		t.at = m
	}
}

// letters writes a string: it goes on with the line before where it begins at its end.
func (p *painter) letters(s string) {
	t := &p.state.text
	if t.font == nil {
		p.unread()
		return
	}
	m := p.state.m.after(t.at)
	from := m.apply(0, t.rise)
	height := math.Abs(t.size) * m.scale()
	var b strings.Builder
	known := true
	t.font.read(s, func(letters string, space bool, wide float64) {
		known = known && (letters != "" || space)
		b.WriteString(letters)
		by := wide/1000*t.size + t.letters
		if space {
			by += t.words
		}
		p.move(by * (1 + t.wide))
	})
	if !known {
		p.unread()
	}
	to := p.state.m.after(t.at).apply(0, t.rise)
	if b.Len() == 0 || !(height > 0) || math.IsInf(height, 0) || !p.state.clip.holds(box{from.X, from.Y, from.X, from.Y}) {
		return
	}
	p.join(wordOn{text: b.String(), from: from, to: to, height: height, layer: p.layer()})
}

// unread counts writing whose letters the file does not name.
func (p *painter) unread() { p.page.unread++ }

// mostWords are kept of a page, mostLetters of a line.
const (
	mostWords   = 3_000
	mostLetters = 300
)

// join adds a word to the line before, or begins another line.
func (p *painter) join(w wordOn) {
	if n := len(p.page.words); n > 0 {
		l := &p.page.words[n-1]
		dx, dy := w.from.X-l.to.X, w.from.Y-l.to.Y
		if gap := math.Hypot(dx, dy); gap < 0.8*w.height && math.Abs(l.height-w.height) < 0.1*w.height && l.layer == w.layer && !l.below(w) && len(l.text) < mostLetters {
			if gap > 0.15*w.height && !strings.HasSuffix(l.text, " ") {
				l.text += " "
			}
			l.text, l.to = l.text+w.text, w.to
			return
		}
	}
	if len(p.page.words) < mostWords {
		p.page.words = append(p.page.words, w)
	}
}

// below says whether a word stands off the line.
func (l *wordOn) below(w wordOn) bool {
	dx, dy := l.to.X-l.from.X, l.to.Y-l.from.Y
	long := math.Hypot(dx, dy)
	if long == 0 {
		return false
	}
	return math.Abs((w.from.X-l.to.X)*dy-(w.from.Y-l.to.Y)*dx)/long > 0.25*w.height
}

// write hands the words of a page in its place over; those outside the part of it that is used are not
// seen.
func (l *laying) write(p Page, used box, x, y float64) {
	for _, w := range p.words {
		if used.holds(box{w.from.X, w.from.Y, w.from.X, w.from.Y}) {
			at := func(q drawn.Place) drawn.Place {
				return drawn.Place{X: (q.X + x) * l.factor, Y: (q.Y + y) * l.factor}
			}
			w.from, w.to, w.height = at(w.from), at(w.to), w.height*l.factor
			l.words = append(l.words, w)
		}
	}
}
