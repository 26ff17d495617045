package web

import (
	"encoding/json"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"ampstead/examples"
	"ampstead/fit"
)

// stirred is a site whose first page begins the year and the drills, both of them
// stand-ins.
func stirred(t testing.TB, example string, f *roads, d *faultsAt) *visitor {
	return visit(t, example, func(c *Config) { c.still, c.reckon, c.drilling = false, f.reckon, drilling{d.run, d.play} })
}

func (v *visitor) homeNews(had string) homeNews {
	v.t.Helper()
	status, body := v.get("/home/progress?had=" + url.QueryEscape(had))
	var news homeNews
	if err := json.Unmarshal([]byte(body), &news); status != http.StatusOK || err != nil {
		v.t.Fatalf("%d %.200s: %v", status, body, err)
	}
	return news
}

// reckonedHome waits until nothing is reckoned any more.
func (v *visitor) reckonedHome() homeNews {
	v.t.Helper()
	for range 2000 {
		if news := v.homeNews(""); news.Over {
			return news
		}
		time.Sleep(5 * time.Millisecond)
	}
	v.t.Fatal("the year and the drills do not come to an end")
	return homeNews{}
}

func TestHomeBeginsTheYearAndTheDrillsAndWaitsForNeither(t *testing.T) {
	f, d := &roads{hold: make(chan struct{})}, &faultsAt{}
	v := stirred(t, "curlew", f, d)
	_, body := v.get("/")
	contains(t, "home", body, "/static/home.js", `id="progress"`, "The year on the road is being reckoned.", "The year, not reckoned yet", "no fault was played through")
	if strings.Contains(body, `http-equiv="refresh"`) {
		t.Error("the page of a reader without scripts jumps by itself")
	}
	had := regexp.MustCompile(`data-had="([^"]+)"`).FindStringSubmatch(body)
	if len(had) != 2 {
		t.Fatal("the page does not say what it shows")
	}
	if news := v.homeNews(had[1]); news.Over || news.Year != "" {
		t.Errorf("while it runs: %+v", news)
	}
	close(f.hold)
	news := v.reckonedHome()
	contains(t, "year", news.Year, "The year at a glance", "12 to 88 hours a year, most in January")
	contains(t, "stages", news.Stages, "reach harm", "Reckoned today at 08:00")
	if f.runs.Load() != 2 || d.runs.Load() != 1 {
		t.Errorf("%d years and %d drills were begun", f.runs.Load(), d.runs.Load())
	}
	_, body = v.get("/")
	contains(t, "home", body, news.Tally, "One fault &lt;by itself&gt; charges in frost", "Leave the bank disconnected", `href="/findings#`)
	if strings.Contains(body, "/static/home.js") {
		t.Error("the page asks on though all is reckoned")
	}
}

func TestHomeBeginsNothingTwiceAndNothingThatWasStopped(t *testing.T) {
	f, d := &roads{hold: make(chan struct{})}, &faultsAt{}
	v := stirred(t, "dipper", f, d)
	v.get("/")
	v.post("/travel", url.Values{"do": {"stop"}})
	v.get("/")
	if news := v.reckonedHome(); !strings.Contains(news.Stages, "The year was not reckoned yet") {
		t.Errorf("stages: %s", news.Stages)
	}
	if f.runs.Load() > 1 {
		t.Errorf("%d years were begun", f.runs.Load())
	}
}

func TestHomeSaysWhatIsMissing(t *testing.T) {
	f := &roads{fail: &fit.InputError{Path: "route", Message: "there is no route", Expected: "a stay"}}
	v := stirred(t, "dipper", f, &faultsAt{})
	v.get("/")
	v.reckonedHome()
	_, body := v.get("/")
	contains(t, "home", body, "Give “route” in the rig: without it travel cannot be reckoned.", "Cannot be reckoned yet: there is no route")
}

