package completion

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/alecthomas/kong"
)

type sample struct {
	Weigh struct {
		Rig   string   `arg:"" optional:"" help:"The rig."`
		Units string   `enum:"metric,us," default:"" help:"Units."`
		Out   string   `short:"o" placeholder:"FILE" help:"Where to."`
		Draw  string   `placeholder:"FOLDER" help:"Pictures."`
		Price string   `placeholder:"PRICE" help:"Most to pay."`
		Try   []string `sep:"none" placeholder:"PATH=VALUE" help:"Try."`
		Tare  bool     `default:"true" negatable:"" help:"Take off the tare."`
		Inner bool     `hidden:"" help:"Not for people."`
	} `cmd:"" help:"How heavy is it?"`
	Keep struct {
		Show struct {
			Rig  string `arg:"" optional:"" help:"The rig."`
			Life bool   `help:"Ahead."`
		} `cmd:"" default:"withargs" help:"What there is."`
		Add struct {
			What []string `arg:"" complete:"bird" help:"What is added."`
		} `cmd:"" aliases:"more" help:"One more."`
	} `cmd:"" help:"What did it weigh?"`
	Ghost struct{} `cmd:"" hidden:"" help:"Not for people."`
}

// folders with two rigs, one of them a floor down, and one without.
func sampleFolder(t *testing.T) {
	t.Helper()
	t.Chdir(t.TempDir())
	t.Setenv("HOME", ".")
	for _, name := range []string{"wren/rig.yaml", "barn/owl two/rig.yaml", "notes/a.txt", ".hidden/rig.yaml"} {
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, nil, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

func TestNext(t *testing.T) {
	sampleFolder(t)
	parser, err := kong.New(&sample{}, kong.Name("scale"))
	if err != nil {
		t.Fatal(err)
	}
	birds := map[string]Source{"bird": func(given []string) []Candidate {
		return []Candidate{{"finch", "small"}, {"falcon", strings.Join(given, "+")}}
	}}
	tests := []struct {
		line  string // words apart by |
		want  string // candidates apart by a space and a stroke
		paths bool
	}{
		{"", "weigh keep", false},
		{"w", "weigh", false},
		{"g", "", false},
		{"--he", "--help", false},
		{"weigh|--", "--draw --help --no-tare --out --price --tare --try --units", false},
		{"weigh|--units|", "metric us", false},
		{"weigh|--units=|", "barn/ wren/", true}, // given, though empty
		{"weigh|--units=u", "--units=us", false},
		{"weigh|--units|us|w", "wren/", true},
		{"weigh|--unknown=x", "", false},
		{"weigh|--tare=x", "", false},
		{"weigh|--price|", "", false},
		{"weigh|--try|a=b|--un", "--units", false},
		{"weigh|", "barn/ wren/", true},
		{"weigh|barn/", "barn/owl two/", true},
		{"weigh|wren/", "wren/rig.yaml", true},
		{"weigh|notes/", "", true},
		{"weigh|.h", ".hidden/", true},
		{"weigh|~/w", "~/wren/", true},
		{"weigh|no/such/", "", true},
		{"weigh|wren|", "", false},
		{"weigh|-o|notes/", "notes/a.txt", true},
		{"weigh|--out=notes/", "--out=notes/a.txt", true},
		{"weigh|--draw|n", "notes/", true},
		{"weigh|--|--u", "", true},
		{"keep|", "show add", false},
		{"keep|--l", "--life", false},
		{"keep|wr", "wren/", true},
		{"keep|show|--l", "--life", false},
		{"keep|more|", "finch falcon", false},
		{"keep|add|finch|fa", "falcon", false},
	}
	for _, tt := range tests {
		got := Next(parser.Model, strings.Split(tt.line, "|"), birds)
		var words []string
		for _, c := range got.Candidates {
			words = append(words, c.Word)
		}
		if strings.Join(words, " ") != tt.want || got.Paths != tt.paths {
			t.Errorf("%s: got %q, paths %v; want %q, paths %v", tt.line, words, got.Paths, tt.want, tt.paths)
		}
	}
	more := Next(parser.Model, []string{"keep", "add", "finch", "fa"}, birds)
	if more.Candidates[0].About != "finch" {
		t.Errorf("a source was given %q, want what stands before", more.Candidates[0].About)
	}
}

func TestAnswerIsOneLineEach(t *testing.T) {
	a := Answer{Candidates: []Candidate{{"plain", ""}, {"said", "two\nlines\tand a tab"}, {"bad\nname", "left out"}}}
	if got, want := a.String(), "words\nplain\nsaid\ttwo lines and a tab\n"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	a.Paths = true
	if !strings.HasPrefix(a.String(), "paths\n") {
		t.Errorf("got %q, want paths first", a)
	}
}

func TestScriptOfEveryShell(t *testing.T) {
	for _, shell := range Shells() {
		text, err := Script(shell)
		if err != nil || !strings.Contains(text, "complete --") || !strings.Contains(text, "for "+shell) {
			t.Errorf("%s: %v\n%s", shell, err, text)
		}
	}
	if _, err := Script("dish"); err == nil || slices.Contains(Shells(), "dish") {
		t.Error("expected an error for a shell that there is no script for")
	}
}
