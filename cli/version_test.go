package cli

import (
	"runtime/debug"
	"testing"
)

func TestShort(t *testing.T) {
	const id = "0123456789abcdef0123456789abcdef01234567"
	tests := []struct {
		b    build
		want string
	}{
		{build{Version: "1.2.3", Commit: id, Date: "2026-01-02"}, "1.2.3 (0123456789ab, 2026-01-02)"},
		{build{Version: "0.1.0", Dev: true, Commit: id, Date: "2026-01-02", Changed: true}, "0.1.0 (development, 0123456789ab, 2026-01-02, with changes)"},
		{build{Version: "0.1.0", Dev: true}, "0.1.0 (development)"},
		{build{Version: "1.2.3", Commit: "01"}, "1.2.3 (01)"},
	}
	for _, tt := range tests {
		if got := tt.b.short(); got != tt.want {
			t.Errorf("got %q, want %q", got, tt.want)
		}
	}
}

func TestFromCheckout(t *testing.T) {
	b := build{Version: "1.2.3", Dev: true}
	b.fromCheckout([]debug.BuildSetting{{Key: "vcs.revision", Value: "abc"}, {Key: "vcs.time", Value: "2026-01-02T03:04:05Z"}, {Key: "vcs.modified", Value: "true"}})
	if got, want := b.short(), "1.2.3 (development, abc, 2026-01-02, with changes)"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// A stamped build does not call itself one of development.
func TestStampedBuild(t *testing.T) {
	defer func(c, d string) { commit, date = c, d }(commit, date)
	commit, date = "0123456789abcdef", "2026-01-02"
	b := thisBuild()
	if b.Version != Version || b.Dev || b.Changed || b.Commit != commit || b.Date != date {
		t.Errorf("got %+v", b)
	}
}
