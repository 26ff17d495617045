package disk

import "syscall"

// Numbers of Windows, from its list of system error codes: ERROR_HANDLE_DISK_FULL,
// ERROR_DISK_FULL, ERROR_DISK_QUOTA_EXCEEDED; ERROR_WRITE_PROTECT.
var (
	systemFull     = []syscall.Errno{39, 112, 1295}
	systemReadOnly = []syscall.Errno{19}
)
