package cli

import (
	"bytes"
	"os"
	"testing"
)

func TestDraws(t *testing.T) {
	tests := []struct {
		width, need int
		system      string
		env         map[string]string
		want        bool
	}{
		{80, 33, "linux", map[string]string{"TERM": "xterm-256color"}, true},
		{33, 33, "linux", map[string]string{"TERM": "linux"}, true},
		{32, 33, "linux", map[string]string{"TERM": "xterm"}, false},
		{80, 33, "linux", map[string]string{"TERM": "dumb"}, false},
		{80, 33, "linux", map[string]string{}, false},
		{80, 33, "darwin", map[string]string{"TERM": "xterm", "NO_COLOR": "1"}, false},
		{80, 33, "windows", map[string]string{}, false},
		{80, 33, "windows", map[string]string{"WT_SESSION": "x"}, true},
	}
	for _, tt := range tests {
		if got := draws(tt.width, tt.need, tt.system, func(name string) string { return tt.env[name] }); got != tt.want {
			t.Errorf("%+v: got %v", tt, got)
		}
	}
}

// What is no terminal gets no code: it may be a file or a program that reads it.
func TestNoCodeWithoutATerminal(t *testing.T) {
	t.Setenv("TERM", "xterm-256color")
	var b bytes.Buffer
	showCode(&b, "http://192.168.7.31:4680/")
	file, err := os.CreateTemp(t.TempDir(), "out")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	showCode(file, "http://192.168.7.31:4680/")
	info, err := file.Stat()
	if err != nil {
		t.Fatal(err)
	}
	if b.Len() > 0 || info.Size() > 0 {
		t.Errorf("wrote %d and %d bytes", b.Len(), info.Size())
	}
}
