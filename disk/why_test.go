package disk

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"syscall"
	"testing"
)

func TestWhy(t *testing.T) {
	for _, c := range []struct {
		err  error
		want string
	}{
		{&fs.PathError{Op: "write", Path: "rig.yaml", Err: syscall.ENOSPC}, Full},
		{fmt.Errorf("cannot write: %w", syscall.EFBIG), Full},
		{errors.Join(io.EOF, &fs.PathError{Op: "open", Path: "x", Err: syscall.EACCES}), ReadOnly},
		{syscall.EROFS, ReadOnly},
		{fs.ErrPermission, ReadOnly},
		{fs.ErrNotExist, ""},
		{errors.New("no space left on device"), ""},
		{nil, ""},
	} {
		if got := Why(c.err); got != c.want {
			t.Errorf("%v: %q, want %q", c.err, got, c.want)
		}
	}
}
