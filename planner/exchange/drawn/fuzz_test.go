package drawn_test

import (
	"context"
	"encoding/binary"
	"reflect"
	"testing"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/pattern"
)

// FuzzParseRows: what is read of rows of pages is written and read again the same.
func FuzzParseRows(f *testing.F) {
	for _, s := range []string{"1 2 3 / 4 5 -", "2,3\n4", "", "0", " - ;9999", "–/1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		rows, err := drawn.ParseRows(text)
		if err != nil {
			return
		}
		if again, err := drawn.ParseRows(drawn.FormatRows(rows)); err != nil || !reflect.DeepEqual(again, rows) {
			t.Fatalf("%v, then %v (%v)", rows, again, err)
		}
	})
}

// FuzzMarks: whatever lines lie on and beside a piece, what is made of them is a pattern, with every
// mark taken and with none.
func FuzzMarks(f *testing.F) {
	f.Add([]byte{0, 0, 100, 0, 60, 0, 100, 0, 255, 255, 1, 0, 0, 0, 50, 6, 0, 50})
	f.Add([]byte{1, 200, 100, 194, 103, 200, 106, 255, 255, 0, 50, 20, 50, 200, 255, 255, 0, 44, 28, 50, 20, 56, 28})
	f.Fuzz(func(t *testing.T, raw []byte) {
		c := drawn.Collector{Limits: drawn.Limits{Outline: 500}}
		s := sheet()
		c.Add(s.pts, true, drawn.Found{})
		if len(raw) > 600 {
			raw = raw[:600]
		}
		var pts []drawn.Place
		object, shut := 1, false
		flush := func() {
			c.Add(pts, shut, drawn.Found{Object: object})
			pts, shut, object = nil, !shut, object+1
		}
		for ; len(raw) >= 4; raw = raw[4:] {
			x, y := binary.LittleEndian.Uint16(raw), binary.LittleEndian.Uint16(raw[2:])
			if x == 0xffff {
				flush()
				continue
			}
			pts = append(pts, drawn.Place{X: float64(x)/200 - 20, Y: float64(y)/200 - 20})
		}
		flush()
		d, err := c.Finish(context.Background(), drawn.Scale{Unit: 1})
		if err != nil {
			t.Fatal(err)
		}
		_, marks, _ := d.MarkedPattern(drawn.Choice{Smallest: 1})
		plain := map[drawn.MarkName]bool{}
		for i, m := range marks {
			plain[m.MarkName] = i%2 == 0
		}
		for _, choice := range []drawn.Choice{{Smallest: 1}, {Smallest: 1, Plain: plain}, {Smallest: 1, OnlyLines: true}} {
			p, _, _ := d.MarkedPattern(choice)
			p.Name = "fuzz"
			if len(p.Pieces) == 0 {
				continue
			}
			if err := p.Validate(); err != nil {
				t.Fatal(err)
			}
			if p.Pieces[0].Role != pattern.Main {
				t.Fatal("no use of fabric")
			}
		}
	})
}
