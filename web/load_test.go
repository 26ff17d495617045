package web

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"sync"
	"testing"
	"time"

	"ampstead/store"
)

// client is a phone on the network.
type client struct {
	http    http.Client
	at      string
	session string
}

// send asks over the network and returns the status and what was answered.
func (c *client) send(method, path, kind, body string) (int, string, error) {
	r, err := http.NewRequest(method, c.at+path, strings.NewReader(body))
	if err != nil {
		return 0, "", err
	}
	r.Header.Set("Accept", "application/json")
	r.Header.Set("Content-Type", kind)
	if c.session != "" {
		r.AddCookie(&http.Cookie{Name: sessionCookie, Value: c.session})
	}
	res, err := c.http.Do(r)
	if err != nil {
		return 0, "", err
	}
	defer res.Body.Close()
	text, err := io.ReadAll(res.Body)
	return res.StatusCode, string(text), err
}

// edit changes one value as the form's module does; an error unless it is saved.
func (c *client) edit(path, value string) error {
	fields := url.Values{"path": {path}, "value": {value}}
	status, body, err := c.send(http.MethodPost, "/rig/set", "application/x-www-form-urlencoded", fields.Encode())
	if err != nil {
		return err
	}
	var a liveAnswer
	if err := json.Unmarshal([]byte(body), &a); status != http.StatusOK || err != nil || !a.Saved {
		return fmt.Errorf("%s = %s: %d %.300s", path, value, status, body)
	}
	return nil
}

// add stores a reading as the page does that kept it.
func (c *client) add(id string, taken time.Time, bank float64) error {
	text, err := json.Marshal(sentReadings{Readings: []store.Reading{{ID: id, Taken: taken, BankV: &bank}}})
	if err != nil {
		return err
	}
	status, body, err := c.send(http.MethodPost, "/keep/readings", "application/json", string(text))
	if err != nil {
		return err
	}
	if status != http.StatusOK || !strings.Contains(body, `"stored":true`) {
		return fmt.Errorf("reading %s: %d %.300s", id, status, body)
	}
	return nil
}

func (c *client) look(path string) error {
	status, body, err := c.send(http.MethodGet, path, "", "")
	if err == nil && status != http.StatusOK {
		err = fmt.Errorf("GET %s: %d %.300s", path, status, body)
	}
	return err
}

// Fifty phones change their own value each, write readings into the logbook and look
// at pages, all at once and over real connections. None meets an error, and what any
// was told is stored, is.
func TestFiftyPhonesAtOnce(t *testing.T) {
	const phones = 50
	rounds := 2
	if testing.Short() {
		rounds = 1
	}
	v := visitText(t, lampRig(t, phones), shared, standIns)
	start := v.clock
	server := httptest.NewServer(v.handler) // without deadlines: a busy machine may take its time
	defer server.Close()
	looks := []string{"/", "/fit", "/keep", "/rig", "/wire", "/rig/text", "/keep/readings.csv"}
	var all sync.WaitGroup
	for n := range phones {
		// A way of its own: closing idle ones of a shared one would cut others off.
		phone := &client{http: http.Client{Transport: &http.Transport{}}, at: server.URL, session: v.handler.(*pages).hall.sessions.open()}
		all.Go(func() {
			defer phone.http.CloseIdleConnections()
			for round := range rounds {
				if err := phone.turn(n, round, start, looks[(n+round)%len(looks)]); err != nil {
					t.Error(err)
				}
			}
		})
	}
	all.Wait()
	for n, w := range lampWatts(t, v.file, phones) {
		if w != 9+rounds {
			t.Errorf("lamp %d draws %d W: an edit was lost", n, w)
		}
	}
	stored := readingIDs(t, v.file)
	for n := range phones {
		for round := range rounds {
			if id := fmt.Sprintf("p%02d-%02d", n, round); stored[id] != 1 {
				t.Errorf("reading %s is there %d times", id, stored[id])
			}
		}
	}
}

// turn is what the nth phone does in a round.
func (c *client) turn(n, round int, day time.Time, page string) error {
	return errors.Join(
		c.edit(lampPath(n), watts(10+round)),
		c.add(fmt.Sprintf("p%02d-%02d", n, round), day.Add(-time.Duration(n*60+round)*time.Minute), 47+float64(n)/100),
		c.look(page))
}

// readingIDs counts the readings in the logbook beside the rig file.
func readingIDs(t testing.TB, path string) map[string]int {
	t.Helper()
	ctx := context.Background()
	book, err := store.Open(ctx, path[:len(path)-len("/rig.yaml")], store.Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	list, err := book.Readings(ctx)
	if err != nil {
		t.Fatal(err)
	}
	counted := map[string]int{}
	for _, r := range list {
		counted[r.ID]++
	}
	return counted
}
