package sheet_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strings"
	"testing"

	"ampstead/fit"
	q "ampstead/quantity"
	"ampstead/sheet"
)

func render(t testing.TB, part string, m *sheet.Model) string {
	t.Helper()
	var out bytes.Buffer
	if err := sheet.Templates().ExecuteTemplate(&out, part, m); err != nil {
		t.Fatalf("%s: %v", part, err)
	}
	return out.String()
}

func wellFormed(text string) error {
	d := xml.NewDecoder(strings.NewReader("<div>" + text + "</div>"))
	d.Entity = xml.HTMLEntity
	for {
		_, err := d.Token()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
	}
}

// Every part must execute with everything and with nothing: a name that a
// template has and the model has not shows here.
func TestPartsExecute(t *testing.T) {
	paper := model(t, q.Metric)
	paper.Paper = true
	models := map[string]*sheet.Model{"full": model(t, q.Metric), "us": model(t, q.US), "paper": paper,
		"zero": {}, "no result": sheet.New(nil, &fit.Result{}, q.US)}
	for name, m := range models {
		for _, part := range sheet.Parts {
			t.Run(name+"/"+part, func(t *testing.T) {
				text := render(t, part, m)
				if err := wellFormed(text); err != nil {
					t.Errorf("not well formed: %v\n%s", err, text)
				}
				if strings.Contains(text, "<script>") || strings.Contains(text, "ZgotmplZ") {
					t.Errorf("text of the rig was not escaped:\n%s", text)
				}
			})
		}
	}
}

func all(t testing.TB, m *sheet.Model) string {
	var b strings.Builder
	for _, part := range sheet.Parts {
		b.WriteString(render(t, part, m))
	}
	return b.String()
}

var (
	idAttr   = regexp.MustCompile(` id="([^"]+)"`)
	linkAttr = regexp.MustCompile(`href="#([^"]+)"`)
	heading  = regexp.MustCompile(`<h([1-6])`)
	verdict  = regexp.MustCompile(`(?i)safe to use|you are safe|is safe\b`)
)

func TestAnchors(t *testing.T) {
	m := model(t, q.Metric)
	m.Paper = true
	text := all(t, m)
	ids := map[string]bool{}
	for _, id := range idAttr.FindAllStringSubmatch(text, -1) {
		if ids[id[1]] {
			t.Errorf("id %q stands twice", id[1])
		}
		ids[id[1]] = true
	}
	links := linkAttr.FindAllStringSubmatch(text, -1)
	if len(links) == 0 {
		t.Error("no links to figures or sources")
	}
	for _, link := range links {
		if !ids[link[1]] {
			t.Errorf("link to #%s leads nowhere", link[1])
		}
	}
}

func TestHeadingsAndWords(t *testing.T) {
	text := all(t, model(t, q.Metric))
	for _, h := range heading.FindAllStringSubmatch(text, -1) {
		if h[1] != "3" {
			t.Errorf("a part has a heading of level %s", h[1])
		}
	}
	if found := verdict.FindString(text); found != "" {
		t.Errorf("a verdict was given: %q", found)
	}
	if tables, captions := strings.Count(text, "<table"), strings.Count(text, "<caption"); tables != captions {
		t.Errorf("%d tables but %d captions", tables, captions)
	}
	if strings.Contains(text, "<th>") {
		t.Error("a table heading has no scope")
	}
}

func TestUnits(t *testing.T) {
	metric, us := all(t, model(t, q.Metric)), all(t, model(t, q.US))
	for _, want := range []string{"5 °C", "2 °C to 6 °C"} {
		if !strings.Contains(metric, want) {
			t.Errorf("metric parts lack %q", want)
		}
	}
	for _, want := range []string{"41 °F", "35.6 °F to 42.8 °F", "49.0 V"} {
		if !strings.Contains(us, want) {
			t.Errorf("US parts lack %q", want)
		}
	}
	if settings := render(t, "settings", model(t, q.US)); strings.Contains(settings, "°C") {
		t.Errorf("US settings show °C:\n%s", settings)
	}
}

func TestNumberOpens(t *testing.T) {
	text := render(t, "window", model(t, q.Metric))
	if !strings.Contains(text, "<details class=\"how\"><summary>38.4 to 49.2 V</summary>") {
		t.Fatalf("the bank's span does not open:\n%s", text)
	}
	for _, want := range []string{"V_bank = n · V_cell", "<dt>series</dt><dd>12</dd>", "<dt>ambient</dt><dd>5 °C</dd>", "<dt>high</dt><dd>49.2 V</dd>", "Remembered table", "from memory"} {
		if !strings.Contains(text, want) {
			t.Errorf("behind the number there is no %q", want)
		}
	}
	if strings.Contains(text, "<details class=\"how\" open") {
		t.Error("a number stands open from the start")
	}
}

func TestPaperLeavesRoomForThePen(t *testing.T) {
	m := model(t, q.Metric)
	if strings.Contains(render(t, "settings", m), "set on / by") {
		t.Error("the screen has a column for the pen")
	}
	m.Paper = true
	if got := strings.Count(render(t, "settings", m), "set on / by"); got != 2 {
		t.Errorf("%d sheets have a column for the pen, want 2", got)
	}
}

func BenchmarkNew(b *testing.B) {
	file, res := sample(b)
	for b.Loop() {
		fmt.Fprint(io.Discard, sheet.New(file, res, q.Metric).Rig)
	}
}
