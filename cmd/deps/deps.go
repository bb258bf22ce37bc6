package main

import (
	_ "fyne.io/fyne/v2"
	_ "fyne.io/fyne/v2/app"
	_ "fyne.io/fyne/v2/container"
	_ "fyne.io/fyne/v2/driver/desktop"
	_ "fyne.io/fyne/v2/test"
	_ "fyne.io/fyne/v2/widget"
	_ "github.com/google/uuid"
	_ "github.com/mattn/go-sqlite3"
	_ "github.com/peterstace/simplefeatures/geom"
	_ "github.com/pressly/goose/v3"
	_ "github.com/spf13/cobra"
	_ "github.com/tdewolff/canvas"
	_ "github.com/tdewolff/canvas/renderers"
	_ "golang.org/x/image/vector"
	_ "golang.org/x/sync/errgroup"
	_ "golang.org/x/sys/unix"
	_ "golang.org/x/text/language"
	_ "pgregory.net/rapid"
)

func main() {}
