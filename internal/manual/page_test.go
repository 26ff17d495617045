package manual

import (
	"bytes"
	"os/exec"
	"regexp"
	"strings"
	"testing"

	"github.com/alecthomas/kong"

	"ampstead/internal/golden"
)

// sample is a command line with one of each thing a page can show.
type sample struct {
	Weigh struct {
		Load  string   `arg:"" optional:"" help:"What is weighed: .kg or 'sacks'."`
		Units string   `enum:"metric,us," default:"" help:"Units of the text."`
		Kind  string   `enum:"rough,fine" default:"fine" help:"How well."`
		Out   string   `short:"o" placeholder:"FILE" default:"out.txt" help:"Where to."`
		Try   []string `sep:"none" placeholder:"PATH=VALUE" help:"Try a change. Repeatable."`
		Tare  bool     `default:"true" negatable:"" help:"Take off the tare; -3 V \\ 20 °C."`
		Inner bool     `hidden:"" help:"Not for people."`
	} `cmd:"" help:"How heavy is it? Weighs, and says so in a line that is long enough to be broken into two."`
	Keep struct {
		Show struct {
			JSON bool `help:"As JSON."`
		} `cmd:"" default:"withargs" help:"What there is."`
		Add struct {
			What []string `arg:"" help:"What is added."`
		} `cmd:"" help:"One more."`
		Secret struct{} `cmd:"" hidden:"" help:"Not for people."`
	} `cmd:"" help:"What did it weigh? The list."`
	Ghost struct{} `cmd:"" hidden:"" help:"Not for people."`
}

var sampleBook = Book{Version: "1.2.3", Date: "2026-01-02", About: "Scale weighs.\nIt is a sample.", Sections: []Section{{Head: "CAUTIONS", Paragraphs: []string{"Heavy.", ".Very heavy."}}}}

func model(t *testing.T) *kong.Application {
	t.Helper()
	parser, err := kong.New(&sample{}, kong.Name("scale"))
	if err != nil {
		t.Fatal(err)
	}
	return parser.Model
}

func TestPages(t *testing.T) {
	for _, command := range []string{"", "weigh", "keep"} {
		var out bytes.Buffer
		if err := sampleBook.Write(&out, model(t), command); err != nil {
			t.Fatal(err)
		}
		golden.Check(t, File(model(t), command), out.Bytes())
		checkMacros(t, out.String())
		format(t, out.Bytes())
	}
}

// macros are those of man(7) that the pages use.
var macros = regexp.MustCompile(`^\.(TH|SH|SS|PP|TP|B|BR)( |$)`)

// checkMacros finds text that a formatter would take for something else.
func checkMacros(t *testing.T, page string) {
	t.Helper()
	for i, line := range strings.Split(strings.TrimSuffix(page, "\n"), "\n") {
		switch {
		case line == "":
			t.Errorf("line %d is empty", i+1)
		case strings.HasPrefix(line, ".") && !macros.MatchString(line), strings.HasPrefix(line, "'"):
			t.Errorf("line %d begins like a macro: %s", i+1, line)
		case strings.Contains(line, "Not for people"):
			t.Errorf("line %d shows what is hidden: %s", i+1, line)
		}
	}
}

// format runs a formatter, where one is installed, and expects no warning.
func format(t *testing.T, page []byte) {
	t.Helper()
	groff, err := exec.LookPath("groff")
	if err != nil {
		t.Log("groff is not installed: only the macros were checked")
		return
	}
	cmd := exec.Command(groff, "-man", "-ww", "-Tutf8", "-z")
	cmd.Stdin = bytes.NewReader(page)
	if said, err := cmd.CombinedOutput(); err != nil || len(said) > 0 {
		t.Errorf("groff: %v\n%s", err, said)
	}
}

func TestUnknownPage(t *testing.T) {
	for _, command := range []string{"dance", "ghost"} {
		err := sampleBook.Write(&bytes.Buffer{}, model(t), command)
		if err == nil || !strings.Contains(err.Error(), "weigh, keep") {
			t.Errorf("%s: %v; expected an error that names the pages", command, err)
		}
	}
}

func TestEscape(t *testing.T) {
	tests := []struct{ in, want string }{
		{".TH x", `\&.TH x`},
		{"'quoted'", `\(aqquoted\(aq`},
		{`a\b`, `a\eb`},
		{"-3 °C", `\-3 \(deC`},
	}
	for _, tt := range tests {
		if got := escape(tt.in); got != tt.want {
			t.Errorf("%q: got %q, want %q", tt.in, got, tt.want)
		}
	}
}
