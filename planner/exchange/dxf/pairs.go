package dxf

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"

	"tallycloth/planner/exchange/drawn"
)

const saveAgain = "Open it in the program that made it and save it again as text DXF."

// pairs reads group codes with their values, two lines each.
type pairs struct {
	ctx   context.Context
	lim   drawn.Limits
	r     *bufio.Reader
	line  int
	code  int
	value []byte // until the next pair is read
	again bool   // the pair comes once more
	ended bool   // there is nothing more
	names map[string]string
}

// next reads a pair; at the end of the file it is the end mark, code 0 and EOF.
func (p *pairs) next() error {
	if p.again {
		p.again = false
		return nil
	}
	for {
		if p.line&0x1fff == 0 && p.ctx.Err() != nil {
			return fmt.Errorf("reading the drawing: %w", p.ctx.Err())
		}
		code, err := p.read()
		if errors.Is(err, io.EOF) {
			p.code, p.value, p.ended = 0, []byte("EOF"), true
			return nil
		}
		if err != nil {
			return err
		}
		n, ok := whole(bytes.TrimSpace(code))
		if !ok {
			return p.damaged()
		}
		p.code = n
		p.value, err = p.read()
		if errors.Is(err, io.EOF) {
			p.value, err = nil, nil
		}
		if err != nil {
			return err
		}
		if n != 999 { // a remark
			return nil
		}
	}
}

// read reads a line without its end.
func (p *pairs) read() ([]byte, error) {
	b, err := p.r.ReadSlice('\n')
	switch {
	case err == nil, errors.Is(err, io.EOF) && len(b) > 0:
		p.line++
		return bytes.TrimRight(b, "\r\n"), nil
	case errors.Is(err, io.EOF):
		return nil, io.EOF
	case errors.Is(err, bufio.ErrBufferFull):
		p.line++
		return nil, p.damaged()
	case errors.Is(err, drawn.ErrBytes):
		return nil, p.lim.TooLarge()
	}
	return nil, fmt.Errorf("reading the drawing: %w", err)
}

func (p *pairs) damaged() error {
	return drawn.Unsupported(fmt.Sprintf("the DXF is damaged at line %d", p.line), saveAgain)
}

// back gives the pair once more.
func (p *pairs) back() { p.again = true }

func whole(b []byte) (int, bool) {
	if len(b) == 0 || len(b) > 10 {
		return 0, false
	}
	n, sign := 0, 1
	for i, c := range b {
		switch {
		case c >= '0' && c <= '9':
			n = n*10 + int(c-'0')
		case i == 0 && (c == '-' || c == '+') && len(b) > 1:
			if c == '-' {
				sign = -1
			}
		default:
			return 0, false
		}
	}
	return sign * n, true
}

// most is the largest number that a drawing may hold: far beyond any cloth in any unit.
const most = 1e12

// number reads the value as a number.
func (p *pairs) number() (float64, error) {
	v, err := strconv.ParseFloat(string(bytes.TrimSpace(p.value)), 64)
	if err != nil || math.IsNaN(v) || math.Abs(v) > most {
		return 0, p.damaged()
	}
	return v, nil
}

// integer reads the value as a whole number.
func (p *pairs) integer() (int, error) {
	n, ok := whole(bytes.TrimSpace(p.value))
	if !ok {
		return 0, p.damaged()
	}
	return n, nil
}

// name reads the value as a name that comes often.
func (p *pairs) name() string {
	if s, ok := p.names[string(p.value)]; ok {
		return s
	}
	s := string(bytes.TrimSpace(p.value))
	if len(p.names) < 10_000 {
		p.names[string(p.value)] = s
	}
	return s
}
