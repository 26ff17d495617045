package web

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
)

const phrase = "glue pot and nipping press"

// phraseHash was made from phrase at the least cost, so that tests are quick.
const phraseHash = "$argon2id$v=19$m=64,t=1,p=1$VeVKAmSPJ52vBGA23owIMg$bkVUEQvfGFHptMWMkkmAKyMCljWsaIJfLo3pSDiw4Gg"

func shared(c *Config) { c.Passphrase = phraseHash }

func (v *visitor) try(passphrase string) *http.Response {
	v.t.Helper()
	return v.post("/login", url.Values{"passphrase": {passphrase}, "next": {"/fit"}})
}

func TestWithoutThePassphraseNothingIsShown(t *testing.T) {
	v := visit(t, "curlew-draft", shared)
	v.host = "192.168.4.1:8000"
	before := v.onDisk()
	for _, path := range allPages {
		res := v.do(httptestGet(path))
		if res.StatusCode != http.StatusSeeOther || !strings.HasPrefix(res.Header.Get("Location"), "/login?next=") {
			t.Errorf("%s: %d to %q", path, res.StatusCode, res.Header.Get("Location"))
		}
	}
	if _, body := v.get("/login?next=/fit"); strings.Contains(body, "Curlew") || !strings.Contains(body, `value="/fit"`) {
		t.Error("the login page names the rig or forgets where to go")
	}
	if res := v.post("/show", url.Values{"light": {"night"}, "back": {"/login"}}); res.Header.Get("Location") != "/login" || len(res.Cookies()) != 1 {
		t.Errorf("light cannot be chosen on the login page: %d", res.StatusCode)
	}
	if res := v.post("/rig/set", form("", equalise, "62.0 V", "off")); res.StatusCode != http.StatusUnauthorized || v.onDisk() != before {
		t.Errorf("set: %d", res.StatusCode)
	}
}

func TestPassphraseOpensAndLeavingCloses(t *testing.T) {
	v := visit(t, "curlew", shared)
	v.host = "192.168.4.1:8000"
	res := v.try(phrase)
	if res.StatusCode != http.StatusSeeOther || res.Header.Get("Location") != "/fit" {
		t.Fatalf("%d to %q", res.StatusCode, res.Header.Get("Location"))
	}
	c := res.Cookies()[0]
	if !c.HttpOnly || c.SameSite != http.SameSiteStrictMode || c.Path != "/" || len(c.Value) < 26 {
		t.Errorf("cookie %+v", c)
	}
	v.cookies = res.Cookies()
	if status, body := v.get("/"); status != http.StatusOK || !strings.Contains(body, "/logout") {
		t.Errorf("status %d", status)
	}
	v.post("/logout", nil)
	if status, _ := v.get("/"); status != http.StatusSeeOther {
		t.Errorf("after leaving: status %d", status)
	}
}

// Only a hash is taken, so that no passphrase lies about in a setting.
func TestAPassphraseThatIsNoHashIsRefused(t *testing.T) {
	_, err := New(Config{Path: t.TempDir(), Passphrase: phrase})
	if err == nil || strings.Contains(err.Error(), phrase) {
		t.Error(err)
	}
}
