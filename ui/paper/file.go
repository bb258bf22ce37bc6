package paper

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"tallycloth/planner/exchange/table"
	"tallycloth/stash"
)

// longestName is how many bytes of a title go into the name of a file; most file systems take 255.
const longestName = 120

// FileName is a name of a file that a title suggests: letters, figures and blanks of it, without
// what file systems or other programs take for something else.
func FileName(title, ending string) string {
	keep := func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case r == utf8.RuneError || unicode.IsControl(r):
			return -1
		case strings.ContainsRune(`/\:*?"<>|`, r):
			return '-'
		case unicode.In(r, unicode.Cf):
			return -1 // marks of direction: a name must read as it is
		}
		return r
	}
	name := strings.Join(strings.Fields(strings.Map(keep, title)), " ")
	for len(name) > longestName {
		_, n := utf8.DecodeLastRuneInString(name)
		name = name[:len(name)-n]
	}
	name = strings.Trim(name, " .-")
	if name == "" {
		name = "sheet"
	}
	return name + ending
}

// Free is a path in a folder that is not taken: of the name, or with a number after it.
func Free(folder, name string) string {
	ending := filepath.Ext(name)
	path := filepath.Join(folder, name)
	for n := 2; n < 1000; n++ {
		if _, err := os.Lstat(path); errors.Is(err, fs.ErrNotExist) {
			return path
		}
		path = filepath.Join(folder, strings.TrimSuffix(name, ending)+" "+strconv.Itoa(n)+ending)
	}
	return path
}

// Save writes a file that is not there yet, whole or not at all. The name must end as given.
func Save(path, ending string, write func(io.Writer) error) error {
	if !strings.EqualFold(filepath.Ext(path), ending) {
		return &stash.Error{Kind: stash.Invalid, What: "“" + path + "” does not end in " + ending, Do: "End the name in " + ending}
	}
	return table.SaveNew(path, write)
}
