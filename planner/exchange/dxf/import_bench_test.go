package dxf_test

import (
	"bytes"
	"context"
	"testing"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/exchange/drawn/drawntest"
	"tallycloth/planner/exchange/dxf"
)

func TestLargeFileComesBack(t *testing.T) {
	p := drawntest.Large()
	got, _ := again(t, p, drawn.Part{})
	same(t, got, p)
}

// BenchmarkImportDXF reads 60 pieces in 12 sizes, 200 points each.
func BenchmarkImportDXF(b *testing.B) {
	var text bytes.Buffer
	if err := dxf.WritePattern(&text, drawntest.Large(), drawn.Part{}); err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(text.Len()))
	b.ResetTimer()
	for range b.N {
		d, err := dxf.Read(context.Background(), bytes.NewReader(text.Bytes()), dxf.Options{})
		if err != nil || len(d.Stated.Pieces) != 60 {
			b.Fatal(err)
		}
	}
}
