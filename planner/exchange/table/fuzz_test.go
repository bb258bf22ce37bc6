package table_test

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"tallycloth/planner/exchange/table"
	"tallycloth/stash"
	"tallycloth/stash/list"

	"github.com/xuri/excelize/v2"
)

// FuzzRead: whatever is in a file, it is read or refused with a sentence, and what is
// read keeps to the limits and says the same once it was written as CSV.
func FuzzRead(f *testing.F) {
	for _, s := range []string{"a,b\r\n1,2\r\n", "sep=;\na;\"b\nc\"\n'=1;x\n", "\xff\xfea\x00,\x00b\x00", "M\xf6we;1,5\nLöwe;2", "\"a\"\"b\" c,d\re,f", "%PDF", "\xd0\xcf\x11\xe0"} {
		f.Add([]byte(s))
	}
	f.Add(written(f, "xlsx", list.TableOf([][]string{{"fabric", "=x"}, {"_x0041_", "1.5"}})))
	b := excelize.NewFile()
	must(f, b.SetSheetRow("Sheet1", "B2", &[]any{"moss", 1.5, true, time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC)}))
	f.Add([]byte(saved(f, b)))
	limits := table.Limits{Bytes: 1 << 20, Unpacked: 1 << 20, Rows: 500, Columns: 50, Cell: 5000}
	f.Fuzz(func(t *testing.T, data []byte) {
		b, err := table.Read(context.Background(), data, table.Options{Limits: limits})
		if err != nil {
			var own *stash.Error
			if !errors.As(err, &own) || own.Do == "" {
				t.Fatalf("%v says nothing to a person", err)
			}
			return
		}
		if n := len(b.Table.Rows); n == 0 || n > limits.Rows || len(b.Table.Lines) != n || b.Table.Width() > limits.Columns {
			t.Fatalf("%d rows, %d lines, %d columns", n, len(b.Table.Lines), b.Table.Width())
		}
		plain := list.TableOf(texts(b.Table))
		again, err := table.Read(context.Background(), written(t, "csv", plain), table.Options{})
		if err != nil && !strings.Contains(fmt.Sprint(texts(plain)), "\x00") {
			t.Fatal(err)
		}
		if err == nil && again.Comma == ',' && len(again.Table.Rows) != len(b.Table.Rows) {
			t.Fatalf("%q, again %q", texts(b.Table), texts(again.Table))
		}
	})
}
