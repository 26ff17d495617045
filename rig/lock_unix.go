//go:build darwin || dragonfly || freebsd || linux || netbsd || openbsd

package rig

import (
	"errors"
	"os"
	"syscall"
)

// lockFolder waits until no other writer holds the folder. The lock lies on the
// folder itself, so it leaves no file behind and ends with the process.
func lockFolder(folder string) (unlock func(), err error) {
	dir, err := os.Open(folder)
	if err != nil {
		return nil, err
	}
	for {
		err = syscall.Flock(int(dir.Fd()), syscall.LOCK_EX)
		if !errors.Is(err, syscall.EINTR) {
			break
		}
	}
	if err != nil {
		dir.Close()
		return nil, err
	}
	return func() { dir.Close() }, nil
}
