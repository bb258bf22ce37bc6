//go:build e2e

package e2ehook

import (
	"bufio"
	"encoding/json"
	"net"
	"os"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"tallycloth/ui/page"
)

// SocketVariable names the environment variable with the path of the socket.
const SocketVariable = "TALLYCLOTH_E2E_SOCKET"

// Widget is where a named widget is and what it shows.
type Widget struct {
	Name string `json:"name"`
	// X, Y, Width and Height are its box in pixels from the top left of the window's content.
	X       int      `json:"x"`
	Y       int      `json:"y"`
	Width   int      `json:"width"`
	Height  int      `json:"height"`
	Visible bool     `json:"visible"`
	Enabled bool     `json:"enabled"`
	Focused bool     `json:"focused"`
	Text    string   `json:"text,omitempty"`
	Rows    []string `json:"rows,omitempty"`
	Chosen  int      `json:"chosen"` // row chosen, −1 for none
	Checked bool     `json:"checked,omitempty"`
}

// Start answers on the socket that the environment names: one line in, one line of
// JSON out. "widgets" gives every widget by name, "widget NAME" one of them.
func Start(w fyne.Window, names *page.Names) {
	path := os.Getenv(SocketVariable)
	if path == "" {
		return
	}
	listener, err := net.Listen("unix", path)
	if err != nil {
		println("no socket for tests:", err.Error())
		return
	}
	go func() {
		for {
			c, err := listener.Accept()
			if err != nil {
				return
			}
			go serve(c, w, names)
		}
	}()
}

func serve(c net.Conn, w fyne.Window, names *page.Names) {
	defer c.Close()
	out := json.NewEncoder(c)
	for lines := bufio.NewScanner(c); lines.Scan(); {
		verb, name, _ := strings.Cut(strings.TrimSpace(lines.Text()), " ")
		var answer any
		fyne.DoAndWait(func() {
			if verb == "widget" {
				answer = Look(w.Canvas(), name, names.Get(name))
				return
			}
			answer = Everything(w.Canvas(), names)
		})
		if out.Encode(answer) != nil {
			return
		}
	}
}

// Everything looks at all named widgets, by name. To be called on the window's thread.
func Everything(c fyne.Canvas, names *page.Names) []Widget {
	all := names.All()
	slices.Sort(all)
	out := []Widget{}
	for _, n := range all {
		out = append(out, Look(c, n, names.Get(n)))
	}
	return out
}

// Look looks at one widget; nil gives an invisible one of that name.
func Look(c fyne.Canvas, name string, o fyne.CanvasObject) Widget {
	out := Widget{Name: name, Chosen: -1, Enabled: true}
	if o == nil {
		return out
	}
	d := fyne.CurrentApp().Driver()
	at, size := d.AbsolutePositionForObject(o), o.Size()
	out.X, out.Y = c.PixelCoordinateForPosition(at)
	right, foot := c.PixelCoordinateForPosition(at.Add(size))
	out.Width, out.Height = right-out.X, foot-out.Y
	out.Visible = o.Visible() && d.CanvasForObject(o) != nil && size.Width > 0
	if f, ok := o.(fyne.Focusable); ok {
		out.Focused = c.Focused() == f
	}
	if dis, ok := o.(fyne.Disableable); ok {
		out.Enabled = !dis.Disabled()
	}
	out.describe(o)
	return out
}
