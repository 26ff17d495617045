package web

import (
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"ampstead/look"
	"ampstead/sheet"
)

// themes are the named colours of look.css by day, by night and on paper.
func themes(t *testing.T) map[string]map[string]string {
	t.Helper()
	one := func(after string) map[string]string {
		_, rest, ok := strings.Cut(look.CSS, after)
		if !ok {
			t.Fatalf("look.css has no %q", after)
		}
		block, _, _ := strings.Cut(rest, "}")
		names := map[string]string{}
		for _, m := range regexp.MustCompile(`--([a-z-]+): (#[0-9a-f]{3,6});`).FindAllStringSubmatch(block, -1) {
			names[m[1]] = m[2]
		}
		return names
	}
	return map[string]map[string]string{
		"day": one("\n:root {"), "night of the device": one(`:root:not([data-theme="day"]) {`), "night": one("\n" + `:root[data-theme="night"] {`), "paper": one("@media print {\n  :root,"),
	}
}

func luminance(t *testing.T, hex string) float64 {
	t.Helper()
	hex = strings.TrimPrefix(hex, "#")
	if len(hex) == 3 {
		hex = string([]byte{hex[0], hex[0], hex[1], hex[1], hex[2], hex[2]})
	}
	sum := 0.0
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		n, err := strconv.ParseUint(hex[2*i:2*i+2], 16, 8)
		if err != nil {
			t.Fatal(err)
		}
		v := float64(n) / 255
		if v <= 0.04045 {
			v /= 12.92
		} else {
			v = math.Pow((v+0.055)/1.055, 2.4)
		}
		sum += weight * v
	}
	return sum
}

// Every pair of named colours that stands one on the other is told apart: text by
// 4.5:1 (WCAG 2.2, 1.4.3), edges, strokes and the mark of the focus by 3:1 (1.4.11).
func TestNamedColoursAreToldApart(t *testing.T) {
	pairs := []struct {
		top   string
		below []string
		least float64
	}{
		{"ink", []string{"paper", "leaf", "wash", "accent-wash"}, 4.5},
		{"faint", []string{"paper", "leaf", "wash", "accent-wash"}, 4.5},
		{"accent", []string{"paper", "leaf", "wash", "accent-wash"}, 4.5},
		{"accent-ink", []string{"accent"}, 4.5},
		{"paper", []string{"ink", "solid"}, 4.5},
		{"faint", []string{"paper", "leaf"}, 3},
		{"accent", []string{"paper", "leaf", "wash"}, 3},
		{"solid", []string{"paper", "leaf", "wash"}, 3},
	}
	for theme, names := range themes(t) {
		for _, p := range pairs {
			for _, below := range p.below {
				if names[p.top] == "" || names[below] == "" {
					t.Errorf("%s: no colour %s or %s", theme, p.top, below)
					continue
				}
				x, y := luminance(t, names[p.top]), luminance(t, names[below])
				if got := (max(x, y) + 0.05) / (min(x, y) + 0.05); got < p.least {
					t.Errorf("%s: %s on %s has %.2f:1, needs %v", theme, p.top, below, got, p.least)
				}
			}
		}
	}
}

// Night is the same by the device's wish and by the page's button.
func TestOneNight(t *testing.T) {
	all := themes(t)
	for name, colour := range all["night"] {
		if other := all["night of the device"][name]; other != colour {
			t.Errorf("%s is %s by button and %s by the device", name, colour, other)
		}
	}
}

// Nothing moves by itself, and nothing is fetched from elsewhere.
func TestStyleSheetIsStillAndAlone(t *testing.T) {
	for name, css := range sheets(t) {
		for _, bad := range []string{"transition", "animation", "@keyframes", "scroll-behavior", "@import", "url(", "@font-face", "expression("} {
			if strings.Contains(css, bad) {
				t.Errorf("%s has %q", name, bad)
			}
		}
		if n := strings.Count(css, "{") - strings.Count(css, "}"); n != 0 {
			t.Errorf("%s has %d braces open", name, n)
		}
	}
}

func sheets(t *testing.T) map[string]string {
	t.Helper()
	own, err := staticFiles.ReadFile("static/style.css")
	if err != nil {
		t.Fatal(err)
	}
	comment := regexp.MustCompile(`(?s)/\*.*?\*/`)
	return map[string]string{"look.css": comment.ReplaceAllString(look.CSS, ""), "sheet.css": comment.ReplaceAllString(sheet.CSS, ""), "style.css": comment.ReplaceAllString(string(own), "")}
}

// Every class that the style sheets name is put on something by a template, a picture
// or a script.
func TestNoRuleIsDead(t *testing.T) {
	var told strings.Builder
	for _, folder := range []string{".", "../sheet", "../picture", "../book", "../finding", "../start"} {
		err := filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !slices.Contains([]string{".html", ".go", ".js"}, filepath.Ext(path)) || strings.HasSuffix(path, "_test.go") || strings.Contains(path, "testdata") {
				return err
			}
			text, err := os.ReadFile(path)
			told.Write(text)
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	words := map[string]bool{}
	for _, w := range regexp.MustCompile(`[A-Za-z][\w-]*`).FindAllString(told.String(), -1) {
		words[w] = true
	}
	for name, css := range sheets(t) {
		for _, rule := range regexp.MustCompile(`(?m)([^{};]+)\{`).FindAllStringSubmatch(css, -1) {
			for _, class := range regexp.MustCompile(`\.([a-z][\w-]*)`).FindAllStringSubmatch(rule[1], -1) {
				if _, page := strings.CutPrefix(class[1], "on-"); !words[class[1]] && !page {
					t.Errorf("%s: nothing has the class %s", name, class[1])
				}
			}
		}
	}
}

// Every class that a page's template gives is one that a style sheet or a script
// knows.
func TestNoClassWithoutARule(t *testing.T) {
	known := map[string]bool{}
	all := ""
	for _, css := range sheets(t) {
		all += css
	}
	scripts, err := filepath.Glob("static/*.js")
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range scripts {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		all += string(text)
	}
	for _, w := range regexp.MustCompile(`[A-Za-z][\w-]*`).FindAllString(all, -1) {
		known[w] = true
	}
	templates, err := filepath.Glob("templates/*.html")
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range templates {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range regexp.MustCompile(` class="([^"{]+)"`).FindAllStringSubmatch(string(text), -1) {
			for class := range strings.FieldsSeq(m[1]) {
				if !known[class] {
					t.Errorf("%s gives the class %s, which has no rule", path, class)
				}
			}
		}
	}
}
