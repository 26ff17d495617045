package rig

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ampstead/examples"
	_ "ampstead/internal/fixedseed" // property tests draw the same every run
)

// TestEveryFieldCanBeSet writes random text of the right kind to random fields
// of the example rigs.
func TestEveryFieldCanBeSet(t *testing.T) {
	files := map[string]*File{}
	for _, name := range examples.Names() {
		files[name] = mustParse(t, string(example(t, name)))
	}
	rapid.Check(t, func(t *rapid.T) {
		f := files[rapid.SampledFrom(examples.Names()).Draw(t, "file")]
		field := rapid.SampledFrom(Fields(f)).Draw(t, "field")
		value := drawValue(t, field)
		g, err := f.Set(field.Path, value)
		if err != nil {
			// Only contradictions may stand against a value of the right kind.
			for _, word := range []string{"by hand", "no key", "YAML", "unit", "is not a ", "has no"} {
				if strings.Contains(err.Error(), word) {
					t.Fatalf("Set(%q, %q): %v", field.Path, value, err)
				}
			}
			return
		}
		checkSet(t, f, g, field.Path, strings.TrimSpace(value))
	})
}

func drawValue(t *rapid.T, f Field) string {
	switch {
	case f.Kind == "text":
		return rapid.StringMatching(`[a-zA-Zé'"#:,{}&*!|>%@ -]{0,12}[a-z]`).Draw(t, "text")
	case f.Choices != nil:
		return rapid.SampledFrom(f.Choices).Draw(t, "choice")
	case f.Off && rapid.Bool().Draw(t, "off"):
		return "off"
	}
	return f.Example
}
