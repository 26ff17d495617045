//go:build unix

package disk

import "syscall"

var (
	systemFull     = []syscall.Errno{syscall.EDQUOT}
	systemReadOnly []syscall.Errno
)
