package qr

import (
	"fmt"
	"strings"

	"github.com/skip2/go-qrcode"
)

// Code is a QR code with its quiet zone: rows of modules, true for dark.
type Code [][]bool

// longest is how much text a code may carry here: more makes modules too small for
// a phone held at arm's length. An address is far shorter.
const longest = 200

// New encodes text with error correction of about 15 %. Text that is empty or longer
// than 200 bytes is an error.
func New(text string) (Code, error) {
	if text == "" || len(text) > longest {
		return nil, fmt.Errorf("a QR code of %d bytes; expected 1 to %d", len(text), longest)
	}
	code, err := qrcode.New(text, qrcode.Medium)
	if err != nil {
		return nil, fmt.Errorf("QR code: %w", err)
	}
	return code.Bitmap(), nil
}

// The colours, ours of day and far apart, the same by day and by night.
const (
	light = "#fdfbf5"
	dark  = "#24211c"
)

// SVG draws the code with name as what a screen reader says. The name must be plain
// text: it is escaped.
func (c Code) SVG(name string) string {
	var b strings.Builder
	n := len(c)
	fmt.Fprintf(&b, `<svg class="qr" viewBox="0 0 %d %d" role="img" aria-label="%s" shape-rendering="crispEdges">`, n, n, escaper.Replace(name))
	fmt.Fprintf(&b, `<rect width="%d" height="%d" fill="%s"/><path fill="%s" d="`, n, n, light, dark)
	for y, row := range c {
		for x := 0; x < n; x++ {
			from := x
			for x < n && row[x] {
				x++
			}
			if x > from {
				fmt.Fprintf(&b, "M%d %dh%dv1h-%dz", from, y, x-from, x-from)
			}
		}
	}
	b.WriteString(`"/></svg>`)
	return b.String()
}

var escaper = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&#34;")

// Both colours are set for every cell, black and white of the 256-colour table,
// which no theme of a terminal changes.
const (
	inked = "\x1b[38;5;16;48;5;231m"
	reset = "\x1b[0m"
)

// Terminal draws the code in half blocks, two modules to a character, for a terminal
// that knows 256 colours. It is Width characters wide.
func (c Code) Terminal() string {
	var b strings.Builder
	for y := 0; y < len(c); y += 2 {
		b.WriteString(inked)
		for x := range c[y] {
			b.WriteRune(halves[c.dark(x, y)][c.dark(x, y+1)])
		}
		b.WriteString(reset + "\n")
	}
	return b.String()
}

// Width is how many characters of a terminal a row takes.
func (c Code) Width() int { return len(c) }

// halves by the upper and the lower module.
var halves = [2][2]rune{{' ', '▄'}, {'▀', '█'}}

// dark is 1 for a dark module; below the last row all is light.
func (c Code) dark(x, y int) int {
	if y < len(c) && c[y][x] {
		return 1
	}
	return 0
}
