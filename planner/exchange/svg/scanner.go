package svg

import (
	"math"
	"strconv"
)

// scanner reads the numbers of path data, point lists and transforms (SVG 1.1
// section 8.3.9): separated by spaces, a comma, or nothing where a sign or a
// second decimal point begins the next.
type scanner struct {
	text string
	at   int
}

func (s *scanner) done() bool { return s.at >= len(s.text) }

// peek returns the next byte, 0 at the end.
func (s *scanner) peek() byte {
	if s.done() {
		return 0
	}
	return s.text[s.at]
}

func (s *scanner) space() {
	for !s.done() {
		switch s.text[s.at] {
		case ' ', '\t', '\n', '\r', '\f':
			s.at++
		default:
			return
		}
	}
}

// comma passes over space with at most one comma in it.
func (s *scanner) comma() {
	s.space()
	if s.take(',') {
		s.space()
	}
}

// take passes over one byte if it is next.
func (s *scanner) take(c byte) bool {
	if s.peek() != c || c == 0 {
		return false
	}
	s.at++
	return true
}

func (s *scanner) digits() int {
	from := s.at
	for c := s.peek(); c >= '0' && c <= '9'; c = s.peek() {
		s.at++
	}
	return s.at - from
}

// number reads one number; ok is false where there is none or it is out of range.
func (s *scanner) number() (v float64, ok bool) {
	from := s.at
	if !s.take('-') {
		s.take('+')
	}
	n := s.digits()
	if s.take('.') {
		n += s.digits()
	}
	if n == 0 {
		s.at = from
		return 0, false
	}
	s.exponent()
	v, err := strconv.ParseFloat(s.text[from:s.at], 64)
	return v, err == nil && !math.IsInf(v, 0)
}

// exponent passes over e and digits; an e without digits belongs to a unit (em).
func (s *scanner) exponent() {
	from := s.at
	if !s.take('e') && !s.take('E') {
		return
	}
	if !s.take('-') {
		s.take('+')
	}
	if s.digits() == 0 {
		s.at = from
	}
}

// flag reads a 0 or 1 of an arc, which needs no separator after it.
func (s *scanner) flag() (set, ok bool) {
	switch {
	case s.take('0'):
		return false, true
	case s.take('1'):
		return true, true
	}
	return false, false
}

// shorten keeps what is quoted in a message readable.
func shorten(text string) string {
	const most = 40
	r := []rune(text)
	if len(r) <= most {
		return text
	}
	return string(r[:most]) + "…"
}
