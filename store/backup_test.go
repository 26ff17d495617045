package store

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
)

func TestBackupHoldsAll(t *testing.T) {
	onBoth(t, func(t *testing.T, p place) {
		b, ctx, folder := p.open(t), context.Background(), t.TempDir()
		fillFixture(t, b)
		path := filepath.Join(folder, "kept.sqlite")
		if err := b.Backup(ctx, path); err != nil {
			t.Fatal(err)
		}
		if left := files(t, folder); len(left) != 1 {
			t.Errorf("left %v", left)
		}
		holdsFixture(t, place{where: path}.open(t))
		// As a rig folder's own logbook it takes new entries.
		other := t.TempDir()
		put(t, other, map[string][]byte{FileName: content(t, folder)["kept.sqlite"]})
		feed(t, place{where: other}.open(t), walk())
	})
}

func TestBackupOverwritesNothing(t *testing.T) {
	b, ctx := place{where: t.TempDir()}.open(t), context.Background()
	path := filepath.Join(t.TempDir(), "kept.sqlite")
	if err := os.WriteFile(path, []byte("something else"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := b.Backup(ctx, path); !errors.Is(err, fs.ErrExist) {
		t.Errorf("%v", err)
	}
	if text := must(os.ReadFile(path)); string(text) != "something else" {
		t.Errorf("now %q", text)
	}
	if err := b.Backup(ctx, filepath.Join(t.TempDir(), "nowhere", "x.sqlite")); err == nil {
		t.Error("a folder that is not there: no error")
	}
}

// While another writes, each backup is one moment: a beginning of what was
// written, with nothing missing before its end.
func TestBackupWhileWriting(t *testing.T) {
	onBoth(t, func(t *testing.T, p place) {
		b, ctx := p.open(t), context.Background()
		stop, ended := make(chan struct{}), make(chan error)
		add(t, b, visit(0))
		go func() {
			for i := 1; ; i++ {
				select {
				case <-stop:
					ended <- nil
					return
				default:
				}
				if _, _, err := b.Add(ctx, visit(i)); err != nil {
					ended <- err
					return
				}
			}
		}()
		for k := range 5 {
			path := filepath.Join(t.TempDir(), fmt.Sprint(k, ".sqlite"))
			if err := b.Backup(ctx, path); err != nil {
				t.Fatal(err)
			}
			copied := place{where: path}.open(t)
			list := readings(t, copied)
			if len(list) == 0 || list[len(list)-1].ID != fmt.Sprintf("visit-%d", len(list)-1) {
				t.Errorf("backup %d: %d readings, the last is not of that number", k, len(list))
			}
			copied.Close()
		}
		close(stop)
		if err := <-ended; err != nil {
			t.Error(err)
		}
	})
}
