package web

import (
	"bytes"
	"html/template"
	"strings"
	"sync"
	"testing"
)

// A server that starts makes no page: a template that is broken must show here.
func TestEveryViewCanBeMade(t *testing.T) {
	shared, err := parseShared()
	if err != nil {
		t.Fatal(err)
	}
	v := newViews(shared, template.FuncMap{"at": func() string { return "/rigs/dipper" }})
	for _, name := range viewNames {
		made, err := v.get(name)
		if err != nil {
			t.Errorf("%s: %v", name, err)
		} else if made.Lookup("main") == nil {
			t.Errorf("%s.html defines no main", name)
		}
	}
	if err := v.execute(&bytes.Buffer{}, "../static/style", "main", nil); err == nil || !strings.Contains(err.Error(), "no page template") {
		t.Errorf("got %v", err)
	}
}

// Visitors of two rigs may ask for the same page at the same moment; each gets the
// links of its own.
func TestViewsMadeAtOnce(t *testing.T) {
	shared, err := parseShared()
	if err != nil {
		t.Fatal(err)
	}
	var all sync.WaitGroup
	for _, base := range []string{"", "/rigs/dipper"} {
		v := newViews(shared, template.FuncMap{"at": func() string { return base }})
		for range 8 {
			all.Go(func() {
				var page bytes.Buffer
				if err := v.execute(&page, "missing", "main", nil); err != nil || !strings.Contains(page.String(), `href="`+base+`/"`) {
					t.Errorf("%q: %v\n%s", base, err, page.String())
				}
			})
		}
	}
	all.Wait()
}
