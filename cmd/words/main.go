package main

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"strings"

	"tallycloth/cmd/words/texts"
)

func main() {
	all, err := texts.Collect(".")
	if err == nil {
		err = write(os.Stdout, all)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "words:", err)
		os.Exit(1)
	}
}

// write lists texts under their places and files, each with its line.
func write(to io.Writer, all []texts.Place) error {
	out := bufio.NewWriter(to)
	for _, p := range all {
		fmt.Fprintf(out, "\n%s\n%s\n", p.Name, strings.Repeat("=", len(p.Name)))
		file := ""
		for _, t := range p.Texts {
			if t.File != file {
				file = t.File
				fmt.Fprintf(out, "\n%s\n", file)
			}
			fmt.Fprintf(out, "%5d  %s\n", t.Line, strings.ReplaceAll(t.Said, "\n", "\n       "))
		}
	}
	return out.Flush()
}
