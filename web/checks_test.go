package web

import (
	"net/http"
	"strings"
	"testing"

	"ampstead/figure"
	"ampstead/handbook"
	"ampstead/source"
)

func TestChecksPage(t *testing.T) {
	v := visit(t, "curlew", func(c *Config) { c.Figures = handbook.All() })
	_, all := v.get("/figures/checks")
	_, wire := v.get("/figures/checks?stage=wire")
	for _, want := range []string{"What it was checked against", "ran on this machine on 20 November 2026, 08:00: 0 differ", `id="tail-current"`, "agrees"} {
		if !strings.Contains(all, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	if strings.Contains(wire, `id="tail-current"`) || !strings.Contains(wire, `id="conductor"`) {
		t.Error("the figures of wire are not those shown for it")
	}
	if status, _ := v.get("/figures/checks?stage=tea"); status != http.StatusNotFound {
		t.Errorf("a stage that is none gave %d", status)
	}
}

func TestACheckThatDiffersIsShown(t *testing.T) {
	bad := &figure.Figure{Name: "bad", Outputs: []figure.Output{{Key: "x"}}, Compute: func(figure.Args) (figure.Results, error) { return figure.Results{"x": 2.0}, nil },
		Checks: []figure.Check{{Source: source.Equation, Note: "one", Output: "x", Expected: 1.0, Tolerance: 0.1}}}
	_, page := visit(t, "curlew", func(c *Config) { c.Figures = []*figure.Figure{bad} }).get("/figures/checks")
	for _, want := range []string{"1 differs by more", `open id="bad"`, "<strong class=\"change\">differs</strong>"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
}
