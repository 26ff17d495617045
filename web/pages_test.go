package web

import (
	"html"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"

	"ampstead/examples"
	"ampstead/rig"
)

var allPages = []string{"/", "/findings", "/keep", "/keep/live", "/prove", "/prove/plan", "/fit", "/wire", "/rig", "/rig/text", "/rig/history", "/rig/compare", "/book", "/book/read", "/figures", "/figures/rest-voltage"}

// Every template is executed with the data of every example: a field that does
// not exist, or a part that is missing, fails here.
func TestEveryPageOfEveryExample(t *testing.T) {
	for _, name := range examples.Names() {
		v := visit(t, name)
		for _, path := range allPages {
			status, body := v.get(path)
			if status != http.StatusOK {
				t.Errorf("%s %s: status %d: %.300s", name, path, status, body)
			}
			if strings.Contains(body, "The rig file cannot") || strings.Contains(body, "cannot be worked out") {
				t.Errorf("%s %s: the example is not readable", name, path)
			}
			if !strings.HasSuffix(strings.TrimSpace(body), "</html>") {
				t.Errorf("%s %s is cut short", name, path)
			}
		}
	}
}

func TestUnreadableFileShowsLinesAndTheEditor(t *testing.T) {
	const wrong = "about:\n  name: Nobody\n  speed: 12\nbank:\n  cell: nmc532\n  series: twelve\n"
	v := visitText(t, wrong)
	for _, path := range []string{"/", "/fit", "/wire", "/rig", "/book", "/book/read"} {
		status, body := v.get(path)
		if status != http.StatusOK {
			t.Errorf("%s: status %d", path, status)
		}
		contains(t, path, body, "line 3", "line 6", "<code>  series: twelve</code>", `name="text"`)
	}
	_, body := v.get("/figures")
	contains(t, "/figures", body, "rest-voltage")
}

func TestFileThatIsNoText(t *testing.T) {
	for _, text := range []string{"", "\x00\x01\x02", "[", "a: &b [*b]", strings.Repeat("- ", 5000), "\ufeff", "%TAG ! x"} {
		v := visitText(t, text)
		for _, path := range []string{"/", "/rig", "/rig/text", "/fit"} {
			if status, body := v.get(path); status != http.StatusOK || !strings.Contains(body, "</html>") {
				t.Errorf("%q %s: status %d", text[:min(len(text), 10)], path, status)
			}
		}
	}
}

func TestMissingFile(t *testing.T) {
	v := visit(t, "dipper")
	if err := os.Remove(v.file); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{"/", "/rig", "/rig/text", "/fit", "/book"} {
		status, body := v.get(path)
		if status != http.StatusNotFound {
			t.Errorf("%s: status %d", path, status)
		}
		contains(t, path, body, "There is no rig here yet", "ampstead new")
	}
}

func TestChangeByHandShowsOnTheNextRequest(t *testing.T) {
	v := visit(t, "curlew")
	v.get("/")
	v.write(strings.Replace(v.onDisk(), "name: Curlew", "name: Whimbrel", 1))
	_, body := v.get("/")
	contains(t, "overview", body, "<h1>Whimbrel")
}

func TestOverviewSaysWhatWasFoundAndNeverSafe(t *testing.T) {
	v := visit(t, "curlew-draft")
	_, body := v.get("/")
	contains(t, "overview", body, "to stop for", "What to do today", "Leave the bank disconnected", `href="/rig?at=`, "12 groups in series")
	if stop, care := strings.Index(body, "tag stop"), strings.Index(body, "tag care"); stop < 0 || care >= 0 && care < stop {
		t.Errorf("stop at %d, care at %d: the most urgent comes first", stop, care)
	}
	mended := visit(t, "curlew")
	for _, path := range []string{"/", "/fit", "/wire", "/rig"} {
		_, body := mended.get(path)
		for _, promise := range []string{"is safe", "are safe", "safe to use", "safe to connect"} {
			if strings.Contains(strings.ToLower(body), promise) {
				t.Errorf("%s promises %q", path, promise)
			}
		}
	}
}

func TestUnitsAndLight(t *testing.T) {
	v := visit(t, "dipper")
	_, us := v.get("/fit")
	contains(t, "dipper", us, "°F")
	for _, choice := range []map[string][]string{{"units": {"metric"}, "back": {"/fit"}}, {"light": {"night"}, "back": {"/fit"}}} {
		res := v.post("/show", choice)
		if res.StatusCode != http.StatusSeeOther || res.Header.Get("Location") != "/fit" {
			t.Fatalf("show: %d to %q", res.StatusCode, res.Header.Get("Location"))
		}
		v.cookies = append(v.cookies, res.Cookies()...)
	}
	_, metric := v.get("/fit")
	if strings.Contains(metric, "°F") {
		t.Error("metric page still shows °F")
	}
	contains(t, "night", metric, `data-theme="night"`, "°C")
}

