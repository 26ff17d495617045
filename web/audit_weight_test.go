package web

import (
	"fmt"
	"io"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// The first page, with all it needs, as it is written and before it is packed.
const mostFirstPage = 100_000

// The heaviest page as it goes over the air: the book, with all its drawings.
const mostPacked = 160_000

var (
	sheetLinks = regexp.MustCompile(`<link rel="stylesheet" href="(/static/[^"]+)"`)
	scriptTags = regexp.MustCompile(`<script[^>]* src="([^"]+)"`)
	imports    = regexp.MustCompile(`(?:from|import)\s*\(?\s*"(\.?/[^"]+)"`)
	icons      = regexp.MustCompile(`<link rel="(?:icon|manifest)" href="([^"]+)"`)
)

// weight is what one page and all it asks for come to, in bytes.
type weight struct {
	page, page1, all, all1 int // as written, and as sent to one who takes gzip (…1)
	css, js, requests      int
}

func (v *visitor) weigh(address string) weight {
	v.t.Helper()
	var w weight
	body, sent := v.both(address)
	w.page, w.page1, w.requests = len(body), sent, 1
	w.all, w.all1 = w.page, w.page1
	add := func(file string) int {
		text, sent := v.both(file)
		w.all, w.all1, w.requests = w.all+len(text), w.all1+sent, w.requests+1
		return len(text)
	}
	for _, m := range sheetLinks.FindAllStringSubmatch(body, -1) {
		w.css += add(m[1])
	}
	var scripts []string
	for _, m := range scriptTags.FindAllStringSubmatch(body, -1) {
		scripts = append(scripts, m[1])
	}
	for i := 0; i < len(scripts); i++ {
		w.js += add(scripts[i])
		text, _ := v.both(scripts[i])
		for _, m := range imports.FindAllStringSubmatch(text, -1) {
			if to := path.Join(path.Dir(scripts[i]), m[1]); !slices.Contains(scripts, to) {
				scripts = append(scripts, to)
			}
		}
	}
	for _, m := range icons.FindAllStringSubmatch(body, -1) {
		add(m[1])
	}
	return w
}

// both is an answer as it is written, and how many bytes of it are sent packed.
func (v *visitor) both(address string) (body string, sent int) {
	v.t.Helper()
	_, body = v.read(v.do(httptestGet(address)))
	packed, err := io.ReadAll(v.packed(address).Body)
	if err != nil {
		v.t.Fatal(err)
	}
	return body, len(packed)
}

// TestPageWeights holds the first page to its budget and prints all of them (-v).
func TestPageWeights(t *testing.T) {
	if testing.Short() {
		t.Skip("every page of every rig is reckoned: left out of the short run")
	}
	v := visitAudit(t)
	var table strings.Builder
	fmt.Fprintf(&table, "%-34s %9s %9s %7s %7s %9s %9s\n", "page, bytes", "html", "packed", "css", "js", "all sent", "requests")
	for _, address := range v.walk() {
		w := v.weigh(address)
		short, _, _ := strings.Cut(address, "?")
		fmt.Fprintf(&table, "%-34s %9d %9d %7d %7d %9d %9d\n", short, w.page, w.page1, w.css, w.js, w.all1, w.requests)
		if address == "/" && w.all >= mostFirstPage {
			t.Errorf("the first page comes to %d bytes, wants less than %d", w.all, mostFirstPage)
		}
		if w.all1 >= mostPacked {
			t.Errorf("%s comes to %d bytes packed, wants less than %d", address, w.all1, mostPacked)
		}
	}
	t.Log("\n" + table.String())
}
