package pdf_test

import (
	"bytes"
	"compress/zlib"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tallycloth/planner/draft"
	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/exchange/pdf"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/stash"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
)

func packed(content string) string {
	var b bytes.Buffer
	z := zlib.NewWriter(&b)
	_, _ = z.Write([]byte(content))
	_ = z.Close()
	return stream("/Filter /FlateDecode", b.String())
}

// locked is a PDF with passwords; "" opens it for everybody.
func locked(t testing.TB, password string) []byte {
	t.Helper()
	model.ConfigPath = "disable"
	conf := model.NewAESConfiguration(password, "owner", 256)
	var b bytes.Buffer
	if err := api.Encrypt(bytes.NewReader(onePage("", "100 100 283.465 283.465 re S")), &b, conf); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// TestRefused: each gives a sentence that says what to do.
func TestRefused(t *testing.T) {
	whole := string(onePage("", "100 100 283.465 283.465 re S"))
	kids := strings.Repeat("3 0 R ", 500)
	for _, tt := range []struct{ name, text, says string }{
		{"empty", "", "empty"},
		{"no PDF", "<svg/>", "not a PDF"},
		{"cut off", "%PDF-1.7\n1 0 obj\n<< /Type", "damaged"},
		{"no pages", string(made("<< /Type /Catalog /Pages 2 0 R >>", "<< /Type /Pages /Kids [] /Count 0 >>")), "damaged"},
		{"no catalogue", strings.Replace(whole, "/Root 1 0 R", "/Root 9 0 R", 1), "damaged"},
		{"locked", string(locked(t, "secret")), "password"},
		{"pages", string(made("<< /Type /Catalog /Pages 2 0 R >>", "<< /Type /Pages /Kids ["+kids+"] /Count 500 >>", "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 100 100] >>")), "500 pages"},
		{"no size", string(onePage("/CropBox [0 0 1 1]", "")), "size"},
		{"huge page", string(onePage("/UserUnit 10000", "")), "size"},
		{"contains itself", string(onePage("/Resources << /XObject << /F 5 0 R >> >>", "/F Do",
			stream("/Type /XObject /Subtype /Form /BBox [0 0 9 9] /Resources << /XObject << /F 5 0 R >> >>", "/F Do"))), "contains itself"},
		{"points of huge curves", string(onePage("", "0 0 m "+strings.Repeat("9e9 0 0 9e9 9e9 9e9 c ", 500)+"S")), "points"},
		{"operators", string(onePage("", strings.Repeat("q Q ", 2_100_000))), "objects"},
		{"unpacks to too much", string(made("<< /Type /Catalog /Pages 2 0 R >>", "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
			"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 500 500] /Contents 4 0 R >>", packed(strings.Repeat(" ", 70<<20)))), "unpacks to more"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, err := pdf.Read(context.Background(), strings.NewReader(tt.text), drawn.Limits{})
			var e *stash.Error
			if !errors.As(err, &e) || e.Do == "" || !strings.Contains(err.Error(), tt.says) {
				t.Errorf("%v, want a sentence with %q", err, tt.says)
			}
		})
	}
}

// TestOpenToAll: a PDF that is encrypted but opens without a password is read.
func TestOpenToAll(t *testing.T) {
	if d := lay(t, read(t, locked(t, "")), drawn.Plan{}); len(d.Squares) != 1 {
		t.Errorf("%+v", d.Shapes)
	}
}

