package main

import (
	"context"
	"flag"
	"fmt"
	"os"
)

func main() {
	shots := flag.String("shots", "", "write pictures of all screens into this folder")
	guide := flag.String("guide", "", "write the pictures of the guide into this folder")
	only := flag.String("only", "", "only screens whose names begin so")
	text := flag.Int("text", 100, "text size in percent")
	imperial := flag.Bool("imperial", false, "yards and inches")
	flag.Parse()
	var err error
	if *guide != "" {
		err = picture(context.Background(), *guide)
	} else if *shots != "" {
		err = shoot(context.Background(), *shots, *only, look{text: *text, imperial: *imperial})
	} else {
		err = open(context.Background(), look{text: *text, imperial: *imperial})
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "gallery:", err)
		os.Exit(1)
	}
}
