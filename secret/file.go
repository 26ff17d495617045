package secret

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
)

// FolderVariable names the environment variable that puts the folder of this
// program's own files elsewhere.
const FolderVariable = "AMPSTEAD_CONFIG"

const (
	fileName    = "passphrase"
	mostFile    = 4 << 10 // bytes
	tempPattern = ".passphrase-*"
)

// ErrNone says that no passphrase was set on this machine.
var ErrNone = errors.New("no passphrase is set on this machine")

// Place is the file that holds this machine's hash.
func Place() (string, error) {
	if folder := os.Getenv(FolderVariable); folder != "" {
		return filepath.Join(folder, fileName), nil
	}
	folder, err := os.UserConfigDir()
	if err != nil {
		return "", fmt.Errorf("there is no folder for settings (%w); name one in %s", err, FolderVariable)
	}
	return filepath.Join(folder, "ampstead", fileName), nil
}

// Load reads the hash in the file at path. Errors: ErrNone; others may read the
// file or change its folder; it is no hash.
func Load(path string) (string, error) {
	file, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return "", ErrNone
	}
	if err != nil {
		return "", fmt.Errorf("the stored hash of the passphrase: %w", err)
	}
	defer file.Close()
	if err := private(file); err != nil {
		return "", err
	}
	text, err := io.ReadAll(io.LimitReader(file, mostFile+1))
	if err != nil {
		return "", fmt.Errorf("the stored hash of the passphrase: %w", err)
	}
	stored := strings.TrimSuffix(string(text), "\n")
	if _, err := parse(stored); err != nil {
		return "", fmt.Errorf("%s: %w. Set a new one with: ampstead passphrase", path, err)
	}
	return stored, nil
}

// private refuses a file that someone else could have read, or put there.
func private(file *os.File) error {
	info, err := file.Stat()
	if err != nil {
		return err
	}
	if !info.Mode().IsRegular() {
		return fmt.Errorf("%s is no file", file.Name())
	}
	if !modesCount {
		return nil
	}
	if mode := info.Mode().Perm(); mode&0o077 != 0 {
		return fmt.Errorf("%s may be read or written by others (mode %03o); expected 600: chmod 600 %[1]s, and set a new passphrase if a stranger could have read it", file.Name(), mode)
	}
	return ownFolder(filepath.Dir(file.Name()))
}

// modesCount: on Windows the bits say nothing; the user's own folder is private
// to them there.
const modesCount = runtime.GOOS != "windows"

// ownFolder refuses a folder in which others could put a file of their own.
func ownFolder(folder string) error {
	info, err := os.Stat(folder)
	if err != nil {
		return err
	}
	if mode := info.Mode().Perm(); modesCount && mode&0o022 != 0 {
		return fmt.Errorf("%s may be changed by others (mode %03o); expected 700: chmod 700 %[1]s", folder, mode)
	}
	return nil
}

// Save writes a hash to the file at path, whole or not at all, for its owner
// alone, and makes the folder when it is missing. Errors: stored is no hash; what
// the disk says.
func Save(path, stored string) error {
	if _, err := parse(stored); err != nil {
		return err
	}
	folder := filepath.Dir(path)
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return fmt.Errorf("the hash of the passphrase cannot be stored: %w", err)
	}
	if err := ownFolder(folder); err != nil {
		return fmt.Errorf("the hash of the passphrase cannot be stored: %w", err)
	}
	sweep(folder)
	temp, err := writeTemp(folder, stored+"\n")
	if err != nil {
		return fmt.Errorf("the hash of the passphrase cannot be stored: %w", err)
	}
	if err := os.Rename(temp, path); err != nil {
		os.Remove(temp)
		return fmt.Errorf("the hash of the passphrase cannot be stored: %w", err)
	}
	syncFolder(folder)
	return nil
}

// sweep removes what a program that was stopped half way has left.
func sweep(folder string) {
	left, _ := filepath.Glob(filepath.Join(folder, tempPattern)) // the pattern is sound
	for _, name := range left {
		os.Remove(name)
	}
}

// writeTemp writes text to a new file, which CreateTemp makes for its owner alone.
func writeTemp(folder, text string) (string, error) {
	file, err := os.CreateTemp(folder, tempPattern)
	if err != nil {
		return "", err
	}
	_, err = file.WriteString(text)
	err = errors.Join(err, file.Sync(), file.Close())
	if err != nil {
		os.Remove(file.Name())
		return "", err
	}
	return file.Name(), nil
}

// syncFolder makes the rename last through a power cut where the system can.
func syncFolder(folder string) {
	dir, err := os.Open(folder)
	if err != nil {
		return // the file is whole and in place without it
	}
	defer dir.Close()
	_ = dir.Sync()
}