// TestTooLarge: a file of 200 MB is refused before it is read.
func TestTooLarge(t *testing.T) {
	path := filepath.Join(t.TempDir(), "large.pdf")
	if err := os.WriteFile(path, []byte("%PDF-1.7"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(path, 200<<20); err != nil {
		t.Fatal(err)
	}
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var e *stash.Error
	if _, err := pdf.Read(context.Background(), f, drawn.Limits{}); !errors.As(err, &e) || !strings.Contains(e.What, "larger than") {
		t.Errorf("%v", err)
	}
	if at, _ := f.Seek(0, 1); at != 0 {
		t.Errorf("%d bytes were read", at)
	}
}

func TestStopsWhenAsked(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := pdf.Read(ctx, bytes.NewReader(onePage("", "q Q")), drawn.Limits{}); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}

// TestOddContent: what is not understood of a page draws nothing and harms nothing.
func TestOddContent(t *testing.T) {
	for _, content := range []string{
		"", "Q Q Q", "l h c S", "0 0 m", "1 2 m 3 l S", "(un(closed", "<41", "[1 2", "/#zz gs", "1e999 0 m 2 2 l S", "% only", "BI /W 1 ID", "/X Do", "/X gs", "/P /X BDC EMC EMC", ">> ] }", "nan inf m",
		"0 0 0 0 0 0 cm 1 1 50 50 re S", "W n 10 10 50 50 re S",
	} {
		f := read(t, onePage("", content))
		lay(t, f, f.Find().Plan)
	}
}

// FuzzRead: whatever comes in, there is a sentence, or a drawing whose usable outlines are valid.
func FuzzRead(f *testing.F) {
	p := draft.DemoPatterns(func() stash.ID { return stash.NoID })[0]
	f.Add(tiled(f, p, p.Sizes[0].Name, sheet.Full{Paper: sheet.A3}))
	f.Add(locked(f, ""))
	f.Add(onePage("/Resources << /XObject << /F 5 0 R >> >>", "q 1 0 0 1 9 9 cm /F Do Q", stream("/Type /XObject /Subtype /Form /BBox [0 0 300 300]", "20 20 m 120 30 l 110 140 l h S")))
	f.Fuzz(func(t *testing.T, all []byte) {
		x, err := pdf.Read(context.Background(), bytes.NewReader(all), drawn.Limits{Bytes: 1 << 20, Elements: 20_000, Points: 50_000, Outline: 2000})
		check(t, x, err)
	})
}

// FuzzContent: the same for the drawing instructions of a page, which are all of it here.
func FuzzContent(f *testing.F) {
	for _, s := range []string{
		"q 2 0 0 1.5 30 20 cm 1 0 0 RG 60 60 m 160 60 l 180 200 40 220 60 60 c b Q 0 0 1 rg 200 300 120 90 re f",
		"/OC /A BDC [3 1] 0 d 0 1 0 RG 5 5 90 90 re W n 0 0 m 200 200 l 0 200 l s EMC", "BI /W 1 ID x EI (a\\)b(c)) Tj <41> Tj 1 2 3 4 k 5 5 m 6 7 8 9 v 1 2 3 4 y h B*",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, content string) {
		x, err := pdf.Read(context.Background(), bytes.NewReader(onePage("", content)), drawn.Limits{Elements: 20_000, Points: 50_000, Outline: 2000})
		check(t, x, err)
	})
}

func check(t *testing.T, x pdf.File, err error) {
	if err != nil {
		var e *stash.Error
		if !errors.As(err, &e) || e.What == "" || e.Do == "" {
			t.Fatalf("no sentence: %v", err)
		}
		return
	}
	for _, plan := range []drawn.Plan{{}, x.Find().Plan} {
		d, err := x.Lay(context.Background(), plan, "", 0)
		if err != nil {
			t.Fatalf("%+v: %v", plan, err)
		}
		pieces, _ := d.ToPieces(drawn.Choice{Size: "1", Smallest: 1})
		for _, p := range pieces {
			if err := p.Outlines["1"].Cut.Validate(); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// BenchmarkReadTiles reads and joins a full-size print over A4.
func BenchmarkReadTiles(b *testing.B) {
	p := draft.DemoPatterns(func() stash.ID { return stash.NoID })[1]
	all := tiled(b, p, p.Sizes[0].Name, sheet.Full{Paper: sheet.A4})
	for b.Loop() {
		f, err := pdf.Read(context.Background(), bytes.NewReader(all), drawn.Limits{})
		if err != nil {
			b.Fatal(err)
		}
		if _, err := f.Lay(context.Background(), f.Find().Plan, "", 0); err != nil {
			b.Fatal(fmt.Errorf("laying: %w", err))
		}
	}
}
