package cli

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

var (
	shBlock = regexp.MustCompile("(?s)```sh\n(.*?)```")
	mdLink  = regexp.MustCompile(`\]\(([^)#]+)(?:#[^)]*)?\)`)
	word    = regexp.MustCompile(`"[^"]*"|'[^']*'|\S+`)
)

// eachDoc hands every page for people to check, by its path from the root.
func eachDoc(t *testing.T, check func(path, text string)) {
	t.Helper()
	read := func(path string) {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		check(path, string(text))
	}
	for _, name := range []string{"README.md", "ARCHITECTURE.md", "CONTRIBUTING.md"} {
		read(filepath.Join("..", name))
	}
	err := filepath.WalkDir("../docs", func(path string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() && filepath.Ext(path) == ".md" {
			read(path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// Every command that the documents show is one that the program takes.
func TestDocumentedCommands(t *testing.T) {
	seen := 0
	eachDoc(t, func(path, text string) {
		for _, block := range shBlock.FindAllStringSubmatch(text, -1) {
			for _, line := range strings.Split(block[1], "\n") {
				args, ours := strings.CutPrefix(strings.TrimSpace(strings.SplitN(line, " #", 2)[0]), "ampstead ")
				if !ours {
					continue
				}
				seen++
				var out bytes.Buffer
				p := &Program{Args: words(args), Stdout: &out, Stderr: &out}
				if command, _, err := p.parse(); err != nil || command == nil {
					t.Errorf("%s: %q is refused: %v %s", path, line, err, out.String())
				}
			}
		}
	})
	if seen < 30 {
		t.Errorf("only %d commands were found in the documents", seen)
	}
}

func words(line string) []string {
	var list []string
	for _, w := range word.FindAllString(line, -1) {
		list = append(list, strings.Trim(w, `"'`))
	}
	return list
}

// Every link between the documents leads to a file.
func TestDocumentLinks(t *testing.T) {
	eachDoc(t, func(path, text string) {
		for _, m := range mdLink.FindAllStringSubmatch(text, -1) {
			if strings.Contains(m[1], "://") {
				continue
			}
			if _, err := os.Stat(filepath.Join(filepath.Dir(path), m[1])); err != nil {
				t.Errorf("%s leads to %s, which is not there", path, m[1])
			}
		}
	})
}
