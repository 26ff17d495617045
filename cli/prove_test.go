package cli

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// An interrupted run says so with its own exit code and writes nothing.
func TestProveInterrupted(t *testing.T) {
	log := filepath.Join(t.TempDir(), "a.csv")
	if err := os.WriteFile(log, []byte("time_s,voltage_v,current_a\n"+strings.Repeat("1,4.0,-1\n", 200000)), 0o644); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	var out, said bytes.Buffer
	p := Program{Args: []string{"prove", log, "--cell", "nmc532", "--draw", filepath.Join(filepath.Dir(log), "drawn")}, Stdout: &out, Stderr: &said}
	if code := p.Run(ctx); code != exitFailure {
		t.Errorf("exit code %d, said %q", code, said.String())
	}
	if _, err := os.Stat(filepath.Join(filepath.Dir(log), "drawn")); err == nil || out.Len() > 0 {
		t.Errorf("it wrote %q", out.String())
	}
}
