package verb

import (
	"context"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/photo"

	"github.com/spf13/cobra"
)

// photoWords say of what a photo is.
type photoWords struct {
	fabric, cloth, purchase, garment string
	kind, note                       string
	stitch                           int
}

// photos is the verb for photos of fabrics, cloth, receipts and garments.
func (s *session) photos() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "photo add|list|save|remove",
		Short: "Keep photos of fabrics, cloth, receipts and test scraps",
		Long: `Keeps photos: a swatch or a test scrap of a fabric, a cloth as it lies, the receipt of a
purchase, a garment. Say of what with --fabric, --cloth, --purchase or --garment. Each is
turned upright, made smaller where it is large, and kept in the library without its
metadata: neither place nor camera comes along.

With --json the photos: number, of, name, kind, stitch, note, added, width, height, id.`,
		Example: `  tallycloth photo add rib.jpg --fabric "Heather rib"
  tallycloth photo list --fabric "Heather rib"`,
		Args: func(_ *cobra.Command, args []string) error {
			return mistyped("photo does one of four things", "Say which: add, list, save or remove")
		},
		RunE: func(*cobra.Command, []string) error { return nil },
	}
	cmd.AddCommand(s.photoAdd(), s.photoList(), s.photoSave(), s.photoRemove())
	for _, c := range cmd.Commands() {
		c.DisableFlagsInUseLine = true
	}
	return cmd
}

func (w *photoWords) flags(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringVar(&w.fabric, "fabric", "", "the fabric it is of")
	f.StringVar(&w.cloth, "cloth", "", "the code of the cloth it is of")
	f.StringVar(&w.purchase, "purchase", "", "the purchase it is of: its day, such as 2026-03-02, or its supplier")
	f.StringVar(&w.garment, "garment", "", "the garment it is of")
}

// subject finds of what the photos are, and its name.
func (w photoWords) subject(ctx context.Context, l *library) (form planner.PhotoForm, name string, err error) {
	said := 0
	for _, t := range []string{w.fabric, w.cloth, w.purchase, w.garment} {
		if t != "" {
			said++
		}
	}
	if said != 1 {
		return form, "", mistyped("A photo is of one thing", "Name it with --fabric, --cloth, --purchase or --garment")
	}
	switch {
	case w.fabric != "":
		f, err := l.pickFabric(ctx, w.fabric)
		return planner.PhotoForm{Of: stash.OfFabric, OfID: f.ID}, f.Name, err
	case w.cloth != "":
		c, err := l.pickCloth(ctx, w.cloth)
		return planner.PhotoForm{Of: stash.OfCloth, OfID: c.Cloth.ID}, c.Cloth.Code, err
	case w.garment != "":
		g, err := l.pickGarment(ctx, w.garment)
		return planner.PhotoForm{Of: stash.OfGarment, OfID: g.ID}, g.Name, err
	}
	all, err := l.Purchases(ctx)
	if err != nil {
		return form, "", err
	}
	title := func(p stash.Purchase) string { return strings.TrimSpace(string(p.Date) + " " + p.Supplier) }
	p, err := pick("purchase", w.purchase, all, title)
	return planner.PhotoForm{Of: stash.OfPurchase, OfID: p.ID}, title(p), err
}

// photoFields is a photo in JSON.
type photoFields struct {
	Number int    `json:"number"` // among those of its subject, from 1
	Of     string `json:"of"`
	Name   string `json:"name"`
	Kind   string `json:"kind"`
	Stitch int    `json:"stitch"`
	Note   string `json:"note"`
	Added  string `json:"added"`
	Width  int    `json:"width"`
	Height int    `json:"height"`
	ID     string `json:"id"`
}

func fieldsOfPhoto(number int, name string, p stash.Photo) photoFields {
	return photoFields{number, string(p.Of), name, string(p.Kind), p.Stitch, p.Note, string(p.At), p.Width, p.Height, p.ID.String()}
}

func (s *session) photoAdd() *cobra.Command {
	var w photoWords
	cmd := &cobra.Command{
		Use:     "add FILE",
		Short:   "Add a photo, a JPEG, PNG or WebP file",
		Example: `  tallycloth photo add scrap.jpg --fabric "Heather rib" --kind scrap --stitch 1 --note "zigzag 3 by 1"`,
		Args:    exactly("the name of a picture file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.changing(cmd, func(ctx context.Context, l *library) error {
				form, name, err := w.subject(ctx, l)
				if err != nil {
					return err
				}
				form.Kind, form.Note, form.Stitch = stash.PhotoKind(strings.ToLower(w.kind)), w.note, w.stitch
				if form.File, err = photoFile(args[0]); err != nil {
					return err
				}
				p, err := l.AddPhoto(ctx, form)
				if err != nil {
					return err
				}
				all, err := l.Photos(ctx, p.OfID)
				if err != nil {
					return err
				}
				return s.answer(fieldsOfPhoto(len(all), name, p), func(out io.Writer) {
					fmt.Fprintf(out, "Added photo %d of %s, %s, %d × %d pixels.\n", len(all), name, p.Kind, p.Width, p.Height)
				})
			})
		},
	}
	w.flags(cmd)
	f := cmd.Flags()
	f.StringVar(&w.kind, "kind", "", "swatch, cloth, receipt, scrap or garment (default: the usual one)")
	f.StringVar(&w.note, "note", "", "what else to know about it")
	f.IntVar(&w.stitch, "stitch", 0, "for a test scrap: which stitch note of the fabric it shows, from 1")
	return cmd
}

