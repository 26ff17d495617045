package web

import (
	"context"
	"os"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// The audit opens every page in one browser, at the widths of a phone, a tablet and a
// laptop, once by day and once by night, works through some by the keys, and asks audit.js what is wrong with it.

// mostShift is how far a page may jump while it loads, by the measure of layout shift;
// 0.1 is commonly called good (common practice, no source).
const mostShift = 0.01

func TestAuditInABrowser(t *testing.T) {
	ctx := browseFor(t, 8*time.Minute)
	v := visitAudit(t)
	at, pages := v.serve(), v.walk()
	login := visit(t, "curlew", shared).serve()
	watched, _ := visitLive(t)
	live := watched.serve()
	for _, scheme := range []string{"light", "dark"} {
		t.Run(scheme, func(t *testing.T) {
			a := openAuditor(t, ctx, at, scheme)
			for _, path := range pages {
				a.page(path)
			}
			openAuditor(t, ctx, login, scheme).page("/login")
			openAuditor(t, ctx, live, scheme).page("/keep/live")
			run(t, ctx, chromedp.Navigate("about:blank")) // ends the stream of live values
		})
	}
	t.Run("keys", func(t *testing.T) { openAuditor(t, ctx, at, "light").allKeys() })
	t.Run("titles", func(t *testing.T) { v.titles(t, pages) })
}

// titles holds every page to a title of its own (2.4.2).
func (v *visitor) titles(t *testing.T, pages []string) {
	titles := map[string]string{}
	for _, path := range pages {
		_, body := v.get(path)
		_, rest, _ := strings.Cut(body, "<title>")
		title, _, _ := strings.Cut(rest, "</title>")
		address, _, _ := strings.Cut(path, "?")
		if other, ok := titles[title]; ok && other != address {
			t.Errorf("%s and %s both have the title %q", other, address, title)
		}
		titles[title] = address
	}
}

// auditor asks a browser about the pages of one site.
type auditor struct {
	t      *testing.T
	ctx    context.Context
	at     string
	script string
	day    bool

	shown string // path of the open page, which may itself be an answer to a mistake

	mu    sync.Mutex
	noted []string // what the browser complained of, and requests that leave
}

func openAuditor(t *testing.T, ctx context.Context, at, scheme string) *auditor {
	t.Helper()
	script, err := os.ReadFile("testdata/audit.js")
	if err != nil {
		t.Fatal(err)
	}
	a := &auditor{t: t, ctx: ctx, at: at, script: string(script), day: scheme == "light"}
	listening, stop := context.WithCancel(ctx)
	t.Cleanup(stop) // of this subtest: the next listens for itself
	if err := chromedp.Listen(listening, a.note); err != nil {
		t.Fatal(err)
	}
	media := emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}, {Name: "prefers-reduced-motion", Value: "reduce"}}}
	if _, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, media); err != nil {
		t.Fatal(err)
	}
	return a
}

// note keeps what a page must not do: ask another host, fail, or break its policy.
func (a *auditor) note(event any) {
	a.mu.Lock()
	defer a.mu.Unlock()
	what := ""
	switch e := event.(type) {
	case *network.EventRequestWillBeSent:
		if u := e.Request.URL; !strings.HasPrefix(u, "http://127.0.0.1:") && !strings.HasPrefix(u, "data:") && !strings.HasPrefix(u, "blob:") {
			what = "asks for " + u
		}
	case *runtime.EventExceptionThrown:
		what = "fails: " + e.ExceptionDetails.Text
	case *log.EventEntryAdded:
		if e.Entry.Level == log.EntryLevelError && e.Entry.URL != a.at+a.shown {
			what = "complains: " + e.Entry.Text + " " + e.Entry.URL
		}
	}
	if what != "" {
		a.noted = append(a.noted, what)
	}
}

// page looks at one page at every width. What depends on room alone is asked by day only.
func (a *auditor) page(path string) {
	a.t.Helper()
	paper := strings.HasSuffix(path, "/book/read") // its numbers stay closed
	a.open(path, 390)
	if a.day {
		a.ask(path, 390, "overflow()")
	}
	if !paper {
		run(a.t, a.ctx, chromedp.Evaluate[int](`audit.openAll()`))
	}
	a.ask(path, 390, "contrast()")
	if a.day {
		a.ask(path, 390, "overflow()", "targets(true)")
		if !paper {
			run(a.t, a.ctx, chromedp.EmulateViewport(320, 900)) // 1.4.10 asks for this width
			a.ask(path, 320, "overflow()")
		}
		run(a.t, a.ctx, chromedp.EmulateViewport(820, 900))
		a.ask(path, 820, "overflow()", "targets(false)")
	}
	a.open(path, 1440)
	a.ask(path, 1440, "contrast()")
	if a.day {
		a.ask(path, 1440, "overflow()", "targets(false)", "measure()", "still()", "structure()")
	}
	a.mu.Lock()
	defer a.mu.Unlock()
	for _, what := range a.noted {
		a.t.Errorf("%s %s", path, what)
	}
	a.noted = nil
}

// open shows a page at a width and sees whether it jumps while it loads.
func (a *auditor) open(path string, width int64) {
	a.t.Helper()
	run(a.t, a.ctx, chromedp.EmulateViewport(width, 900))
	a.mu.Lock()
	a.shown = path
	a.mu.Unlock()
	run(a.t, a.ctx, chromedp.Navigate(a.at+path))
	run(a.t, a.ctx, chromedp.Evaluate[bool](a.script+"; true"))
	if shift := run(a.t, a.ctx, chromedp.Evaluate[float64](`audit.shift()`, chromedp.EvalAwaitPromise)); shift > mostShift {
		a.t.Errorf("%s at %d px jumps by %.3f while it loads", path, width, shift)
	}
}

// ask puts questions of audit.js to the open page, and tells the first faults of each;
// the rest is seldom another kind.
func (a *auditor) ask(path string, width int64, questions ...string) {
	a.t.Helper()
	for _, question := range questions {
		faults := run(a.t, a.ctx, chromedp.Evaluate[[]string]("audit."+question))
		for i, fault := range faults {
			if i == 5 {
				a.t.Errorf("%s at %d px: and %d more", path, width, len(faults)-i)
				break
			}
			a.t.Errorf("%s at %d px: %s", path, width, fault)
		}
	}
}
