package web

import (
	"context"
	"net"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// requireBrowser is the environment variable that turns a missing browser from
// a skip into a failure.
const requireBrowser = "AMPSTEAD_REQUIRE_BROWSER"

// browse opens a browser of a phone's width; the test is skipped without one.
func browse(t *testing.T) context.Context {
	t.Helper()
	return browseFor(t, 90*time.Second)
}

func browseFor(t *testing.T, long time.Duration) context.Context {
	t.Helper()
	path := findBrowser()
	switch {
	case path == "" && os.Getenv(requireBrowser) != "":
		t.Fatalf("no Chromium is installed and %s is set", requireBrowser)
	case path == "":
		t.Skip("no Chromium is installed on this machine: the browser test did not run")
	}
	ctx, cancel := context.WithTimeout(context.Background(), long)
	t.Cleanup(cancel)
	ctx, cancel = chromedp.NewExecAllocator(ctx,
		chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.Headless, chromedp.DisableGPU, chromedp.NoFirstRun,
		chromedp.UserDataDir(t.TempDir()), chromedp.WindowSize(390, 844),
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-sync", true))
	t.Cleanup(cancel)
	ctx, cancel = chromedp.NewContext(ctx)
	t.Cleanup(func() {
		// Closed before the folder of its profile is removed.
		_ = chromedp.Cancel(ctx)
		cancel()
	})
	run(t, ctx, chromedp.EmulateViewport(390, 844))
	return ctx
}

func findBrowser() string {
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome", "chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	return ""
}

// run does one action and returns its value.
func run[T any](t *testing.T, ctx context.Context, action chromedp.Action[T]) T {
	t.Helper()
	value, err := chromedp.Run(ctx, action)
	if err != nil {
		t.Fatal(err)
	}
	return value
}

// serve puts a site on a port of this machine and returns its address.
func (v *visitor) serve() string {
	v.t.Helper()
	ln, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		v.t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- Serve(ctx, ln, v.handler) }()
	v.t.Cleanup(func() {
		cancel()
		if err := <-done; err != nil {
			v.t.Errorf("Serve: %v", err)
		}
	})
	return "http://" + ln.Addr().String()
}

func TestBrowser(t *testing.T) {
	v := visit(t, "curlew-draft")
	at := v.serve()
	ctx := browse(t)
	t.Run("fits a phone", func(t *testing.T) { fitsAPhone(t, ctx, at) })
	t.Run("answers while it is filled in", func(t *testing.T) { answersLive(t, ctx, v, at) })
	t.Run("works by keyboard", func(t *testing.T) { worksByKeyboard(t, ctx, v, at) })
	t.Run("works without scripts", func(t *testing.T) { marksNothingItNeedsScriptsFor(t, v) })
}

// fitsAPhone opens every page 390 px wide: nothing may stick out sideways, not
// even when every detail is open (but in the book, which is for paper).
func fitsAPhone(t *testing.T, ctx context.Context, at string) {
	for _, path := range allPages {
		run(t, ctx, chromedp.Navigate(at+path))
		for _, state := range []string{"closed", "open"} {
			if path == "/book/read" && state == "open" {
				continue
			}
			wide := run(t, ctx, chromedp.Evaluate[int]("document.documentElement.scrollWidth"))
			if wide > 390 {
				who := run(t, ctx, chromedp.Evaluate[string](`[...document.querySelectorAll("body *")].filter(e => e.getBoundingClientRect().right > 391).slice(0, 5).map(e => e.tagName + "." + e.className).join(" ")`))
				t.Errorf("%s with details %s is %d px wide: %s", path, state, wide, who)
			}
			run(t, ctx, chromedp.Evaluate[int](`(() => { const all = document.querySelectorAll("details"); all.forEach(d => d.open = true); return all.length; })()`))
		}
	}
}

func answersLive(t *testing.T, ctx context.Context, v *visitor, at string) {
	run(t, ctx, chromedp.Navigate(at+"/rig#"+elementID(equalise)))
	id := elementID(equalise)
	input := `document.getElementById("` + id + `")`
	run(t, ctx, chromedp.Poll[bool](`document.documentElement.classList.contains("live") && `+input+` !== null && `+input+`.closest("details").open`))
	stops := run(t, ctx, chromedp.Evaluate[int](`document.querySelectorAll("#panel .short .stop").length`))

	fill(t, ctx, input, "62")
	run(t, ctx, chromedp.Poll[bool](input+`.getAttribute("aria-invalid") === "true" && document.getElementById("`+id+`-wrong").textContent !== ""`))
	contains(t, "file", v.onDisk(), "equalise: 62.0 V")

	fill(t, ctx, input, "off")
	run(t, ctx, chromedp.Poll[bool](`document.querySelectorAll("#panel .short .stop").length < `+itoa(stops)))
	run(t, ctx, chromedp.Poll[bool](`document.getElementById("say").textContent.startsWith("Saved.")`))
	if notes := run(t, ctx, chromedp.Evaluate[string](`document.getElementById("`+id+`-notes").textContent`)); strings.Contains(notes, "stop") {
		t.Errorf("beside the field it still says %q", notes)
	}
	if run(t, ctx, chromedp.Evaluate[bool](input+`.hasAttribute("aria-invalid")`)) {
		t.Error("the field is still marked wrong")
	}
	contains(t, "file", v.onDisk(), "equalise: off", "# left as it came")

	// One press takes the recommended value over.
	take := `document.querySelector("button.take[value='charge.roof solar.settings.absorption']")`
	run(t, ctx, chromedp.Evaluate[bool](take+`.click() === undefined`))
	run(t, ctx, chromedp.Poll[bool](take+` === null`))
	contains(t, "file", v.onDisk(), "absorption: 49.2 V")
}

// fill types into a field and leaves it, as a person does.
func fill(t *testing.T, ctx context.Context, input, value string) {
	t.Helper()
	run(t, ctx, chromedp.Evaluate[bool](`(() => { const i = `+input+`; i.focus(); i.value = ""; return document.activeElement === i; })()`))
	run(t, ctx, chromedp.KeyEvent(value))
	run(t, ctx, chromedp.KeyEvent("\t"))
}

// worksByKeyboard goes to a section with the tab key alone, opens it, and saves
// a value by going on to the next.
func worksByKeyboard(t *testing.T, ctx context.Context, v *visitor, at string) {
	run(t, ctx, chromedp.Navigate(at+"/rig"))
	run(t, ctx, chromedp.Poll[bool](`document.documentElement.classList.contains("live")`))
	tabTo(t, ctx, `document.activeElement.matches("#s-about > summary")`)
	run(t, ctx, chromedp.KeyEvent("\r"))
	run(t, ctx, chromedp.Poll[bool](`document.getElementById("s-about").open && document.getElementById("about.note") !== null`))
	tabTo(t, ctx, `document.activeElement.id === "about.note"`)
	run(t, ctx, chromedp.Evaluate[bool](`document.activeElement.select() === undefined`))
	run(t, ctx, chromedp.KeyEvent("kept by the stove\t"))
	run(t, ctx, chromedp.Poll[bool](`document.getElementById("say").textContent.startsWith("Saved.")`))
	contains(t, "file", v.onDisk(), "note: kept by the stove")
}

func tabTo(t *testing.T, ctx context.Context, there string) {
	t.Helper()
	for range 60 {
		run(t, ctx, chromedp.KeyEvent("\t"))
		if run(t, ctx, chromedp.Evaluate[bool](there)) {
			shows := run(t, ctx, chromedp.Evaluate[bool](`getComputedStyle(document.activeElement).outlineStyle !== "none"`))
			if !shows {
				t.Errorf("%s has the focus and does not show it", there)
			}
			return
		}
	}
	t.Fatalf("60 tabs do not lead to %s", there)
}

// marksNothingItNeedsScriptsFor checks what a browser without scripts gets: a way
// into each section, a form with a save button in those that are open, and nothing
// hidden until a script shows it.
func marksNothingItNeedsScriptsFor(t *testing.T, v *visitor) {
	_, body := v.get("/rig?open=about&open=bank")
	if closed, ways := strings.Count(body, `<details class="section`), strings.Count(body, `href="/rig?open=`); closed != ways+2 {
		t.Errorf("%d sections, 2 of them open, and %d ways into them", closed, ways)
	}
	if forms, saves := strings.Count(body, `action="/rig/set"`), strings.Count(body, `class="actions save"`); forms == 0 || forms != saves {
		t.Errorf("%d forms and %d save buttons", forms, saves)
	}
	if strings.Contains(body, " hidden>") || strings.Contains(body, "<noscript") {
		t.Error("the form depends on scripts")
	}
}
