package history

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	_ "ampstead/internal/fixedseed"
)

// versions reads "edit", "undo 2" and so on as versions from 1.
func versions(marks ...Mark) []Version {
	var all []Version
	for i, m := range marks {
		all = append(all, newVersion(i+1, []byte(fmt.Sprint(i)), m, noon))
	}
	return all
}

func TestTrail(t *testing.T) {
	edit := Mark{Kind: Edit}
	for _, c := range []struct {
		about      string
		all        []Version
		undo, redo []int
	}{
		{"nothing", nil, nil, nil},
		{"one", versions(edit), nil, nil},
		{"three", versions(edit, edit, edit), []int{2, 1}, nil},
		{"undone once", versions(edit, edit, edit, Mark{Undo, 2}), []int{1}, []int{3}},
		{"undone to the beginning", versions(edit, edit, edit, Mark{Undo, 2}, Mark{Undo, 1}), nil, []int{2, 3}},
		{"and done again", versions(edit, edit, edit, Mark{Undo, 2}, Mark{Undo, 1}, Mark{Redo, 2}), []int{1}, []int{3}},
		{"all of it", versions(edit, edit, edit, Mark{Undo, 2}, Mark{Undo, 1}, Mark{Redo, 2}, Mark{Redo, 3}), []int{2, 1}, nil},
		{"an edit ends redo", versions(edit, edit, Mark{Undo, 1}, edit), []int{1}, nil},
		{"so does another program", versions(edit, edit, Mark{Undo, 1}, Mark{Kind: Outside}), []int{1}, nil},
		{"back counts as new", versions(edit, edit, edit, Mark{Back, 1}), []int{3, 2, 1}, nil},
		{"undo over several", versions(edit, edit, edit, edit, Mark{Undo, 2}), []int{1}, []int{3, 4}},
		{"an undo of what lies on the way forth counts as new", versions(edit, edit, Mark{Undo, 1}, Mark{Undo, 2}), []int{1}, nil},
		{"what an undo put back is gone", versions(edit, edit, edit, Mark{Undo, 2})[2:], nil, []int{3}},
		{"what a redo put back is gone", versions(edit, edit, Mark{Undo, 1}, Mark{Redo, 2})[2:], []int{3}, nil},
	} {
		got := TrailOf(c.all)
		if !slices.Equal(got.Undo, c.undo) || !slices.Equal(got.Redo, c.redo) {
			t.Errorf("%s: got %v, want undo %v redo %v", c.about, got, c.undo, c.redo)
		}
	}
	if _, ok := UndoTo(nil); ok {
		t.Error("undo of nothing")
	}
	if to, ok := RedoTo(versions(edit, edit, Mark{Undo, 1})); !ok || to != 2 {
		t.Errorf("redo leads to %d", to)
	}
}

// editor is what undo and redo mean, on a stack of texts.
type editor struct{ back, forth []string }

func (e *editor) here() string { return e.back[len(e.back)-1] }

// Whatever a person does, undo and redo by the kept versions lead where those of
// an editor with two stacks lead.
func TestTrailIsThatOfAnEditor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var e editor
		var all []Version
		text := map[int]string{}
		add := func(m Mark, is string) {
			v := newVersion(len(all)+1, []byte(is), m, noon)
			all, text[v.Number] = append(all, v), is
		}
		for i := range rapid.IntRange(1, 60).Draw(t, "steps") {
			trail := TrailOf(all)
			if len(all) > 0 && (len(trail.Undo) != len(e.back)-1 || len(trail.Redo) != len(e.forth)) {
				t.Fatalf("step %d: %v against %v", i, trail, e)
			}
			switch what := rapid.IntRange(0, 3).Draw(t, "what"); {
			case what == 0 && len(trail.Undo) > 0:
				e.back, e.forth = e.back[:len(e.back)-1], append(e.forth, e.here())
				add(Mark{Undo, trail.Undo[0]}, text[trail.Undo[0]])
			case what == 1 && len(trail.Redo) > 0:
				last := len(e.forth) - 1
				e.back, e.forth = append(e.back, e.forth[last]), e.forth[:last]
				add(Mark{Redo, trail.Redo[0]}, text[trail.Redo[0]])
			default:
				is := fmt.Sprint("text ", i)
				e.back, e.forth = append(e.back, is), nil
				add(Mark{Kind: Edit}, is)
			}
			if got := text[all[len(all)-1].Number]; got != e.here() {
				t.Fatalf("step %d: holds %q, want %q", i, got, e.here())
			}
		}
	})
}

// Old versions go, but for the first and the last of each day; what undo and redo
// lead to from the newest on is still there.
func TestThin(t *testing.T) {
	var all []Version
	for i := range 40 {
		all = append(all, newVersion(i+1, []byte(fmt.Sprint(i)), Mark{Kind: Edit}, noon.Add(time.Duration(i)*5*time.Hour)))
	}
	gone := map[int]bool{}
	for _, v := range old(all, 10) {
		gone[v.Number] = true
	}
	days := map[string]int{}
	for i, v := range all {
		if !gone[v.Number] {
			days[day(v)]++
		}
		if gone[v.Number] && (i == 0 || i >= 30) {
			t.Errorf("version %d is gone", v.Number)
		}
	}
	first, border := day(all[0]), day(all[30])
	for d, n := range days {
		if n == 0 || n > 1 && d < border && d != first {
			t.Errorf("%d versions of %s", n, d)
		}
	}
	if days[first] != 2 || len(gone) != 23 {
		t.Errorf("%d versions of the first day, %d gone", days[first], len(gone))
	}
	if list := old(all, 40); len(list) > 0 {
		t.Errorf("none is too many, yet %v goes", list)
	}
}

func TestKeepThins(t *testing.T) {
	file := fresh(t)
	hold(t, file, "0")
	for i := 1; i < mostVersions+20; i++ {
		v := newVersion(i+1, []byte(fmt.Sprint(i)), Mark{Kind: Edit}, noon)
		if err := os.WriteFile(filepath.Join(Folder(file), v.Name), []byte(fmt.Sprint(i)), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	hold(t, file, "last")
	all, odd := listed(t, file)
	if len(odd) > 0 || len(all) != mostVersions+1 || all[0].Number != 1 || all[1].Number != 22 {
		t.Fatalf("%d versions, the second is %d, odd %v", len(all), all[1].Number, odd)
	}
}
