package dxf_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/exchange/dxf"
	"tallycloth/stash"
)

// TestRefused: each is refused with both sentences.
func TestRefused(t *testing.T) {
	deep := block("B0", line("1", 0, 0, 9, 9))
	for i := 1; i < 80; i++ {
		deep += block(fmt.Sprint("B", i), fmt.Sprintf("0 INSERT;2 B%d;", i-1))
	}
	bomb := block("C0", line("1", 0, 0, 9, 9))
	for i := 1; i < 9; i++ {
		bomb += block(fmt.Sprint("C", i), strings.Repeat(fmt.Sprintf("0 INSERT;2 C%d;", i-1), 10))
	}
	for name, c := range map[string]struct{ text, words string }{
		"empty":            {"", "empty"},
		"a list":           {"elastic\nthread\n", "not DXF"},
		"no section":       {"0\nEOF\n", "no section"},
		"binary":           {"Any Binary DXF\r\n\x1a\x00", "binary DXF"},
		"a DWG":            {"AC1032\x00\x00", "DWG"},
		"a PDF":            {"%PDF-1.7", "PDF"},
		"damaged":          {"0\nSECTION\n2\nENTITIES\nline\n", "damaged at line 5"},
		"a bad number":     {pairs(section("ENTITIES", "0 LINE;10 12a")), "damaged"},
		"not a number":     {pairs(section("ENTITIES", "0 LINE;10 NaN")), "damaged"},
		"a long line":      {"0\nSECTION\n2\n" + strings.Repeat("x", 70<<10), "damaged"},
		"contains itself":  {string(file(block("A", "0 INSERT;2 A;"), "0 INSERT;2 a;")), "contains itself"},
		"a ring of blocks": {string(file(block("A", "0 INSERT;2 B;")+block("B", "0 INSERT;2 A;"), "0 INSERT;2 A;")), "contains itself"},
		"deep":             {string(file(deep, "0 INSERT;2 B79;")), "deep"},
		"ten million":      {string(file(bomb, "0 INSERT;2 C8;")), "objects"},
		"an array":         {string(file(block("A", line("1", 0, 0, 9, 9)), "0 INSERT;2 A;70 30000;71 30000;")), "objects"},
		"an empty array":   {string(file(block("A", ""), "0 INSERT;2 A;70 30000;71 30000;")), "objects"},
		"a vast circle":    {string(file("", "0 CIRCLE;10 0;20 0;40 1e12;")), "points"},
		"many notches":     {string(file(block("A", words("PIECE NAME: A")+poly("1", 0, 0, 300, 0, 300, 200)+strings.Repeat(point("4", 5, 5), 20_000)), "")), "too many marks"},
		"many pieces":      {string(file(strings.Repeat(block("A", words("PIECE NAME: A")), 5001), "")), "5000 pattern pieces"},
		"no unit":          {pairs(section("ENTITIES", line("0", 0, 0, 9, 9))), "names no unit"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := dxf.Read(context.Background(), strings.NewReader(c.text), dxf.Options{})
			var e *stash.Error
			if !errors.As(err, &e) || e.Do == "" || !strings.Contains(e.What, c.words) {
				t.Errorf("%v", err)
			}
			if (name == "no unit") != errors.Is(err, drawn.ErrNoUnits) {
				t.Errorf("is it asked for the unit? %v", err)
			}
		})
	}
}

// endless gives the same bytes again and again, and counts them.
type endless struct {
	head, again string
	read        int64
}

func (e *endless) Read(p []byte) (int, error) {
	n := copy(p, e.head)
	e.head = e.head[n:]
	for n < len(p) {
		n += copy(p[n:], e.again)
	}
	e.read += int64(n)
	return n, nil
}

// TestHugeFiles are refused at the limit, those that say their size before they are read.
func TestHugeFiles(t *testing.T) {
	for name, again := range map[string]string{"remarks": "999\nx\n", "layers": "8\n1\n", "points": "0\nPOINT\n", "vertices": "10\n1\n20\n1\n"} {
		e := &endless{head: "0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n", again: again}
		_, err := dxf.Read(context.Background(), e, dxf.Options{Limits: drawn.Limits{Bytes: 4 << 20, Elements: 10_000, Points: 10_000}})
		if !errors.Is(err, &stash.Error{Kind: stash.Unsupported}) || e.read > 5<<20 {
			t.Errorf("%s: %v after %d bytes", name, err, e.read)
		}
	}
	name := filepath.Join(t.TempDir(), "huge.dxf")
	if err := os.WriteFile(name, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(name, 200<<20); err != nil {
		t.Fatal(err)
	}
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if _, err := dxf.Read(context.Background(), f, dxf.Options{}); err == nil || !strings.Contains(err.Error(), "50 MB") {
		t.Errorf("200 MB: %v", err)
	}
	if at, _ := f.Seek(0, io.SeekCurrent); at != 0 {
		t.Errorf("%d bytes of it were read", at)
	}
}

type broken struct{ io.Reader }

func (b broken) Read(p []byte) (int, error) {
	n, err := b.Reader.Read(p)
	if err == io.EOF {
		err = io.ErrNoProgress
	}
	return n, err
}

func TestReaderAndContextThatEnd(t *testing.T) {
	text := file("", poly("0", 0, 0, 300, 0, 300, 200))
	if _, err := dxf.Read(context.Background(), broken{bytes.NewReader(text[:len(text)-20])}, dxf.Options{}); !errors.Is(err, io.ErrNoProgress) {
		t.Errorf("%v", err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := dxf.Read(ctx, bytes.NewReader(text), dxf.Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
	d := read(t, bytes.TrimSuffix(text, []byte(pairs("0 ENDSEC;0 EOF"))), dxf.Options{})
	if len(d.Shapes) != 1 || !told(d, "breaks off") {
		t.Errorf("%+v", d)
	}
}

// full fails after so many bytes.
type full struct{ left int }

func (f *full) Write(p []byte) (int, error) {
	if f.left -= len(p); f.left < 0 {
		return 0, io.ErrShortWrite
	}
	return len(p), nil
}

func TestWriterThatFails(t *testing.T) {
	if err := dxf.WritePattern(&full{1000}, demo()[0], drawn.Part{}); !errors.Is(err, io.ErrShortWrite) {
		t.Errorf("%v", err)
	}
}
