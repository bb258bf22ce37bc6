package pdf

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os/exec"
	"time"

	"tallycloth/stash"
)

// fine is how many dots an inch a page is turned into a picture with: a seam allowance of 1 cm
// is 59 of them.
const fine = 150

// Picture turns a page, as it is seen, into a PNG picture in its true proportions, with pdftocairo of poppler. The
// errors are a *stash.Error: poppler is not there, or cannot draw the page.
func Picture(ctx context.Context, path string, page int) ([]byte, error) {
	tool, err := exec.LookPath("pdftocairo")
	if err != nil {
		return nil, &stash.Error{Kind: stash.Unsupported, Err: err, What: "the page cannot be turned into a picture: the program pdftocairo is not installed",
			Do: "Install poppler-utils, for instance with “sudo apt install poppler-utils”, or save the page as a picture in a PDF viewer."}
	}
	ctx, stop := context.WithTimeout(ctx, time.Minute)
	defer stop()
	n := fmt.Sprint(page)
	cmd := exec.CommandContext(ctx, tool, "-png", "-cropbox", "-r", fmt.Sprint(fine), "-singlefile", "-f", n, "-l", n, path, "-")
	var out, said bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &said
	if err := cmd.Run(); err != nil || out.Len() == 0 {
		return nil, &stash.Error{Kind: stash.Unsupported, Err: errors.Join(err, errors.New(said.String())), What: fmt.Sprintf("page %d cannot be turned into a picture", page),
			Do: "Save the page as a picture in a PDF viewer, and trace that."}
	}
	return out.Bytes(), nil
}
