package svg_test

import (
	"bytes"
	"context"
	"testing"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/exchange/drawn/drawntest"
	"tallycloth/planner/exchange/svg"
)

// BenchmarkImportSVG reads 60 pieces in 12 sizes, 200 points each, and makes the pattern of them.
func BenchmarkImportSVG(b *testing.B) {
	var text bytes.Buffer
	if err := svg.WritePattern(&text, drawntest.Large(), drawn.Part{}); err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(text.Len()))
	for b.Loop() {
		d, err := svg.Read(context.Background(), bytes.NewReader(text.Bytes()), svg.Options{})
		if err != nil {
			b.Fatal(err)
		}
		if p, _ := d.Pattern(drawn.Choice{Layers: true}); len(p.Pieces) != 60 || len(p.Sizes) != 12 {
			b.Fatalf("%d pieces, %d sizes", len(p.Pieces), len(p.Sizes))
		}
	}
}
