package shelf

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"pgregory.net/rapid"

	"ampstead/benchlog"
	_ "ampstead/internal/fixedseed" // property tests draw the same every run
)

func newShelf(t testing.TB) Shelf {
	t.Helper()
	return Of(filepath.Join(t.TempDir(), "rig.yaml"))
}

func TestCleanName(t *testing.T) {
	for name, want := range map[string]string{
		"test.csv": "test.csv", "Test 1 (à froid).CSV.GZ": "Test-1-froid-.CSV.GZ", "../../etc/passwd": "passwd.csv", `C:\logs\module.csv`: "module.csv",
		"": "log.csv", "...": "log.csv", ".hidden.csv": "hidden.csv", "layout.json": "layout.json.csv", "a.txt": "a.txt", "日本": "log.csv",
		"x\x00y\n.csv": "x-y-.csv", strings.Repeat("a", 300) + ".csv": strings.Repeat("a", 76) + ".csv",
	} {
		if got := CleanName(name); got != want {
			t.Errorf("CleanName(%.20q) = %q, want %q", name, got, want)
		}
	}
}

// Whatever a name is, what is kept lies in the folder and is found again as a log.
func TestAnyNameStaysInTheFolder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := CleanName(rapid.String().Draw(t, "name"))
		if name != filepath.Base(name) || !filepath.IsLocal(name) || !IsLog(name) || len(name) > longestName+4 {
			t.Fatalf("%q", name)
		}
	})
}

func TestKeepAndList(t *testing.T) {
	s := newShelf(t)
	if logs, err := s.Logs(); err != nil || logs != nil {
		t.Fatalf("without a folder: %v, %v", logs, err)
	}
	for i, want := range []string{"test.csv.gz", "test-2.csv.gz", "test-3.csv.gz"} {
		got, err := s.Keep("../test.csv.gz", strings.NewReader(want))
		if err != nil || got != want {
			t.Fatalf("kept as %q, %v, want %q", got, err, want)
		}
		when := time.Date(2026, 9, 12+i, 0, 0, 0, 0, time.UTC)
		if err := os.Chtimes(s.Path(got), when, when); err != nil {
			t.Fatal(err)
		}
	}
	os.WriteFile(s.Path("note.md"), nil, 0o644)
	os.Mkdir(s.Path("folder.csv"), 0o755)
	logs, err := s.Logs()
	if err != nil || len(logs) != 3 || logs[0].Name != "test-3.csv.gz" || logs[0].Size != int64(len("test-3.csv.gz")) {
		t.Errorf("%+v, %v", logs, err)
	}
	file, err := s.Open("test-2.csv.gz")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	if text, _ := io.ReadAll(file); string(text) != "test-2.csv.gz" {
		t.Errorf("it holds %q", text)
	}
	if left, _ := filepath.Glob(filepath.Join(s.dir, ".half*")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

func TestOpenLeadsNowhereElse(t *testing.T) {
	s := newShelf(t)
	if _, err := s.Keep("a.csv", strings.NewReader("x")); err != nil {
		t.Fatal(err)
	}
	outside := filepath.Join(filepath.Dir(s.dir), "secret.csv")
	os.WriteFile(outside, []byte("secret"), 0o600)
	os.Symlink(outside, s.Path("link.csv"))
	for _, name := range []string{"../secret.csv", outside, "link.csv", "..", "", "a.csv/..", "./a.csv", "b.csv", "layout.json"} {
		if file, err := s.Open(name); err == nil {
			file.Close()
			t.Errorf("%q was opened", name)
		}
	}
	if _, err := s.Open("b.csv"); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("missing: %v", err)
	}
}

// failing ends in an error, as a phone that goes out of range does.
type failing struct{ from io.Reader }

func (f failing) Read(b []byte) (int, error) {
	n, err := f.from.Read(b)
	if err == io.EOF {
		err = io.ErrUnexpectedEOF
	}
	return n, err
}

func TestHalfALogIsNotKept(t *testing.T) {
	s := newShelf(t)
	if _, err := s.Keep("a.csv", failing{strings.NewReader("half")}); err == nil {
		t.Error("half a log was kept")
	}
	if entries, _ := os.ReadDir(s.dir); len(entries) > 0 {
		t.Errorf("left behind: %v", entries)
	}
}

func TestManyKeepersAtOnce(t *testing.T) {
	s := newShelf(t)
	var all sync.WaitGroup
	for range 12 {
		all.Go(func() {
			if _, err := s.Keep("a.csv", strings.NewReader("x")); err != nil {
				t.Error(err)
			}
		})
	}
	all.Wait()
	if logs, _ := s.Logs(); len(logs) != 12 {
		t.Errorf("%d logs, want 12", len(logs))
	}
}

func TestLayoutIsKept(t *testing.T) {
	s := newShelf(t)
	want := benchlog.Options{Decimal: "comma", Columns: map[string]string{"3": "group 1 mV"}}
	if o, err := s.Layout(); err != nil || o.Decimal != "" {
		t.Errorf("without one: %+v, %v", o, err)
	}
	if err := s.SetLayout(want); err != nil {
		t.Fatal(err)
	}
	if o, err := s.Layout(); err != nil || o.Decimal != "comma" || o.Columns["3"] != "group 1 mV" {
		t.Errorf("%+v, %v", o, err)
	}
	os.WriteFile(s.Path(layoutFile), []byte(`{"decimals": "comma"}`), 0o644)
	if _, err := s.Layout(); err == nil || !strings.Contains(err.Error(), "layout.json") {
		t.Errorf("a wrong key: %v", err)
	}
}

func TestOver(t *testing.T) {
	kept := benchlog.Options{Decimal: "comma", Sign: "charge", Columns: map[string]string{"1": "time", "2": "voltage"}}
	got := Over(kept, benchlog.Options{Sign: "discharge", Groups: 6, Columns: map[string]string{"2": "current mA"}})
	if got.Decimal != "comma" || got.Sign != "discharge" || got.Groups != 6 || got.Columns["1"] != "time" || got.Columns["2"] != "current mA" {
		t.Errorf("%+v", got)
	}
	if kept.Columns["2"] != "voltage" {
		t.Error("what is kept was changed")
	}
}