// Each place on the first page that leads somewhere leads to something that is
// there.
func TestHomeLinksArrive(t *testing.T) {
	for _, name := range examples.Names() {
		v := stirred(t, name, &roads{}, &faultsAt{})
		v.get("/")
		v.reckonedHome()
		_, body := v.get("/")
		main := body[strings.Index(body, "<main"):strings.Index(body, "</main>")]
		pages := map[string]string{}
		links := regexp.MustCompile(`href="(/[^"#]*)(?:#([^"]*))?"`).FindAllStringSubmatch(main, -1)
		if len(links) < 20 {
			t.Errorf("%s: only %d links", name, len(links))
		}
		for _, m := range links {
			page := strings.ReplaceAll(m[1], "&amp;", "&")
			if _, asked := pages[page]; !asked {
				status, text := v.get(page)
				if status != http.StatusOK {
					t.Errorf("%s: %s answers %d", name, page, status)
				}
				pages[page] = text
			}
			if m[2] != "" && !strings.Contains(pages[page], ` id="`+m[2]+`"`) {
				t.Errorf("%s: there is no %q on %s", name, m[2], page)
			}
		}
	}
}

func TestHomeKeepsItsAnchors(t *testing.T) {
	v := visit(t, "curlew-draft")
	_, body := v.get("/")
	contains(t, "home", body, `id="findings-heading"`, `id="finding-1-lead-acid-profile"`)
	ids := map[string]bool{}
	for _, m := range regexp.MustCompile(` id="([^"]+)"`).FindAllStringSubmatch(body, -1) {
		if ids[m[1]] {
			t.Errorf("id %q stands twice", m[1])
		}
		ids[m[1]] = true
	}
	_, all := v.get("/findings")
	for id := range ids {
		if strings.HasPrefix(id, "finding-") && !strings.Contains(all, `id="`+id+`"`) {
			t.Errorf("%s is not among all findings", id)
		}
	}
	contains(t, "findings", all, "Mend it in the rig", "found by", "how-settings")
}

func TestHomeShowsTheLogbook(t *testing.T) {
	v := visit(t, "curlew")
	table, _ := examples.Log("curlew")
	v.sendTable(string(table))
	_, body := v.get("/")
	contains(t, "home", body, "Last reading 6 days ago", "group 4 drifts", "Follow group 4")
	v.clock = v.clock.AddDate(0, 0, 40)
	_, body = v.get("/")
	contains(t, "later", body, "Last reading 46 days ago", "days overdue")
}

func TestHomeBearsALogbookThatCannotBeRead(t *testing.T) {
	v := visit(t, "curlew")
	if err := os.WriteFile(filepath.Join(filepath.Dir(v.file), "logbook.sqlite"), []byte("no database at all, only words that fill a page"), 0o644); err != nil {
		t.Fatal(err)
	}
	status, body := v.get("/")
	contains(t, "home", body, "Could not be reckoned:")
	if status != http.StatusOK {
		t.Errorf("status %d", status)
	}
}

// The first page of the worst rig, with all that can be reckoned, stays small.
func TestHomeIsSmall(t *testing.T) {
	for name, most := range map[string]int{"curlew": 45, "curlew-draft": 75, "dipper": 40} {
		v := stirred(t, name, &roads{}, &faultsAt{})
		v.get("/")
		v.reckonedHome()
		_, body := v.get("/")
		if kb := len(body) / 1000; kb > most {
			t.Errorf("%s: %d kB, want at most %d", name, kb, most)
		}
	}
}

// BenchmarkHomePage is the first page with all of it reckoned.
func BenchmarkHomePage(b *testing.B) {
	for _, name := range examples.Names() {
		b.Run(name, func(b *testing.B) {
			v := stirred(b, name, &roads{}, &faultsAt{})
			if table, ok := examples.Log(name); ok {
				v.sendTable(string(table))
			}
			v.get("/")
			v.reckonedHome()
			v.measure(b, "/")
		})
	}
}
