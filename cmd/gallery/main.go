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
	check := flag.Bool("check", false, "say which words of the screens have no room")
	only := flag.String("only", "", "only screens whose names begin so; several with commas")
	themes := flag.String("theme", "light,dark", "light, dark or contrast; several with commas")
	sizes := flag.String("size", "1366x768,1920x1080", "size of the window; several with commas")
	text := flag.String("text", "100", "text size in percent; several with commas")
	scale := flag.Float64("scale", 1, "pixels for each unit of the window")
	imperial := flag.Bool("imperial", false, "yards and inches")
	flag.Parse()
	looks, err := looksOf(*themes, *sizes, *text, float32(*scale), *imperial)
	ctx := context.Background()
	switch {
	case err != nil:
	case *guide != "":
		err = picture(ctx, *guide)
	case *check:
		err = checked(ctx, os.Stdout, *only, looks)
	case *shots != "":
		err = shoot(ctx, *shots, *only, looks)
	default:
		err = open(ctx, looks[0])
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "gallery:", err)
		os.Exit(1)
	}
}
