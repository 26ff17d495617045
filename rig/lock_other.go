//go:build !(darwin || dragonfly || freebsd || linux || netbsd || openbsd)

package rig

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
)

// lockFolder takes a lock file, for systems without locks on folders. One left
// by a crash is named in the error so that a person can remove it.
func lockFolder(folder string) (unlock func(), err error) {
	name := filepath.Join(folder, "."+FileName+".lock")
	file, err := os.OpenFile(name, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o600)
	if errors.Is(err, os.ErrExist) {
		return nil, fmt.Errorf("another program is writing here; if none is, remove %s", name)
	}
	if err != nil {
		return nil, err
	}
	file.Close()
	return func() { os.Remove(name) }, nil
}