func TestShowKeepsNothingElseAndLeadsNowhereElse(t *testing.T) {
	v := visit(t, "dipper")
	res := v.post("/show", map[string][]string{"units": {"imperial\r\n"}, "light": {"x"}, "back": {"//example.org/"}})
	if len(res.Cookies()) != 0 || res.Header.Get("Location") != "/" {
		t.Errorf("cookies %v, to %q", res.Cookies(), res.Header.Get("Location"))
	}
}

func TestFigurePageComputes(t *testing.T) {
	v := visit(t, "curlew")
	_, body := v.get("/figures/rest-voltage?cell=nca&soc=50+%25")
	contains(t, "figure", body, "results", "Source:", "values reproduced just now")
	_, body = v.get("/figures/rest-voltage?cell=nca&soc=50+kg")
	contains(t, "figure", body, `class="wrong" role="alert"`)
	if status, _ := v.get("/figures/no-such"); status != http.StatusNotFound {
		t.Errorf("unknown figure: %d", status)
	}
}

func TestBookCarriesItsOwnPolicy(t *testing.T) {
	v := visit(t, "curlew")
	res := v.do(httptestGet("/book/save"))
	if got := res.Header.Get("Content-Disposition"); !strings.HasPrefix(got, `attachment; filename="curlew`) {
		t.Errorf("disposition %q", got)
	}
	csp := res.Header.Get("Content-Security-Policy")
	contains(t, "policy", csp, "default-src 'none'", "'sha256-", "frame-ancestors 'none'")
	if strings.Contains(csp, "unsafe") || strings.Contains(csp, "script-src") {
		t.Errorf("policy %q", csp)
	}
	if _, body := v.read(res); strings.Contains(body, " style=\"") {
		t.Error("the book has inline styles, which its policy does not allow")
	}
}

func TestBookName(t *testing.T) {
	for name, want := range map[string]string{
		"Curlew": "curlew-book.html", "Curlew, first draft": "curlew-first-draft-book.html",
		"": "rig-book.html", "../../\"x": "x-book.html", "Ångström": "ngstrm-book.html",
	} {
		if got := bookName(name); got != want {
			t.Errorf("bookName(%q) = %q, want %q", name, got, want)
		}
	}
}

// A link to a place on the form must lead to an element that is there, also without
// scripts; and no two elements share an id.
func TestLinksIntoTheFormArrive(t *testing.T) {
	for _, name := range examples.Names() {
		v := visit(t, name)
		seen := map[string]bool{}
		for _, path := range []string{"/", "/rig", "/fit"} {
			_, body := v.get(path)
			for _, m := range regexp.MustCompile(`href="(/rig[?#][^"]*)"`).FindAllStringSubmatch(body, -1) {
				link := html.UnescapeString(m[1])
				if page, id, _ := strings.Cut(link, "#"); id != "" && !seen[link] {
					seen[link] = true
					arrives(t, v, page, id)
				}
			}
		}
		if len(seen) == 0 {
			t.Errorf("%s: no link into the form", name)
		}
	}
}

func arrives(t *testing.T, v *visitor, page, id string) {
	t.Helper()
	_, form := v.get(page)
	ids := map[string]bool{}
	for _, m := range regexp.MustCompile(` id="([^"]+)"`).FindAllStringSubmatch(form, -1) {
		if ids[m[1]] {
			t.Errorf("%s: id %q stands twice", page, m[1])
		}
		ids[m[1]] = true
	}
	if !ids[id] {
		t.Errorf("%s: no element %q on the form", page, id)
	}
}

// Everyone sees a whole page and the file is a rig at every moment, however
// many visitors read and write at once.
func TestManyVisitorsAtOnce(t *testing.T) {
	v := visit(t, "curlew-draft")
	var all sync.WaitGroup
	for i := range 6 {
		all.Go(func() {
			for _, path := range []string{"/", "/fit", "/wire", "/rig", "/book/read"} {
				f := url.Values{"path": {equalise}, "value": {strconv.Itoa(50+i) + " V"}}
				r := httptest.NewRequest(http.MethodPost, "/rig/set", strings.NewReader(f.Encode()))
				r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
				for _, r := range []*http.Request{r, httptestGet(path)} {
					r.Host = v.host
					w := httptest.NewRecorder()
					v.handler.ServeHTTP(w, r)
					if w.Code >= 400 {
						t.Errorf("%s %s: status %d", r.Method, r.URL.Path, w.Code)
					}
				}
			}
		})
	}
	all.Wait()
	if _, err := rig.Open(v.file); err != nil {
		t.Error(err)
	}
}
