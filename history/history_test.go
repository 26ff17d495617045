package history

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

var noon = time.Date(2026, 11, 20, 12, 0, 0, 0, time.UTC)

// fresh is a rig file of a new folder, which is not there yet.
func fresh(t testing.TB) string { return filepath.Join(t.TempDir(), "rig.yaml") }

// hold keeps texts as edits, a minute apart.
func hold(t testing.TB, file string, texts ...string) {
	t.Helper()
	for i, text := range texts {
		if err := Keep(file, []byte(text), Mark{Kind: Edit}, noon.Add(time.Duration(i)*time.Minute)); err != nil {
			t.Fatal(err)
		}
	}
}

// told writes versions as "1 begin", "4 undo-2".
func told(all []Version) string {
	var list []string
	for _, v := range all {
		kind := string(v.Kind)
		if v.Of > 0 {
			kind = fmt.Sprintf("%s-%d", v.Kind, v.Of)
		}
		list = append(list, fmt.Sprintf("%d %s", v.Number, kind))
	}
	return strings.Join(list, ", ")
}

func listed(t testing.TB, file string) ([]Version, []Strange) {
	t.Helper()
	all, odd, err := List(file)
	if err != nil {
		t.Fatal(err)
	}
	return all, odd
}

func holdsText(t testing.TB, file string, number int, want string) {
	t.Helper()
	got, err := Text(file, number)
	if err != nil || string(got) != want {
		t.Fatalf("version %d holds %q (%v), want %q", number, got, err, want)
	}
}

func TestKeepsEachTextOnceInOrder(t *testing.T) {
	file := fresh(t)
	if all, odd := listed(t, file); len(all)+len(odd) > 0 {
		t.Fatalf("before anything: %v %v", all, odd)
	}
	hold(t, file, "a", "a", "b", "b", "a")
	all, odd := listed(t, file)
	if told(all) != "1 begin, 2 edit, 3 edit" || len(odd) > 0 {
		t.Fatalf("%s %v", told(all), odd)
	}
	for i, want := range []string{"a", "b", "a"} {
		holdsText(t, file, i+1, want)
	}
	if want := "000002_2026-11-20T12-02-00Z_edit_"; !strings.HasPrefix(all[1].Name, want) {
		t.Errorf("name %s, want %s...", all[1].Name, want)
	}
	if !all[1].Time.Equal(noon.Add(2 * time.Minute)) {
		t.Errorf("time %v", all[1].Time)
	}
	if _, err := Text(file, 9); !errors.Is(err, ErrUnknown) {
		t.Errorf("version 9: %v", err)
	}
}

func TestTheOrderIsByNumberWhateverTheClockSays(t *testing.T) {
	file := fresh(t)
	for i, at := range []time.Time{noon, noon.AddDate(-30, 0, 0), time.Unix(0, 0), noon.AddDate(9, 0, 0), noon} {
		if err := Keep(file, []byte{byte('a' + i)}, Mark{Kind: Edit}, at.In(time.FixedZone("", 3600))); err != nil {
			t.Fatal(err)
		}
	}
	all, _ := listed(t, file)
	if told(all) != "1 begin, 2 edit, 3 edit, 4 edit, 5 edit" {
		t.Fatal(told(all))
	}
	holdsText(t, file, 5, "e")
	if to, ok := UndoTo(all); !ok || to != 4 {
		t.Errorf("undo leads to %d", to)
	}
}

