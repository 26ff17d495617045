package cli

import (
	"fmt"
	"io"
	"os"
	"runtime"

	"golang.org/x/term"

	"ampstead/internal/qr"
)

// showCode draws an address as a QR code, if w is a terminal that can show one. The
// address itself is said as text elsewhere; a code that cannot be drawn is left out.
func showCode(w io.Writer, address string) {
	code, err := qr.New(address)
	if err != nil || !draws(columns(w), code.Width(), runtime.GOOS, os.Getenv) {
		return
	}
	fmt.Fprintf(w, "\n%s\nA phone in the same network reads the address with its camera. It asks for the passphrase, which is not in the square.\n", code.Terminal())
}

// columns is how wide a terminal w is, 0 when it is none.
func columns(w io.Writer) int {
	file, ok := w.(*os.File)
	if !ok || !term.IsTerminal(int(file.Fd())) {
		return 0
	}
	width, _, err := term.GetSize(int(file.Fd()))
	if err != nil {
		return 0
	}
	return width
}

// draws reports whether a terminal of that width shows a code of width need in
// colours of its own.
func draws(width, need int, system string, env func(string) string) bool {
	switch {
	case width < need, env("TERM") == "dumb", env("NO_COLOR") != "":
		return false
	case system == "windows": // an old console there writes the colours out as text
		return env("WT_SESSION") != "" || env("TERM") != ""
	}
	return env("TERM") != ""
}