// photoFile reads a file that should be a photo, no more of it than a photo has.
func photoFile(path string) (data []byte, err error) {
	wrong := func(err error) error {
		return &stash.Error{Kind: stash.NotFound, What: "The picture " + path + " cannot be read", Do: "Check its name and whether you may read it", Err: err}
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, wrong(err)
	}
	defer f.Close()
	if data, err = io.ReadAll(io.LimitReader(f, photo.MostBytes+1)); err != nil {
		return nil, wrong(err)
	}
	return data, nil
}

func (s *session) photoList() *cobra.Command {
	var w photoWords
	cmd := &cobra.Command{
		Use: "list", Short: "Show which photos there are", Example: "  tallycloth photo list --cloth K7PD", Args: noMore,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return s.reading(cmd, func(ctx context.Context, l *library) error {
				form, name, err := w.subject(ctx, l)
				if err != nil {
					return err
				}
				all, err := l.Photos(ctx, form.OfID)
				if err != nil {
					return err
				}
				out, rows := []photoFields{}, [][]string{}
				for i, p := range all {
					out = append(out, fieldsOfPhoto(i+1, name, p))
					rows = append(rows, []string{strconv.Itoa(i + 1), string(p.Kind), string(p.At), fmt.Sprintf("%d × %d", p.Width, p.Height), p.Note})
				}
				return s.answer(out, func(w io.Writer) {
					if len(rows) == 0 {
						fmt.Fprintf(w, "There are no photos of %s.\n", name)
						return
					}
					table(w, "NO.|KIND|ADDED|PIXELS|NOTE", rows)
				})
			})
		},
	}
	w.flags(cmd)
	return cmd
}

// numbered finds a photo by its number among those of its subject.
func (w photoWords) numbered(ctx context.Context, l *library, number string) (stash.Photo, photoFields, error) {
	form, name, err := w.subject(ctx, l)
	if err != nil {
		return stash.Photo{}, photoFields{}, err
	}
	all, err := l.Photos(ctx, form.OfID)
	if err != nil {
		return stash.Photo{}, photoFields{}, err
	}
	n, err := strconv.Atoi(number)
	if err != nil || n < 1 || n > len(all) {
		return stash.Photo{}, photoFields{}, mistyped(fmt.Sprintf("There is no photo %q of %s", number, name), "photo list shows their numbers")
	}
	return all[n-1], fieldsOfPhoto(n, name, all[n-1]), nil
}

func (s *session) photoSave() *cobra.Command {
	var w photoWords
	cmd := &cobra.Command{
		Use: "save NUMBER FILE", Short: "Write a photo into a JPEG file of its own",
		Example: `  tallycloth photo save 1 rib.jpg --fabric "Heather rib"`,
		Args:    exactly("the number of a photo, as photo list shows it", "the name of the file to write"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.reading(cmd, func(ctx context.Context, l *library) error {
				p, fields, err := w.numbered(ctx, l, args[0])
				if err != nil {
					return err
				}
				data, err := l.Picture(ctx, p.Digest, true)
				if err != nil {
					return err
				}
				if err := writeNew(args[1], data); err != nil {
					return err
				}
				return s.answer(fields, func(out io.Writer) {
					fmt.Fprintf(out, "Wrote photo %d of %s to %s.\n", fields.Number, fields.Name, args[1])
				})
			})
		},
	}
	w.flags(cmd)
	return cmd
}

// writeNew writes a file that is not there yet, whole or not at all.
func writeNew(path string, data []byte) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	switch {
	case os.IsExist(err):
		return &stash.Error{Kind: stash.Conflict, What: "There is a file of that name already", Do: "Choose another name"}
	case err != nil:
		return &stash.Error{Kind: stash.Conflict, What: "The file cannot be written there", Do: "Choose a folder you may write to", Err: err}
	}
	_, err = f.Write(data)
	if e := f.Close(); err == nil {
		err = e
	}
	if err != nil {
		os.Remove(path) // half a file is none; the first error says more
		return &stash.Error{Kind: stash.Conflict, What: "The file cannot be written there", Do: "Make room, or choose another folder", Err: err}
	}
	return nil
}

func (s *session) photoRemove() *cobra.Command {
	var w photoWords
	cmd := &cobra.Command{
		Use: "remove NUMBER", Short: "Take a photo away; undo brings it back",
		Example: `  tallycloth photo remove 2 --fabric "Heather rib"`,
		Args:    exactly("the number of a photo, as photo list shows it"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.changing(cmd, func(ctx context.Context, l *library) error {
				p, fields, err := w.numbered(ctx, l, args[0])
				if err != nil {
					return err
				}
				if err := l.RemovePhoto(ctx, p.ID); err != nil {
					return err
				}
				return s.answer(fields, func(out io.Writer) { fmt.Fprintf(out, "Removed photo %d of %s.\n", fields.Number, fields.Name) })
			})
		},
	}
	w.flags(cmd)
	return cmd
}
