package secret

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// fixed was made from phrase at a cost for tests.
const fixed = "$argon2id$v=19$m=64,t=1,p=1$VeVKAmSPJ52vBGA23owIMg$bkVUEQvfGFHptMWMkkmAKyMCljWsaIJfLo3pSDiw4Gg"

func TestFileOfTheMachine(t *testing.T) {
	path := filepath.Join(t.TempDir(), "new", "passphrase")
	if _, err := Load(path); !errors.Is(err, ErrNone) {
		t.Fatalf("without a file: %v", err)
	}
	for range 2 { // a second one takes the first one's place
		if err := Save(path, fixed); err != nil {
			t.Fatal(err)
		}
	}
	if got, err := Load(path); err != nil || got != fixed {
		t.Errorf("%q, %v", got, err)
	}
	if modesCount {
		hasMode(t, path, 0o600)
		hasMode(t, filepath.Dir(path), 0o700)
	}
	if list, err := os.ReadDir(filepath.Dir(path)); err != nil || len(list) != 1 {
		t.Errorf("beside it lies something: %v, %v", list, err)
	}
}

func hasMode(t *testing.T, path string, want fs.FileMode) {
	t.Helper()
	info, err := os.Stat(path)
	if err != nil || info.Mode().Perm() != want {
		t.Errorf("%s: mode %v, %v", path, info.Mode(), err)
	}
}

func TestAFileOthersMayReadIsRefused(t *testing.T) {
	if !modesCount {
		t.Skip("this system keeps no such modes")
	}
	path := filepath.Join(t.TempDir(), "own", "passphrase")
	if err := Save(path, fixed); err != nil {
		t.Fatal(err)
	}
	for _, mode := range []fs.FileMode{0o640, 0o604, 0o660, 0o602, 0o777} {
		setMode(t, path, mode)
		if _, err := Load(path); err == nil || !strings.Contains(err.Error(), "chmod 600 "+path) {
			t.Errorf("mode %o: %v", mode, err)
		}
	}
	setMode(t, path, 0o600)
	setMode(t, filepath.Dir(path), 0o777)
	if _, err := Load(path); err == nil || !strings.Contains(err.Error(), "chmod 700 "+filepath.Dir(path)) {
		t.Errorf("a folder others may change: %v", err)
	}
	if err := Save(path, fixed); err == nil || !strings.Contains(err.Error(), "chmod 700") {
		t.Errorf("saving into it: %v", err)
	}
}

func setMode(t *testing.T, path string, mode fs.FileMode) {
	t.Helper()
	if err := os.Chmod(path, mode); err != nil {
		t.Fatal(err)
	}
}

func TestAFileThatIsNoHashIsRefused(t *testing.T) {
	path := filepath.Join(t.TempDir(), "passphrase")
	for _, text := range []string{"", phrase, fixed + "\n\n", strings.Repeat("x", mostFile+10)} {
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		_, err := Load(path)
		if err == nil || !strings.Contains(err.Error(), "ampstead passphrase") {
			t.Errorf("%.30q: %v", text, err)
		}
		if err != nil && strings.Contains(err.Error(), phrase) {
			t.Error("the error repeats what the file holds")
		}
	}
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(path, 0o700); err != nil {
		t.Fatal(err)
	}
	if _, err := Load(path); err == nil || errors.Is(err, ErrNone) {
		t.Errorf("a folder: %v", err)
	}
	if err := Save(path, fixed); err == nil {
		t.Error("saved over a folder")
	}
	if list, err := os.ReadDir(filepath.Dir(path)); err != nil || len(list) != 1 {
		t.Errorf("left %v, %v", list, err)
	}
}

func TestOnlyAHashIsWritten(t *testing.T) {
	path := filepath.Join(t.TempDir(), "passphrase")
	if err := Save(path, phrase); err == nil {
		t.Error("the passphrase itself was written")
	}
	if _, err := os.Stat(path); !errors.Is(err, fs.ErrNotExist) {
		t.Error(err)
	}
}

func TestWhatAKilledProgramLeftIsSwept(t *testing.T) {
	folder := t.TempDir()
	if err := os.WriteFile(filepath.Join(folder, ".passphrase-12"), []byte("$arg"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := Save(filepath.Join(folder, "passphrase"), fixed); err != nil {
		t.Fatal(err)
	}
	if list, err := os.ReadDir(folder); err != nil || len(list) != 1 {
		t.Errorf("%v, %v", list, err)
	}
}

func TestPlace(t *testing.T) {
	t.Setenv(FolderVariable, filepath.Join("a", "b"))
	if got, err := Place(); err != nil || got != filepath.Join("a", "b", "passphrase") {
		t.Errorf("%s, %v", got, err)
	}
	t.Setenv(FolderVariable, "")
	home := t.TempDir()
	for _, name := range []string{"HOME", "XDG_CONFIG_HOME", "AppData"} {
		t.Setenv(name, home)
	}
	if got, err := Place(); err != nil || !strings.HasPrefix(got, home) || filepath.Base(filepath.Dir(got)) != "ampstead" {
		t.Errorf("%s, %v", got, err)
	}
}
