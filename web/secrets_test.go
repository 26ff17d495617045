package web

import (
	"bytes"
	"log"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// secrets are what no answer may hold.
var theSecrets = map[string]string{
	"the passphrase":              phrase,
	"its hash":                    phraseHash,
	"the broker's password":       "wet-sandpaper-240",
	"the database's password":     "linen-thread-18-3",
	"the database, percent-coded": "linen%2Dthread%2D18%2D3",
}

// Every page is asked for, well and badly, while the database does not answer: no
// answer, header or line of the log holds a secret or tells where things lie on the
// machine.
func TestNoAnswerTellsASecret(t *testing.T) {
	var logged bytes.Buffer
	log.SetOutput(&logged)
	defer log.SetOutput(os.Stderr)
	t.Setenv("BROKER_PASSWORD", theSecrets["the broker's password"])
	v := visitAll(t, func(c *Config) {
		c.Store = "postgres://van:" + theSecrets["the database's password"] + "@127.0.0.1:1/van?connect_timeout=2"
	})
	v.write(v.onDisk() + liveSection + "  password_variable: BROKER_PASSWORD\n")
	v.cookies = v.try(phrase).Cookies()
	told := map[string]string{"the session": v.cookies[0].Value, "the folder": filepath.Dir(v.file)}
	for what, secret := range theSecrets {
		told[what] = secret
	}
	check := func(one route, res *http.Response, body string) {
		var head bytes.Buffer
		_ = res.Header.Write(&head) // into memory
		for what, secret := range told {
			if what == "the session" && one.path == "/login" {
				continue
			}
			if strings.Contains(body, secret) || strings.Contains(head.String(), secret) {
				t.Errorf("%s %s tells %s", one.method, one.path, what)
			}
		}
	}
	v.askAll(func(one route) *http.Request { return plainRequest(route{one.pattern, http.MethodGet, one.path}) }, check)
	for _, one := range everyRoute(v.handler.(*pages).hall) {
		if one.method != http.MethodPost || one.path == "/logout" || one.path == "/login" {
			continue
		}
		res := v.post(one.path, url.Values{"passphrase": {phrase}, "id": {"p1"}, "group.1": {"3.7"}, "do": {"start"}, "what": {"balanced"}})
		_, body := v.read(res)
		check(one, res, body)
	}
	for what, secret := range told {
		if strings.Contains(logged.String(), secret) {
			t.Errorf("the log tells %s:\n%s", what, logged.String())
		}
	}
}

// A page that fails inside tells the visitor nothing of the insides, and the server
// goes on.
func TestAPageThatFailsInside(t *testing.T) {
	var logged bytes.Buffer
	before := log.Default().Writer()
	log.SetOutput(&logged)
	defer log.SetOutput(before)
	broken := http.HandlerFunc(func(http.ResponseWriter, *http.Request) { panic("inner detail") })
	v := newVisitor(t, "")
	v.handler = guard(broken, newHosts(false, nil))
	res := v.do(httptestGet("/fit?x=1"))
	status, body := v.read(res)
	if status != http.StatusInternalServerError || strings.Contains(body, "inner detail") || lacks(res.Header) != "" {
		t.Errorf("%d %q %s", status, body, lacks(res.Header))
	}
	if !strings.Contains(logged.String(), "inner detail") || strings.Contains(logged.String(), "x=1") {
		t.Errorf("logged %q", logged.String())
	}
}
