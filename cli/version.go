package cli

import (
	"fmt"
	"io"
	"runtime"
	"runtime/debug"
	"strings"
)

// Version is the version that this source is, or becomes once released.
const Version = "0.1.0"

// What release/build stamps with -ldflags -X. Both are empty in any other build.
var (
	commit string // the commit's ID
	date   string // of the commit, 2006-01-02
)

// build says what this program was made from and for.
type build struct {
	Version string `json:"version"`
	Dev     bool   `json:"development"` // release/build did not make it
	Commit  string `json:"commit,omitempty"`
	Date    string `json:"date,omitempty"`
	Changed bool   `json:"changed,omitempty"` // files differed from the commit
	Go      string `json:"go"`
	OS      string `json:"os"`
	Arch    string `json:"arch"`
}

// thisBuild describes the running program.
func thisBuild() build {
	b := build{Version: Version, Commit: commit, Date: date, Go: runtime.Version(), OS: runtime.GOOS, Arch: runtime.GOARCH}
	if commit != "" {
		return b
	}
	b.Dev = true
	if info, ok := debug.ReadBuildInfo(); ok {
		b.fromCheckout(info.Settings)
	}
	return b
}

// fromCheckout takes over what the go command noted of the checkout.
func (b *build) fromCheckout(settings []debug.BuildSetting) {
	for _, s := range settings {
		switch s.Key {
		case "vcs.revision":
			b.Commit = s.Value
		case "vcs.time":
			b.Date = s.Value[:min(len(s.Value), len("2006-01-02"))]
		case "vcs.modified":
			b.Changed = s.Value == "true"
		}
	}
}

// short names a build in a few words: 0.1.0 (1a2b3c4d5e6f, 2006-01-02).
func (b build) short() string {
	var notes []string
	note := func(given bool, text string) {
		if given {
			notes = append(notes, text)
		}
	}
	note(b.Dev, "development")
	note(b.Commit != "", b.Commit[:min(len(b.Commit), 12)])
	note(b.Date != "", b.Date)
	note(b.Changed, "with changes")
	if len(notes) == 0 {
		return b.Version
	}
	return b.Version + " (" + strings.Join(notes, ", ") + ")"
}

type versionCommand struct {
	JSON bool `help:"Print as JSON."`
}

// Run prints the version, what it was built from, and for which machine.
func (c *versionCommand) Run(r *run) error {
	b := thisBuild()
	if c.JSON {
		return writeJSON(r.Stdout, b)
	}
	return b.print(r.Stdout)
}

func (b build) print(w io.Writer) error {
	_, err := fmt.Fprintf(w, "ampstead %s\n%s %s/%s\n", b.short(), b.Go, b.OS, b.Arch)
	return err
}
