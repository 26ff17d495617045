package web

import (
	"bytes"
	"encoding/json"
	"fmt"
	"image/png"
	"net/http"
	"net/netip"
	"strings"
	"testing"

	cdpage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"ampstead/internal/lan"
	"ampstead/internal/qr"
	"ampstead/look"
)

// reached gives this machine two addresses, whatever networks it has.
func reached(c *Config) {
	c.reach = func() []lan.Address {
		return []lan.Address{{Interface: "wlan0", IP: netip.MustParseAddr("192.168.7.31")}, {Interface: "eth0", IP: netip.MustParseAddr("10.1.2.3")}}
	}
}

func alone(c *Config) { c.reach = func() []lan.Address { return nil } }

// enter gives the passphrase and keeps the session.
func (v *visitor) enter() {
	v.t.Helper()
	res := v.try(phrase)
	if res.StatusCode != http.StatusSeeOther {
		v.t.Fatalf("the passphrase was refused: %d", res.StatusCode)
	}
	v.cookies = res.Cookies()
}

func TestPhonePageShowsEveryAddress(t *testing.T) {
	v := visit(t, "curlew", shared, reached)
	v.host = "192.168.7.31:4680"
	v.enter()
	for page, want := range map[string]string{"": "/", "?page=/keep": "/keep", "?page=//elsewhere.example/x": "/", "?page=/keep?key=secret": "/keep",
		"?page=/" + strings.Repeat("x", longestPage): "/", "?page=https://elsewhere.example": "/"} {
		status, body := v.get("/phone" + page)
		if status != http.StatusOK {
			t.Fatalf("%s: status %d", page, status)
		}
		for _, address := range []string{"http://192.168.7.31:4680" + want, "http://10.1.2.3:4680" + want} {
			code, err := qr.New(address)
			if err != nil {
				t.Fatal(err)
			}
			contains(t, "/phone"+page, body, `href="`+address+`"`, code.SVG("QR code of "+address))
		}
		contains(t, "/phone", body, "wlan0", "eth0", "Add to home screen", "https")
		for _, never := range []string{phrase, phraseHash, "--lan", "elsewhere", "secret"} {
			if strings.Contains(body, never) {
				t.Errorf("/phone%s shows %q", page, never)
			}
		}
	}
}

func TestPhonePageOfThisMachineOnly(t *testing.T) {
	v := visit(t, "curlew", reached)
	_, body := v.get("/phone")
	contains(t, "/phone", body, "ampstead serve my-rig --lan")
	if strings.Contains(body, "192.168.7.31") || strings.Contains(body, `class="qr"`) {
		t.Error("an address is shown that nobody is answered at")
	}
	v = visit(t, "curlew", shared, alone)
	v.host = "192.168.7.31:4680"
	v.enter()
	_, body = v.get("/phone")
	contains(t, "/phone", body, "in no network that a phone could reach")
}

// A stranger learns neither the addresses nor the rig's name.
func TestPhonePageIsBehindThePassphrase(t *testing.T) {
	v := visit(t, "curlew", shared, reached)
	v.host = "192.168.7.31:4680"
	for _, path := range []string{"/phone", "/app.webmanifest"} {
		if res := v.do(httptestGet(path)); res.StatusCode != http.StatusSeeOther {
			t.Errorf("%s: status %d", path, res.StatusCode)
		}
	}
	if _, body := v.get("/login"); strings.Contains(body, "webmanifest") || strings.Contains(body, "/phone") {
		t.Error("the login page leads to what is behind it")
	}
}

func TestManifestOfEachRig(t *testing.T) {
	v, _ := visitWorkshop(t, "curlew", "curlew", "dipper")
	for base, name := range map[string]string{"": "Curlew", "/rigs/dipper": "Dipper"} {
		res := v.do(httptestGet(base + "/app.webmanifest"))
		_, body := v.read(res)
		var m manifest
		if err := json.Unmarshal([]byte(body), &m); err != nil {
			t.Fatalf("%s: %v\n%s", base, err, body)
		}
		if kind := res.Header.Get("Content-Type"); kind != "application/manifest+json" {
			t.Errorf("%s: content type %q", base, kind)
		}
		if m.Name != name+" · Ampstead" || m.ShortName != name || m.Start != base+"/" || m.ID != base+"/" || m.Scope != "/" || m.Display != "standalone" {
			t.Errorf("%s: %+v", base, m)
		}
		if _, page := v.get(base + "/"); !strings.Contains(page, `href="`+base+`/app.webmanifest"`) {
			t.Errorf("%s: the page does not name its manifest", base)
		}
		checkIcons(t, v, m)
	}
	bare, _ := visitWorkshop(t, "", "dipper")
	if _, body := bare.get("/app.webmanifest"); !strings.Contains(body, `"name": "Ampstead"`) {
		t.Errorf("a workshop: %s", body)
	}
}