func TestDamagedAndForeignFilesAreReportedAndLeftAlone(t *testing.T) {
	file := fresh(t)
	hold(t, file, "a", "b", "c")
	all, _ := listed(t, file)
	folder := Folder(file)
	put := func(name, text string) {
		t.Helper()
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	twin := strings.Replace(all[1].Name, "_edit_", "_outside_", 1)
	high := strings.Replace(all[1].Name, "000002", "000041", 1)
	put(all[1].Name, "torn")
	put(twin, "b")
	put(high, "not b")
	put("notes.txt", "mine")
	put("000004 copy.yaml", "mine")
	if err := os.Mkdir(filepath.Join(folder, strings.Replace(all[0].Name, "000001", "000007", 1)), 0o755); err != nil {
		t.Fatal(err)
	}
	whole, odd := listed(t, file)
	if told(whole) != "1 begin, 3 edit" || len(odd) != 6 {
		t.Fatalf("%s, odd %v", told(whole), odd)
	}
	if _, err := Text(file, 2); !errors.Is(err, ErrDamaged) {
		t.Errorf("version 2: %v", err)
	}
	hold(t, file, "d")
	if whole, _ = listed(t, file); told(whole) != "1 begin, 3 edit, 42 edit" {
		t.Errorf("then %s", told(whole))
	}
	for name, want := range map[string]string{all[1].Name: "torn", twin: "b", high: "not b", "notes.txt": "mine", "000004 copy.yaml": "mine"} {
		if got, err := os.ReadFile(filepath.Join(folder, name)); err != nil || string(got) != want {
			t.Errorf("%s holds %q, %v", name, got, err)
		}
	}
}

// The newest version is damaged: what the file holds is kept once more.
func TestADamagedNewestVersionHoldsNothing(t *testing.T) {
	file := fresh(t)
	hold(t, file, "a", "b")
	all, _ := listed(t, file)
	if err := os.Truncate(filepath.Join(Folder(file), all[1].Name), 0); err != nil {
		t.Fatal(err)
	}
	if held, err := Holds(file, []byte("b")); held || err != nil {
		t.Errorf("holds b: %v %v", held, err)
	}
	hold(t, file, "b")
	holdsText(t, file, 3, "b")
}

func TestAFolderThatIsNone(t *testing.T) {
	file := fresh(t)
	if err := os.WriteFile(Folder(file), []byte("mine"), 0o644); err != nil {
		t.Fatal(err)
	}
	err := Keep(file, []byte("a"), Mark{Kind: Edit}, noon)
	if err == nil || !strings.Contains(err.Error(), "is no folder") {
		t.Errorf("Keep = %v", err)
	}
	if _, _, err := List(file); err == nil {
		t.Error("List passed")
	}
}

func TestTheNumbersAreUsedUp(t *testing.T) {
	file := fresh(t)
	hold(t, file, "a")
	v := newVersion(mostNumber, []byte("b"), Mark{Kind: Edit}, noon)
	if err := os.WriteFile(filepath.Join(Folder(file), v.Name), []byte("b"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := Keep(file, []byte("c"), Mark{Kind: Edit}, noon); err == nil || !strings.Contains(err.Error(), "used up") {
		t.Errorf("Keep = %v", err)
	}
}

// short is a disk with room for only a few bytes.
type short struct{ *os.File }

func (s short) Write(text []byte) (int, error) {
	n, _ := s.File.Write(text[:len(text)/2])
	return n, io.ErrShortWrite
}

func TestAFullDiskLeavesNothing(t *testing.T) {
	file := fresh(t)
	hold(t, file, "first")
	write := func(folder string, text []byte, mode os.FileMode) (string, error) {
		return writeThrough(folder, text, mode, func(f *os.File) io.Writer { return short{f} })
	}
	if err := keep(file, []byte("second"), Mark{Kind: Edit}, noon, write); !errors.Is(err, io.ErrShortWrite) {
		t.Errorf("keep = %v", err)
	}
	entries, err := os.ReadDir(Folder(file))
	if err != nil || len(entries) != 1 {
		t.Errorf("left %v, %v", entries, err)
	}
}

func TestKeepSweepsWhatAKilledWriterLeft(t *testing.T) {
	file := fresh(t)
	hold(t, file, "a")
	left := filepath.Join(Folder(file), tempPrefix+"12")
	if err := os.WriteFile(left, []byte("b"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, odd := listed(t, file); len(odd) > 0 {
		t.Errorf("reported %v", odd)
	}
	hold(t, file, "b")
	if _, err := os.Stat(left); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("still there: %v", err)
	}
}

func TestNobodyElseMayReadWhatTheRigFileKeepsToItself(t *testing.T) {
	file := fresh(t)
	if err := os.WriteFile(file, []byte("a"), 0o600); err != nil {
		t.Fatal(err)
	}
	hold(t, file, "a")
	all, _ := listed(t, file)
	info, err := os.Stat(filepath.Join(Folder(file), all[0].Name))
	if err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("mode %v, %v", info.Mode(), err)
	}
}

func TestALinkedFileHasItsHistoryBesideTheFile(t *testing.T) {
	file := fresh(t)
	if err := os.WriteFile(file, []byte("a"), 0o644); err != nil {
		t.Fatal(err)
	}
	link := filepath.Join(t.TempDir(), "link.yaml")
	if err := os.Symlink(file, link); err != nil {
		t.Skipf("no links here: %v", err)
	}
	hold(t, link, "a")
	holdsText(t, file, 1, "a")
}

func TestAFileOfAnotherNameHasAFolderOfItsOwn(t *testing.T) {
	file := fresh(t)
	other := filepath.Join(filepath.Dir(file), "spare.yaml")
	hold(t, file, "a")
	hold(t, other, "b")
	holdsText(t, file, 1, "a")
	holdsText(t, other, 1, "b")
}

func FuzzName(f *testing.F) {
	for _, v := range []Version{newVersion(1, nil, Mark{Kind: Begin}, noon), newVersion(mostNumber, []byte("x"), Mark{Undo, 3}, noon)} {
		f.Add(v.Name)
	}
	f.Add("000001_2026-11-20T12-00-00Z_undo-1_000000000000.yaml")
	f.Add("000000_2026-13-20T12-00-00Z_edit_000000000000.yaml")
	f.Fuzz(func(t *testing.T, name string) {
		v, ours := parseName(name)
		if !ours {
			return
		}
		if v.Number < 1 || v.Number > mostNumber || v.Of < 0 || v.Of >= v.Number || v.Name != name || v.Kind.returns() != (v.Of > 0) {
			t.Fatalf("%q is %+v", name, v)
		}
		if !strings.Contains(name, v.Time.Format(stampLayout)) || strings.ContainsAny(name, `/\`) {
			t.Fatalf("%q is %+v", name, v)
		}
	})
}
