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
		{build{Version: "development", Commit: id, Date: "2026-01-02", Changed: true}, "development (0123456789ab, 2026-01-02, with changes)"},
		{build{Version: "development"}, "development"},
		{build{Version: "1.2.3", Commit: "01"}, "1.2.3 (01)"},
	}
	for _, tt := range tests {
		if got := tt.b.short(); got != tt.want {
			t.Errorf("got %q, want %q", got, tt.want)
		}
	}
}

func TestFromCheckout(t *testing.T) {
	b := build{Version: "development"}
	b.fromCheckout([]debug.BuildSetting{{Key: "vcs.revision", Value: "abc"}, {Key: "vcs.time", Value: "2026-01-02T03:04:05Z"}, {Key: "vcs.modified", Value: "true"}})
	if got, want := b.short(), "development (abc, 2026-01-02, with changes)"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// A stamped build names the version of this source, not "development".
func TestStampedBuild(t *testing.T) {
	defer func(c, d string) { commit, date = c, d }(commit, date)
	commit, date = "0123456789abcdef", "2026-01-02"
	b := thisBuild()
	if b.Version != Version || b.Next != "" || b.Changed || b.Commit != commit || b.Date != date {
		t.Errorf("got %+v", b)
	}
}