// checkIcons loads every icon: it must be a picture of the size that is promised.
func checkIcons(t *testing.T, v *visitor, m manifest) {
	t.Helper()
	purposes := ""
	for _, i := range m.Icons {
		res := v.do(httptestGet(i.From))
		_, body := v.read(res)
		img, err := png.Decode(bytes.NewReader([]byte(body)))
		if err != nil || res.Header.Get("Content-Type") != i.Kind {
			t.Errorf("%s: %v, %s", i.From, err, res.Header.Get("Content-Type"))
			continue
		}
		if got := fmt.Sprintf("%dx%d", img.Bounds().Dx(), img.Bounds().Dy()); got != i.Sizes {
			t.Errorf("%s is %s, want %s", i.From, got, i.Sizes)
		}
		purposes += i.Purpose + " " + i.Sizes + ", "
	}
	if want := "any 192x192, any 512x512, maskable 512x512, "; purposes != want {
		t.Errorf("icons %q, want %q", purposes, want)
	}
}

// What a phone paints around the pages is their paper, by day and by night.
func TestThemeColoursAreThePaper(t *testing.T) {
	for _, paper := range []string{dayPaper, nightPaper} {
		contains(t, "look.css", look.CSS, "--paper: "+paper+";")
	}
	v := visit(t, "curlew")
	_, body := v.get("/")
	contains(t, "/", body, `media="(prefers-color-scheme: light)" content="`+dayPaper+`"`, `media="(prefers-color-scheme: dark)" content="`+nightPaper+`"`, "/static/icon-touch-180.png")
	v.cookies = []*http.Cookie{{Name: lightCookie, Value: "night"}}
	_, body = v.get("/")
	contains(t, "/ by night", body, `<meta name="theme-color" content="`+nightPaper+`">`)
}

// A browser takes the manifest without complaint, and would install the page.
func TestPhoneBrowser(t *testing.T) {
	v := visit(t, "curlew", reached)
	at := v.serve()
	ctx := browse(t)
	run(t, ctx, chromedp.Navigate(at+"/phone"))
	got, err := chromedp.Call(ctx, cdpage.GetAppManifest, cdpage.GetAppManifestParams{})
	if err != nil {
		t.Fatal(err)
	}
	if got.URL != at+"/app.webmanifest" || !strings.Contains(got.Data, "Curlew") {
		t.Errorf("manifest at %q: %s", got.URL, got.Data)
	}
	for _, e := range got.Errors {
		t.Errorf("manifest, line %d: %s", e.Line, e.Message)
	}
	install, err := chromedp.Call(ctx, cdpage.GetInstallabilityErrors, struct{}{})
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range install.InstallabilityErrors {
		t.Errorf("the page cannot be installed: %s %v", e.ErrorID, e.ErrorArguments)
	}
}

// The square is as wide as it is high, no wider than a phone, dark on light by night
// too, and nothing of the pages' own style gets into it.
func TestPhoneBrowserShowsTheCode(t *testing.T) {
	v := visit(t, "curlew", shared, reached)
	at := v.serve()
	ctx := browse(t)
	run(t, ctx, chromedp.Navigate(at+"/login"))
	run(t, ctx, chromedp.Evaluate[bool](`fetch("/login", {method: "POST", body: new URLSearchParams({passphrase: "`+phrase+`"})}).then(() => { window.entered = true; }), true`))
	run(t, ctx, chromedp.Poll[bool](`window.entered === true`))
	run(t, ctx, chromedp.Navigate(at+"/phone"))
	for _, theme := range []string{"day", "night"} {
		run(t, ctx, chromedp.Evaluate[bool](`document.documentElement.dataset.theme = "`+theme+`", true`))
		got := run(t, ctx, chromedp.Evaluate[string](`(() => { const s = document.querySelector(".qr"), b = s.getBoundingClientRect();
			return [b.width > 200 && b.width < 390 && Math.abs(b.width - b.height) < 1, getComputedStyle(s.querySelector("rect")).fill, getComputedStyle(s.querySelector("path")).fill].join(" "); })()`))
		if want := "true rgb(253, 251, 245) rgb(36, 33, 28)"; got != want {
			t.Errorf("%s: got %q, want %q", theme, got, want)
		}
	}
}
