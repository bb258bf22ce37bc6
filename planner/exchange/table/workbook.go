package table

import (
	"archive/zip"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"math/big"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"tallycloth/stash/list"

	"github.com/xuri/excelize/v2"
)

// readWorkbook reads one sheet of a workbook of ECMA-376 (.xlsx).
func readWorkbook(ctx context.Context, data []byte, o Options) (Book, error) {
	if err := checkPacked(data, o.Limits); err != nil {
		return Book{}, err
	}
	f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{UnzipSizeLimit: o.Limits.Unpacked, UnzipXMLSizeLimit: o.Limits.Unpacked})
	if err != nil {
		return Book{}, damaged(err)
	}
	defer f.Close()
	b := Book{Sheets: f.GetSheetList()}
	names := b.Sheets
	if o.Sheet != "" {
		if !slices.Contains(names, o.Sheet) {
			return Book{}, refused("Choose one of "+strings.Join(names, ", "), "The workbook has no sheet %q", o.Sheet)
		}
		names = []string{o.Sheet}
	}
	for _, name := range names {
		b.Table, err = readSheet(ctx, f, name, o.Limits)
		if err != nil {
			return Book{}, err
		}
		if len(b.Table.Rows) > 0 {
			if w := errorCells(b.Table); w != "" {
				b.Warnings = append(b.Warnings, w)
			}
			return b, nil
		}
	}
	return Book{}, refused("Choose another file, or another of its sheets", "Nothing is written in the workbook")
}

func damaged(err error) error {
	return refused("Open it in your spreadsheet program and save it again, or save it as CSV", "The workbook is damaged and cannot be read (%s)", err)
}

// checkPacked refuses what is no workbook of this kind, and what unpacks to too much:
// every part is unpacked once and counted, whatever size it claims.
func checkPacked(data []byte, lim Limits) error {
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return refused("Get the whole file again", "The workbook is cut off or damaged")
	}
	workbook, left := false, lim.Unpacked
	for _, part := range z.File {
		workbook = workbook || strings.EqualFold(part.Name, "xl/workbook.xml")
		n, err := unpacked(part, left)
		if err != nil {
			return damaged(err)
		}
		if left -= n; left <= 0 {
			return refused("Save only the sheet with the list, as CSV", "The workbook unpacks to more than %d MB", lim.Unpacked>>20)
		}
	}
	if !workbook {
		return refused("Save the list as .xlsx or CSV", "This file is no workbook that this program reads")
	}
	return nil
}

func unpacked(part *zip.File, most int64) (int64, error) {
	r, err := part.Open()
	if err != nil {
		return 0, err
	}
	defer r.Close()
	return io.Copy(io.Discard, io.LimitReader(r, most+1))
}

// readSheet reads the rows of a sheet that something is written in. What a cell shows
// decides how its stored number is meant: a day, a percent, with a unit.
func readSheet(ctx context.Context, f *excelize.File, name string, lim Limits) (t list.Table, err error) {
	raws, err := f.Rows(name)
	if err != nil {
		return t, damaged(err)
	}
	defer func() { err = errors.Join(err, raws.Close()) }()
	shows, err := f.Rows(name)
	if err != nil {
		return t, damaged(err)
	}
	defer func() { err = errors.Join(err, shows.Close()) }()
	props, err := f.GetWorkbookProps()
	if err != nil {
		return t, damaged(err)
	}
	from1904 := props.Date1904 != nil && *props.Date1904
	t.Name = name
	for line := 1; raws.Next() && shows.Next(); line++ {
		if line%1000 == 0 && ctx.Err() != nil {
			return t, ctx.Err()
		}
		raw, err := raws.Columns(excelize.Options{RawCellValue: true})
		if err != nil {
			return t, damaged(err)
		}
		shown, err := shows.Columns()
		if err != nil {
			return t, damaged(err)
		}
		row := rowOf(raw, shown, from1904)
		if blank(row) {
			continue
		}
		t.Rows, t.Lines = append(t.Rows, trimmed(row)), append(t.Lines, line)
		if err := lim.checkRow(line, len(t.Rows), row); err != nil {
			return t, err
		}
	}
	if err := raws.Error(); err != nil {
		return t, damaged(err)
	}
	return t, nil
}

func rowOf(raw, shown []string, from1904 bool) []list.Cell {
	row := make([]list.Cell, len(raw))
	for k := range min(len(raw), len(shown)) {
		row[k] = cellOf(raw[k], shown[k], from1904)
	}
	return row
}

var (
	storedNumber = regexp.MustCompile(`^-?\d+(\.\d+)?([eE][-+]?\d+)?$`)
	shownDay     = regexp.MustCompile(`^\D*\d{1,4}[-/. ]+(\d{1,2}|\p{L}{3,})[-/. ,]+\d{2,4}\b|\d{1,2}[-/. ]\p{L}{3,}|\p{L}{3,}[-/. ]+\d{1,2}\b|年|\d-\p{L}{3}`)
	numberSigns  = regexp.MustCompile(`[\d.,\s'’()+\-]+`)
)

// cellOf reads a cell by what is stored and what is shown.
func cellOf(raw, shown string, from1904 bool) list.Cell {
	if !storedNumber.MatchString(raw) || len(raw) > 25 {
		return list.Cell{Text: raw}
	}
	n, err := strconv.ParseFloat(raw, 64)
	if err != nil {
		return list.Cell{Text: raw}
	}
	if raw == shown {
		return list.Cell{Text: raw} // a text, or a number: its column decides
	}
	words := strings.TrimSpace(numberSigns.ReplaceAllString(shown, " "))
	switch {
	case words == "%":
		return list.Cell{Text: hundredfold(raw) + " %", Kind: list.Number}
	case n >= 1 && n < 2_958_466 && shownDay.MatchString(shown):
		if t, err := excelize.ExcelDateToTime(n, from1904); err == nil {
			return list.Cell{Text: t.Format("2006-01-02"), Kind: list.Day}
		}
	case words != "" && len(words) < 12 && !strings.ContainsAny(words, "#"):
		return list.Cell{Text: digits(n) + " " + words, Kind: list.Number}
	}
	return list.Cell{Text: digits(n), Kind: list.Number}
}

// digits writes a stored number as a person wrote it: a double keeps 15 digits.
func digits(n float64) string {
	v, ok := new(big.Rat).SetString(strconv.FormatFloat(n, 'g', 15, 64))
	if !ok {
		return strconv.FormatFloat(n, 'f', -1, 64)
	}
	s := v.FloatString(18)
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

// hundredfold is a hundred times a stored number, to 15 digits.
func hundredfold(raw string) string {
	n, _ := strconv.ParseFloat(raw, 64)
	return digits(n * 100)
}

// errorCells warns of formulas whose value is an error.
func errorCells(t list.Table) string {
	for i, r := range t.Rows {
		for _, c := range r {
			if slices.Contains([]string{"#REF!", "#VALUE!", "#DIV/0!", "#NAME?", "#N/A", "#NUM!", "#NULL!"}, c.Text) {
				return fmt.Sprintf("Line %d has the cell %s, an error of the workbook: mend it there, or leave the row out.", t.Line(i), c.Text)
			}
		}
	}
	return ""
}
