package cli

import (
	"errors"
	"os"
	"path/filepath"
)

// writeFolder writes files into a folder, which it makes; an empty name writes
// nothing.
func writeFolder(folder string, files map[string][]byte) error {
	if folder == "" {
		return nil
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return badInput(err)
	}
	for name, data := range files {
		if err := writeWhole(filepath.Join(folder, name), data); err != nil {
			return badInput(err)
		}
	}
	return nil
}

// writeWhole writes a file so that it is either the old one or the new one.
func writeWhole(path string, data []byte) error {
	temp, err := os.CreateTemp(filepath.Dir(path), ".ampstead-*")
	if err != nil {
		return err
	}
	defer os.Remove(temp.Name())
	_, err = temp.Write(data)
	if err == nil {
		err = temp.Chmod(0o644)
	}
	if err = errors.Join(err, temp.Sync(), temp.Close()); err != nil {
		return err
	}
	return os.Rename(temp.Name(), path)
}
