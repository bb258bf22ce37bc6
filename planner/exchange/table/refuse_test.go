package table_test

import (
	"archive/zip"
	"bytes"
	"context"
	"errors"
	"io"
	"strings"
	"testing"

	"tallycloth/planner/exchange/table"
	"tallycloth/stash"
	"tallycloth/stash/list"
)

// packed makes a packed file of parts.
func packed(t testing.TB, parts map[string]io.Reader) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for name, r := range parts {
		w, err := z.Create(name)
		must(t, err)
		_, err = io.Copy(w, r)
		must(t, err)
	}
	must(t, z.Close())
	return b.Bytes()
}

type zeros struct{}

func (zeros) Read(p []byte) (int, error) { clear(p); return len(p), nil }

// lying makes every part of a packed file claim to unpack to one byte.
func lying(file []byte) []byte {
	out := bytes.Clone(file)
	for at := 0; ; {
		next := bytes.Index(out[at:], []byte("PK\x01\x02"))
		if next < 0 {
			return out
		}
		at += next
		copy(out[at+24:], []byte{1, 0, 0, 0})
		at += 4
	}
}

func TestRefusedWorkbooks(t *testing.T) {
	whole := written(t, "xlsx", list.TableOf(many(50)))
	small := table.DefaultLimits()
	small.Unpacked = 1 << 20
	bomb := packed(t, map[string]io.Reader{"xl/workbook.xml": strings.NewReader("<workbook/>"), "xl/worksheets/sheet1.xml": io.LimitReader(zeros{}, 64<<20)})
	for name, c := range map[string]struct {
		data   []byte
		want   string
		limits table.Limits
	}{
		"cut off":          {whole[:len(whole)/2], "cut off", table.Limits{}},
		"no workbook":      {packed(t, map[string]io.Reader{"mimetype": strings.NewReader("text")}), "no workbook", table.Limits{}},
		"binary workbook":  {packed(t, map[string]io.Reader{"xl/workbook.bin": strings.NewReader("x")}), "no workbook", table.Limits{}},
		"unpacks too much": {bomb, "unpacks to more than 1 MB", small},
		"lies about it":    {lying(bomb), "", small},
		"empty":            {written(t, "xlsx", list.Table{}), "Nothing is written", table.Limits{}},
		"too many rows":    {whole, "more than 10 rows", table.Limits{Bytes: 1 << 20, Unpacked: 1 << 20, Rows: 10, Columns: 9, Cell: 99}},
		"no sheets":        {packed(t, map[string]io.Reader{"xl/workbook.xml": strings.NewReader("<workbook/>")}), "", table.Limits{}},
		"damaged": {packed(t, map[string]io.Reader{"xl/workbook.xml": strings.NewReader("<workbook><sheets><sheet name='a' sheetId='1'/></sheets>"),
			"xl/worksheets/sheet1.xml": strings.NewReader("<worksheet><sheetData><row")}), "", table.Limits{}},
	} {
		_, err := table.Read(context.Background(), c.data, table.Options{Limits: c.limits})
		var own *stash.Error
		if !errors.As(err, &own) || !strings.Contains(own.What, c.want) || own.Do == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}
