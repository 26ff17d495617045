package rig

import (
	"errors"
	"strings"
	"testing"
	"unicode/utf8"
)

var seeds = []string{
	small, sketch, "", "#\n", "a", "- a\n", "a:\n\tb: 1\n", "a: [1, 2\n", "a: 'x\n", "? a\n: b\n", "<<: {}\n",
	"a: &x 1\nb: *x\n", "a: !!str 1\n", "%YAML 1.2\n---\na: 1\n", "a: 1\n---\nb: 2\n", "\xff", "\ufeffabout: 1\n",
	"about:\r\n  name: x\r\nbank: ~\r\n", "a: |\n  x\n  y\nb: >-\n  z\n", "a: \"\\u00e9\\n\"\n", "{a: {b: {c: [", "- - - - -\n",
	"about: {name: x, name: y}\nbank: {cell: own, own: {like: nca, curve: [{soc: 0 %, voltage: 3 V}]}}\n",
}

func FuzzParse(f *testing.F) {
	for _, s := range seeds {
		f.Add([]byte(s))
	}
	f.Add(example(f, "curlew-draft"))
	f.Fuzz(func(t *testing.T, text []byte) {
		file, err := Parse("rig.yaml", text)
		if err == nil {
			Fields(file)
			return
		}
		var problems Errors
		if !errors.As(err, &problems) || len(problems) == 0 {
			t.Fatalf("error is %T: %v", err, err)
		}
		lines := strings.Count(string(text), "\n") + 1
		for _, p := range problems {
			if p.Line < 1 || p.Line > lines+1 || p.Column < 1 || p.Message == "" || !utf8.ValidString(p.Error()) {
				t.Fatalf("bad problem %#v", p)
			}
		}
	})
}

func FuzzSet(f *testing.F) {
	for _, path := range []string{"about.name", "charge.roof solar.settings.float", "charge[1].limit",
		"bank.limits.max_voltage", "heater.power", "", "a..b", "charge", "protection.contactors.main contactor.coil"} {
		for _, value := range []string{"", "1 V", "none", "a: b", "'", "\"#", "é\n", "{", "- x", "\x00"} {
			f.Add(sketch, path, value)
		}
	}
	f.Fuzz(func(t *testing.T, text, path, value string) {
		file, err := Parse("rig.yaml", []byte(text))
		if err != nil {
			return
		}
		next, err := file.Set(path, value)
		if string(file.Text) != text {
			t.Fatal("the old file changed")
		}
		if err != nil {
			return
		}
		checkSet(t, file, next, path, strings.TrimSpace(value))
	})
}

// failer is a test or a property.
type failer interface {
	Helper()
	Fatalf(string, ...any)
}

// checkSet proves what an edit promises: the value reads back, setting it again
// changes nothing, and every line but the edited ones is as it was.
func checkSet(t failer, old, next *File, path, value string) {
	t.Helper()
	// A changed name changes the path of what bears it.
	if !strings.HasSuffix(path, "name") && !strings.HasSuffix(path, "item") {
		n := next.tree.at(path)
		if value == "" && n != nil && n.kind == scalar || value != "" && (n == nil || n.text != value) {
			t.Fatalf("%s = %q reads back as %v\n%s", path, value, n, next.Text)
		}
		again, err := next.Set(path, value)
		if err != nil || string(again.Text) != string(next.Text) {
			t.Fatalf("setting %s to %q twice: %v", path, value, err)
		}
	}
	if value != "" {
		linesKept(t, string(old.Text), string(next.Text))
	}
}

// linesKept allows one run of lines to differ, of which at most one was there.
func linesKept(t failer, old, next string) {
	t.Helper()
	a, b := strings.SplitAfter(old, "\n"), strings.SplitAfter(next, "\n")
	head := 0
	for head < len(a) && head < len(b) && a[head] == b[head] {
		head++
	}
	tail := 0
	for tail < len(a)-head && tail < len(b)-head && a[len(a)-1-tail] == b[len(b)-1-tail] {
		tail++
	}
	if changed := len(a) - head - tail; changed > 2 && !strings.Contains(old, "|") && !strings.Contains(old, ">") {
		t.Fatalf("%d lines changed\nold:\n%s\nnew:\n%s", changed, old, next)
	}
}
