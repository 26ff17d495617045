package book_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"regexp"
	"strings"
	"testing"

	"ampstead/book"
	"ampstead/examples"
	"ampstead/fit"
	"ampstead/internal/golden"
	q "ampstead/quantity"
	"ampstead/rig"
	"ampstead/sheet"
)

// model prepares an example's book in the units asked for.
func model(t testing.TB, name string, sys q.System) *sheet.Model {
	t.Helper()
	text, err := examples.Read(name)
	if err != nil {
		t.Fatal(err)
	}
	file, err := rig.Parse("rig.yaml", text)
	if err != nil {
		t.Fatal(err)
	}
	res, err := fit.Run(file.Rig)
	if err != nil {
		t.Fatal(err)
	}
	m := sheet.New(file, res, sys)
	m.Date, m.Version = "2026-10-01", "0.1"
	return m
}

func write(t testing.TB, m *sheet.Model) string {
	t.Helper()
	var out bytes.Buffer
	if err := book.Write(&out, m); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// eachBook runs a test on the book of every example, in its own units.
func eachBook(t *testing.T, test func(t *testing.T, text string)) {
	for name, sys := range map[string]q.System{"curlew-draft": q.Metric, "curlew": q.Metric, "dipper": q.US} {
		t.Run(name, func(t *testing.T) { test(t, write(t, model(t, name, sys))) })
	}
}

var (
	ids      = regexp.MustCompile(` id="([^"]+)"`)
	links    = regexp.MustCompile(`href="([^"]*)"`)
	outside  = regexp.MustCompile(`(?i)<script|<link|<img|<iframe|@import|url\(|src=|https?://`)
	style    = regexp.MustCompile(`(?s)<style>.*?</style>`)
	headings = regexp.MustCompile(`(?s)<h([1-6])[^>]*>(.*?)</h[1-6]>`)
	tags     = regexp.MustCompile(`<[^>]*>`)
)

func TestLinksResolve(t *testing.T) { eachBook(t, hangsTogether) }

func TestNothingFromOutside(t *testing.T) {
	eachBook(t, func(t *testing.T, text string) {
		if found := outside.FindString(text); found != "" {
			t.Errorf("the book asks for something outside itself: %q", found)
		}
	})
}

func TestWellFormed(t *testing.T) {
	eachBook(t, func(t *testing.T, text string) {
		d := xml.NewDecoder(strings.NewReader(style.ReplaceAllString(strings.TrimPrefix(text, "<!DOCTYPE html>"), "")))
		d.Entity = xml.HTMLEntity
		for {
			if _, err := d.Token(); errors.Is(err, io.EOF) {
				return
			} else if err != nil {
				t.Fatal(err)
			}
		}
	})
}

func TestCautionsFirstSourcesLast(t *testing.T) {
	eachBook(t, func(t *testing.T, text string) {
		var chapters []string
		level := 0
		for _, h := range headings.FindAllStringSubmatch(text, -1) {
			next := int(h[1][0] - '0')
			if next > level+1 {
				t.Errorf("heading %q jumps from level %d to %d", h[2], level, next)
			}
			level = next
			if next == 2 {
				chapters = append(chapters, strings.Join(strings.Fields(tags.ReplaceAllString(h[2], "")), " "))
			}
		}
		if chapters[0] != "1 Cautions" || !strings.HasSuffix(chapters[len(chapters)-1], "Sources") {
			t.Errorf("chapters %q: want cautions first and sources last", chapters)
		}
	})
}

func TestUnits(t *testing.T) {
	metric, us := write(t, model(t, "curlew", q.Metric)), write(t, model(t, "curlew", q.US))
	for _, c := range []struct{ text, want, not string }{{metric, "size: A4", "°F"}, {us, "size: letter", ""}} {
		if !strings.Contains(c.text, c.want) {
			t.Errorf("the book lacks %q", c.want)
		}
		if c.not != "" && strings.Contains(c.text, c.not) {
			t.Errorf("a metric book shows %s", c.not)
		}
	}
	if !strings.Contains(us, "°F") {
		t.Error("the US book shows no °F")
	}
}

func TestNoVerdict(t *testing.T) {
	eachBook(t, func(t *testing.T, text string) {
		for _, bad := range []string{"safe to use", "you are safe", "is safe."} {
			if strings.Contains(text, bad) {
				t.Errorf("the book gives a verdict: %q", bad)
			}
		}
	})
}

// A rig's name goes into the style sheet as well: nothing in it may end the
// string, the sheet or the page.
func TestHostileName(t *testing.T) {
	m := model(t, "curlew", q.Metric)
	m.Rig = `x"; } </style><script>alert(1)</script>`
	text := write(t, m)
	if strings.Contains(text, "<script") || strings.Count(text, "</style>") != 1 {
		t.Error("the name of the rig broke out of its place")
	}
}

func TestSameBytes(t *testing.T) {
	m := model(t, "dipper", q.US)
	first, second := write(t, m), write(t, m)
	if first != second {
		t.Error("two books of one rig differ")
	}
}

// The skeleton of the mended rig's book: its headings in order.
func TestSkeleton(t *testing.T) {
	var out strings.Builder
	for _, h := range headings.FindAllStringSubmatch(write(t, model(t, "curlew", q.Metric)), -1) {
		title := strings.Join(strings.Fields(tags.ReplaceAllString(h[2], "")), " ")
		out.WriteString(strings.Repeat("  ", int(h[1][0]-'1')) + title + "\n")
	}
	golden.Check(t, "curlew.txt", []byte(out.String()))
}

// hangsTogether checks that no id of a book stands twice and every link inside it
// leads somewhere.
func hangsTogether(t *testing.T, text string) {
	t.Helper()
	known := map[string]bool{}
	for _, id := range ids.FindAllStringSubmatch(text, -1) {
		if known[id[1]] {
			t.Errorf("id %q stands twice", id[1])
		}
		known[id[1]] = true
	}
	for _, l := range links.FindAllStringSubmatch(text, -1) {
		if target, inside := strings.CutPrefix(l[1], "#"); !inside || !known[target] {
			t.Errorf("link %q leads nowhere", l[1])
		}
	}
}
