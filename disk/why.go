package disk

import (
	"errors"
	"io/fs"
	"syscall"
)

// What a person can do something about.
const (
	Full     = "the disk is full; make room and do it again"
	ReadOnly = "nothing can be written there: the disk or the folder is read-only for this program"
)

// Why says why err kept something from being written: Full, ReadOnly, or "" when
// it is of another kind.
func Why(err error) string {
	if errors.Is(err, fs.ErrPermission) {
		return ReadOnly
	}
	for _, one := range full {
		if errors.Is(err, one) {
			return Full
		}
	}
	for _, one := range readOnly {
		if errors.Is(err, one) {
			return ReadOnly
		}
	}
	return ""
}

// EFBIG is a limit on the size of files that an administrator has set: for the
// person it is as full.
var (
	full     = append([]syscall.Errno{syscall.ENOSPC, syscall.EFBIG}, systemFull...)
	readOnly = append([]syscall.Errno{syscall.EROFS}, systemReadOnly...)
)
