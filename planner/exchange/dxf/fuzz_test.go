package dxf_test

import (
	"bytes"
	"context"
	"errors"
	"testing"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/exchange/dxf"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
)

// FuzzRead: whatever comes in, there is an answer within the limits: a *stash.Error with
// both sentences, or a drawing whose usable outlines are valid; a pattern that the file
// describes is written and read back the same.
func FuzzRead(f *testing.F) {
	square := poly("1", 0, 0, 300, 0, 300, 200, 0, 200)
	for _, text := range [][]byte{
		file(block("A", words("PIECE NAME: Front")+words("SIZE: 8")+words("QUANTITY: 1,1")+words("ANNOTATION: grain on the bias")+square+point("4", 100, 0)+point("4", 105, 0)+
			line("7", 10, 10, 90, 90)+line("6", 0, 0, 300, 0)+point("13", 9, 9)+line("14", 1, 1, 5, 5)+"0 TEXT;8 14;10 1;20 1;1 EDGE: hem;"), "0 INSERT;2 A;41 2;50 90;"+words("UNITS: ENGLISH")),
		file(block("P", square), "0 INSERT;2 P;70 2;71 2;44 500;45 300;210 0;220 0;230 -1;"+"0 ARC;8 x;10 0;20 0;40 50;50 0;51 180;"+line("x", -50, 0, 50, 0)),
		file("", "0 SPLINE;70 0;71 2;40 0;40 0;40 0;40 1;40 1;40 1;10 0;20 0;10 50;20 80;10 100;20 0;0 ELLIPSE;10 0;20 0;11 90;21 5;40 .5;41 0;42 6.283;0 POLYLINE;70 1;0 VERTEX;10 1;20 1;42 .5;0 VERTEX;10 90;20 1;0 SEQEND;0 MTEXT;10 5;20 5;1 {\\fx;a\\P};0 HATCH"),
		[]byte(pairs(section("TABLES", "0 LAYER;2 x;62 -1;70 1") + section("ENTITIES", square))),
	} {
		f.Add(text)
	}
	var b bytes.Buffer
	p := demo()[0]
	if err := dxf.WritePattern(&b, p, drawn.Part{Sizes: []string{p.Sizes[0].Name}}); err != nil {
		f.Fatal(err)
	}
	f.Add(b.Bytes())
	f.Fuzz(func(t *testing.T, text []byte) {
		limits := drawn.Limits{Bytes: 1 << 20, Elements: 2000, Points: 20_000}
		d, err := dxf.Read(context.Background(), bytes.NewReader(text), dxf.Options{Limits: limits})
		if errors.Is(err, drawn.ErrNoUnits) {
			d, err = dxf.Read(context.Background(), bytes.NewReader(text), dxf.Options{Limits: limits, Unit: 1})
		}
		if err != nil {
			var e *stash.Error
			if !errors.As(err, &e) || e.What == "" || e.Do == "" {
				t.Fatalf("no sentence: %v", err)
			}
			return
		}
		got, _ := d.Pattern(drawn.Choice{Smallest: 1})
		for _, q := range got.Pieces {
			for z, o := range q.Outlines {
				if err := o.Cut.Validate(); err != nil {
					t.Fatal(err)
				}
				if q.OnFold && !pattern.HasFoldEdge(o.Cut) {
					t.Fatalf("%s %s is on no fold: %v", q.Name, z, o.Cut)
				}
			}
		}
		if got.Name = "fuzz"; len(got.Pieces) == 0 || got.Validate() != nil {
			return
		}
		var out bytes.Buffer
		if err := dxf.WritePattern(&out, got, drawn.Part{}); err != nil {
			t.Fatal(err)
		}
		again, err := dxf.Read(context.Background(), &out, dxf.Options{})
		if err != nil {
			t.Fatal(err)
		}
		if again.Stated == nil || len(again.Stated.Pieces) != len(got.Pieces) {
			t.Fatalf("%d pieces come back as %+v", len(got.Pieces), again)
		}
	})
}
