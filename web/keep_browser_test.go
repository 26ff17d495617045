package web

import (
	"context"
	"net"
	"net/http"
	"net/http/httptest"
	"sync/atomic"
	"testing"

	"github.com/chromedp/chromedp"

	"ampstead/store"
)

// van serves the pages over a connection that comes and goes, at one address.
type van struct {
	t    *testing.T
	v    *visitor
	addr string
	stop func()
	deaf atomic.Bool   // takes what is sent, and its answer is lost
	lost chan struct{} // an answer was lost
}

func newVan(t *testing.T, v *visitor) *van {
	van := &van{t: t, v: v, addr: "127.0.0.1:0", lost: make(chan struct{}, 1)}
	van.connect()
	t.Cleanup(func() { van.leave() })
	return van
}

func (van *van) connect() {
	van.t.Helper()
	ln, err := net.Listen("tcp", van.addr)
	if err != nil {
		van.t.Fatal(err)
	}
	van.addr = ln.Addr().String()
	server := &http.Server{Handler: http.HandlerFunc(van.answer), ReadHeaderTimeout: headerTimeout}
	done := make(chan struct{})
	go func() { defer close(done); _ = server.Serve(ln) }()
	van.stop = func() { _ = server.Close(); <-done }
}

func (van *van) answer(w http.ResponseWriter, r *http.Request) {
	if van.deaf.Load() && r.Method == http.MethodPost {
		van.v.handler.ServeHTTP(httptest.NewRecorder(), r)
		select {
		case van.lost <- struct{}{}:
		default:
		}
		panic(http.ErrAbortHandler)
	}
	van.v.handler.ServeHTTP(w, r)
}

func (van *van) leave() { van.stop() }

// readings are those on the disk, read as another program would.
func (v *visitor) readings() []store.Reading {
	v.t.Helper()
	book, err := store.Open(context.Background(), v.file, store.Options{ReadOnly: true})
	if err != nil {
		v.t.Fatal(err)
	}
	defer book.Close()
	list, err := book.Readings(context.Background())
	if err != nil {
		v.t.Fatal(err)
	}
	return list
}

func cellAt(n string) string { return `document.getElementById("group.` + n + `")` }

// typeReading types the three groups of Wren, each ended by the enter key.
func typeReading(t *testing.T, ctx context.Context, values ...string) {
	t.Helper()
	run(t, ctx, chromedp.Evaluate[bool](cellAt("1")+`.focus() === undefined`))
	for _, v := range values {
		run(t, ctx, chromedp.KeyEvent(v+"\r"))
	}
}

func waits(text string) chromedp.Action[bool] {
	return chromedp.Poll[bool](`!document.getElementById("waiting").hidden && document.querySelector("#waiting b").textContent === "` + text + `"`)
}

func keepsNow(t *testing.T, ctx context.Context) {
	t.Helper()
	run(t, ctx, chromedp.Poll[bool](`document.documentElement.classList.contains("keeps")`))
}

// A phone in the van: numbers with the enter key and a decimal comma, a slip asked
// about at once, then no connection, the page opened anew without one, and what was
// kept sent exactly once though an answer gets lost.
func TestKeepOnAPhoneOffline(t *testing.T) {
	v := visitText(t, wren)
	van := newVan(t, v)
	at := "http://" + van.addr
	ctx := browse(t)
	run(t, ctx, chromedp.Navigate(at+"/keep"))
	keepsNow(t, ctx)
	if wide := run(t, ctx, chromedp.Evaluate[int]("document.documentElement.scrollWidth")); wide > 390 {
		t.Errorf("%d px wide", wide)
	}
	for _, tall := range []string{cellAt("1"), `document.getElementById("store")`} {
		if h := run(t, ctx, chromedp.Evaluate[float64](tall+`.getBoundingClientRect().height`)); h < 48 {
			t.Errorf("%s is %g px high: too small for a thumb", tall, h)
		}
	}

	typeReading(t, ctx, "3,91", "3912", "3.905")
	if at := run(t, ctx, chromedp.Evaluate[string](`document.activeElement.name`)); at != "rested" {
		t.Errorf("enter in the last field leads to %q", at)
	}
	ask := `document.getElementById("ask.2")`
	if said := run(t, ctx, chromedp.Evaluate[string](ask+`.textContent`)); said != "3912 V cannot be a cell. Take 3.912" {
		t.Errorf("asked %q", said)
	}
	run(t, ctx, chromedp.Evaluate[bool](ask+`.querySelector("button").click() === undefined`))
	if got := run(t, ctx, chromedp.Evaluate[string](cellAt("2")+`.value`)); got != "3.912" {
		t.Errorf("taken %q", got)
	}
	run(t, ctx, chromedp.Poll[bool](`caches.open("ampstead-keep").then(c => c.match("/static/keep-fields.js")).then(r => r !== undefined)`))

	van.leave()
	run(t, ctx, chromedp.Evaluate[bool](`document.getElementById("store").click() === undefined`))
	run(t, ctx, waits("1 waiting."))
	if got := run(t, ctx, chromedp.Evaluate[string](cellAt("1")+`.value`)); got != "" {
		t.Errorf("the form still holds %q", got)
	}
	if n := len(v.readings()); n != 0 {
		t.Fatalf("%d readings arrived without a connection", n)
	}

	run(t, ctx, chromedp.Navigate(at+"/keep"))
	keepsNow(t, ctx)
	run(t, ctx, waits("1 waiting."))
	typeReading(t, ctx, "3.90", "3.90", "3.89")
	run(t, ctx, chromedp.Evaluate[bool](`document.getElementById("store").click() === undefined`))
	run(t, ctx, waits("2 waiting."))

	van.deaf.Store(true)
	van.connect()
	run(t, ctx, chromedp.Evaluate[bool](`document.querySelector("#waiting button").click() === undefined`))
	select {
	case <-van.lost:
	case <-ctx.Done():
		t.Fatal("what waits was not sent")
	}
	run(t, ctx, waits("2 waiting."))
	if n := len(v.readings()); n != 2 {
		t.Fatalf("%d readings are stored after an answer was lost", n)
	}
	van.deaf.Store(false)
	run(t, ctx, chromedp.Evaluate[bool](`(document.querySelector("#waiting button") || {click() {}}).click() === undefined`))
	for ctx.Err() == nil { // the page that is asked goes away while it is asked
		if ok, err := chromedp.Run(ctx, chromedp.Poll[bool](`location.search === "?done=stored" && document.getElementById("waiting").hidden`)); err == nil && ok {
			break
		}
	}
	list := v.readings()
	if len(list) != 2 || *list[0].Groups[0] != 3.91 || *list[0].Groups[1] != 3.912 || *list[1].Groups[2] != 3.89 {
		t.Errorf("stored %+v", list)
	}
}
