package main

import (
	"bufio"
	"fmt"
	"os"
)

func main() {
	all, err := Collect(".")
	if err != nil {
		fmt.Fprintln(os.Stderr, "words:", err)
		os.Exit(1)
	}
	out := bufio.NewWriter(os.Stdout)
	for _, s := range all {
		fmt.Fprintf(out, "%s\n    %s\n", s.Text, s.Where)
	}
	if err := out.Flush(); err != nil {
		fmt.Fprintln(os.Stderr, "words:", err)
		os.Exit(1)
	}
}
