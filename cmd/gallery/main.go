package main

import (
	"context"
	"flag"
	"fmt"
	"os"
)

func main() {
	shots := flag.String("shots", "", "write pictures of all screens into this folder")
	only := flag.String("only", "", "only screens whose names begin so")
	flag.Parse()
	var err error
	if *shots != "" {
		err = shoot(context.Background(), *shots, *only)
	} else {
		err = open(context.Background())
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "gallery:", err)
		os.Exit(1)
	}
}
