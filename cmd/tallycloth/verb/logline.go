package verb

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"

	"tallycloth/stash"
)

// The most a file of lines may hold.
const (
	mostLineBytes = 1 << 20
	mostLines     = 500
)

// lines reads the lines of a purchase that were said with --line or stand in a file.
func (p purchaseWords) lines() ([]lineWords, error) {
	texts := p.more
	if p.file != "" {
		more, err := readLines(p.file)
		if err != nil {
			return nil, err
		}
		texts = append(texts, more...)
	}
	if len(texts) > mostLines {
		return nil, mistyped(fmt.Sprintf("A purchase of %d lines is more than this program takes at once", len(texts)), fmt.Sprintf("Log it in parts of %d lines", mostLines))
	}
	var out []lineWords
	for _, text := range texts {
		w, err := readLine(text)
		if err != nil {
			return nil, err
		}
		out = append(out, w)
	}
	return out, nil
}

// readLines returns the lines of a file that are not empty and no remarks.
func readLines(path string) ([]string, error) {
	f, err := os.Open(path)
	if err != nil {
		do := "Look at its name and its permissions"
		if errors.Is(err, fs.ErrNotExist) {
			do = "Look at its name"
		}
		return nil, typed{error: &stash.Error{Kind: stash.NotFound, What: "The file " + path + " cannot be read", Do: do}}
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, mostLineBytes+1))
	if err != nil {
		return nil, mistyped("The file "+path+" cannot be read", "Name a file of text, with one line for each thing bought")
	}
	if len(data) > mostLineBytes {
		return nil, mistyped("The file "+path+" is too long to be the lines of a purchase", "Name a file of text, with one line for each thing bought")
	}
	var out []string
	for line := range strings.Lines(strings.TrimPrefix(string(data), "\ufeff")) {
		if line = strings.TrimSpace(line); line != "" && !strings.HasPrefix(line, "#") {
			out = append(out, line)
		}
	}
	if len(out) == 0 {
		return nil, mistyped("The file "+path+" has no line of a purchase", "Write one line for each thing bought: Moss jersey; 1.5 m; price 18.60")
	}
	return out, nil
}

// readLine reads "Moss jersey; 1.5 m; price 18.60 EUR; lot A7".
func readLine(text string) (lineWords, error) {
	parts := strings.Split(text, ";")
	for i := range parts {
		parts[i] = strings.TrimSpace(parts[i])
	}
	if len(parts) < 2 || parts[0] == "" || parts[1] == "" {
		return lineWords{}, mistyped(fmt.Sprintf("%.60q is no line of a purchase", text), "Write the fabric, the length and what else there is to say, parted by semicolons: Moss jersey; 1.5 m; price 18.60")
	}
	w := lineWords{fabric: parts[0], length: parts[1]}
	into := map[string]*string{"price": &w.price, "each": &w.each, "lot": &w.lot, "place": &w.place, "piece": &w.piece,
		"kind": &w.kind, "width": &w.width, "weight": &w.weight, "fibres": &w.fibres, "colour": &w.colour}
	for _, part := range parts[2:] {
		word, rest, _ := strings.Cut(part, " ")
		field := into[strings.ToLower(word)]
		switch rest = strings.TrimSpace(rest); {
		case part == "":
		case strings.EqualFold(part, "washed"):
			w.washed = true
		case strings.EqualFold(part, "trued"):
			w.trued = true
		case field == nil || rest == "":
			return w, mistyped(fmt.Sprintf("%.40q in the line of %s says nothing this program knows", part, w.fabric),
				"Start it with price, each, lot, place, piece, width, kind, weight, fibres or colour, or write washed or trued")
		case *field != "":
			return w, mistyped(fmt.Sprintf("The line of %s says %s twice", w.fabric, word), "Leave one of them out")
		default:
			*field = rest
		}
	}
	return w, nil
}
