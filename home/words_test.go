package home

import (
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"pgregory.net/rapid"

	_ "ampstead/internal/fixedseed"
)

func TestHeadline(t *testing.T) {
	for text, want := range map[string]string{
		"float holds 54 V": "Float holds 54 V",
		"main fuse interrupts 2.5 kA; a short draws 19 kA": "Main fuse interrupts 2.5 kA; a short draws 19 kA",
		"": "",
		strings.Repeat("word ", 5) + "; " + strings.Repeat("more ", 40):                                                                           "Word word word word word",
		"charger: stuck at full output; charger: sensor stuck; and 1 more: a cell is charged past its limit; worst in frozen dawn with all of it": "A cell is charged past its limit: charger: stuck at full output, and more",
		strings.Repeat("word ", 40): "Word" + strings.Repeat(" word", 21) + " …",
	} {
		if got := headline(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

func TestHeadlineIsShortAndWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.String().Draw(t, "text")
		head := headline(text)
		if n := utf8.RuneCountInString(head); n > longestHead+2 || utf8.ValidString(text) && !utf8.ValidString(head) {
			t.Fatalf("%q, %d characters", head, n)
		}
	})
}

func TestAgo(t *testing.T) {
	zone := time.FixedZone("east", 9*3600)
	at := func(text string) time.Time {
		v, ok := instant(text, zone)
		if !ok {
			t.Fatal(text)
		}
		return v
	}
	now := at("2026-11-20T08:00:00+09:00")
	for _, tt := range []struct{ then, want string }{
		{"2026-11-20T00:10:00+09:00", "today"},
		{"2026-11-19T14:00:00Z", "yesterday"}, // 23:00 of the day before, here
		{"2026-11-19T16:00:00Z", "today"},
		{"2026-11-08", "12 days ago"},
		{"2026-07-01", "5 months ago"},
		{"2021-11-20", "5 years ago"},
		{"2026-12-01", "dated ahead of this machine's clock"},
	} {
		if got := ago(days(at(tt.then), now)); got != tt.want {
			t.Errorf("%s: %q, want %q", tt.then, got, tt.want)
		}
	}
}
