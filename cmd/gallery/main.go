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
	text := flag.Int("text", 100, "text size in percent for the pictures")
	imperial := flag.Bool("imperial", false, "yards and inches in the pictures")
	flag.Parse()
	var err error
	if *shots != "" {
		err = shoot(context.Background(), *shots, *only, *text, *imperial)
	} else {
		err = open(context.Background())
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "gallery:", err)
		os.Exit(1)
	}
}
