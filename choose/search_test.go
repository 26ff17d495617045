package choose

import (
	"bytes"
	"context"
	"errors"
	"reflect"
	"strings"
	"sync"
	"testing"

	"ampstead/examples"
	"ampstead/fit"
	"ampstead/physics/cell"
	q "ampstead/quantity"
	"ampstead/rig"
)

// small is a search over dipper that a test can wait for.
var small = Options{Designs: 20, Seed: 3, Workers: 2}

var dipperBatteries = sync.OnceValues(func() ([]variant, error) {
	f, err := dipperFile()
	if err != nil {
		return nil, err
	}
	return variants(context.Background(), f.Rig)
})

var smallSearch = sync.OnceValues(func() (*tried, error) {
	list, err := dipperBatteries()
	if err != nil {
		return nil, err
	}
	f, err := dipperFile()
	if err != nil {
		return nil, err
	}
	o := small
	t := &tried{}
	o.Save = func(b []byte) error { t.saved = append(t.saved, bytes.Clone(b)); return nil }
	t.designs, t.search, err = search(context.Background(), f.Rig, list, o)
	return t, err
})

func dipperFile() (*rig.File, error) {
	text, err := examples.Read("dipper")
	if err != nil {
		return nil, err
	}
	return rig.Parse("dipper", text)
}

func lithiumCell(t testing.TB) *cell.Cell {
	t.Helper()
	c, err := cell.Lookup("nmc532")
	if err != nil {
		t.Fatal(err)
	}
	return c
}

type tried struct {
	designs []Design
	search  *Search
	saved   [][]byte
}

func searched(t testing.TB) *tried {
	t.Helper()
	out, err := smallSearch()
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// again runs the small search with other options and returns what must be equal.
func again(t testing.TB, o Options) ([]Design, *Search) {
	t.Helper()
	list, err := dipperBatteries()
	if err != nil {
		t.Fatal(err)
	}
	designs, s, err := search(context.Background(), load(t, "dipper"), list, o)
	if err != nil {
		t.Fatal(err)
	}
	return designs, s
}

func TestSearchFindsAFront(t *testing.T) {
	got := searched(t)
	if got.search.Designs != 20 || got.search.Kept != 20 || got.search.Stopped || len(got.designs) < 3 {
		t.Fatalf("%d designs, %d kept, %d shown", got.search.Designs, got.search.Kept, len(got.designs))
	}
	if st := got.search.Stands; st == nil || st.Candidate != Own || len(st.Set) != 0 || len(got.search.Cloud) != got.search.Kept {
		t.Errorf("as it stands: %+v, and %d spots", st, len(got.search.Cloud))
	}
	names := map[string]bool{}
	for i, a := range got.designs {
		if names[a.Name] || a.Why == "" || a.Years < a.YearsLow || a.Years > a.YearsHigh {
			t.Errorf("design %+v", a)
		}
		names[a.Name] = true
		for j, b := range got.designs {
			if i != j && b.Price <= a.Price && b.MassKg <= a.MassKg && b.ShortHours <= a.ShortHours && b.Years >= a.Years &&
				(b.Price < a.Price || b.MassKg < a.MassKg || b.ShortHours < a.ShortHours || b.Years > a.Years) {
				t.Errorf("%s is beaten by %s", a.Name, b.Name)
			}
		}
	}
}

func TestSearchSaysWhatItTook(t *testing.T) {
	all := strings.Join(searched(t).search.Varied, "\n")
	for _, want := range []string{"battery: 4", "panel: 200 to 800 W", "tilt", "heater", "insulation", "daily window",
		"panels: 0.45 USD/W taken; ours, no source", "price is that of battery and fetching"} {
		if !strings.Contains(all, want) {
			t.Errorf("what was varied does not say %q:\n%s", want, all)
		}
	}
}

// The number of workers changes nothing.
func TestSearchIsTheSameOnOneWorker(t *testing.T) {
	o := small
	o.Workers = 1
	designs, _ := again(t, o)
	if !reflect.DeepEqual(designs, searched(t).designs) {
		t.Error("another number of workers found another front")
	}
}

// A search that was interrupted ends where one that was not ends, and does not
// run again what it had.
func TestSearchGoesOn(t *testing.T) {
	list, err := dipperBatteries()
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	o := small
	var saved []byte
	o.Save = func(b []byte) error { saved = bytes.Clone(b); return nil }
	o.Progress = func(done, _ int) {
		if done == 9 {
			cancel()
		}
	}
	_, s, err := search(ctx, load(t, "dipper"), list, o)
	if err != nil {
		t.Fatal(err)
	}
	if !s.Stopped || s.Designs < 9 || s.Designs > 12 {
		t.Fatalf("interrupted after 9 designs: stopped %t with %d", s.Stopped, s.Designs)
	}
	o = small
	o.Resume = saved
	designs, s := again(t, o)
	if s.Designs != 20 || !reflect.DeepEqual(designs, searched(t).designs) {
		t.Error("going on led to another front")
	}
}

func TestSearchRefusesAnotherState(t *testing.T) {
	saved := searched(t).saved
	last := saved[len(saved)-1]
	list, err := dipperBatteries()
	if err != nil {
		t.Fatal(err)
	}
	other := load(t, "dipper")
	other.Loads[0].Power = quantityOf[q.Power](900)
	otherSeed, otherBudget := small, small
	otherSeed.Seed, otherBudget.Budget = 4, 900
	for _, c := range []struct {
		name string
		rig  *rig.Rig
		o    Options
		text []byte
		want string
	}{
		{"another rig", other, small, last, "another rig file"},
		{"another seed", load(t, "dipper"), otherSeed, last, "seed 3"},
		{"a budget", load(t, "dipper"), otherBudget, last, "budget 900"},
		{"half of it", load(t, "dipper"), small, last[:len(last)/2], "damaged"},
		{"anything", load(t, "dipper"), small, []byte("{}"), "no saved search"},
	} {
		c.o.Resume = c.text
		_, _, err := search(context.Background(), c.rig, list, c.o)
		var e *fit.InputError
		if !errors.As(err, &e) || !strings.Contains(e.Error(), c.want) {
			t.Errorf("%s: %v, want an error with %q", c.name, err, c.want)
		}
	}
}

func TestSearchKeepsWithinConstraints(t *testing.T) {
	o := small
	o.Designs, o.Budget, o.Mass, o.ShortHours, o.Life = 24, 1000, 60, 20, 5
	designs, s := again(t, o)
	if len(designs) == 0 || s.Kept == 0 || len(s.Limits) != 4 {
		t.Fatalf("nothing found: %+v", s)
	}
	for _, d := range designs {
		if d.Price > 1000 || d.MassKg > 60 || d.ShortHours > 20 || d.Years < 5 {
			t.Errorf("%s is beyond the constraints: %g USD, %g kg, %g h, %g years", d.Name, d.Price, d.MassKg, d.ShortHours, d.Years)
		}
	}
}

// A failing save ends the search: nobody is to believe that it can be gone on with.
func TestSearchTellsOfAFailingSave(t *testing.T) {
	list, err := dipperBatteries()
	if err != nil {
		t.Fatal(err)
	}
	o, full := small, errors.New("disk full")
	o.Designs, o.Save = 4, func([]byte) error { return full }
	if _, _, err := search(context.Background(), load(t, "dipper"), list, o); !errors.Is(err, full) {
		t.Errorf("got %v, want the error of saving", err)
	}
}

// The first designs try every level of everything about equally often.
func TestSpreadCoversEverything(t *testing.T) {
	list, err := dipperBatteries()
	if err != nil {
		t.Fatal(err)
	}
	s, err := newSearcher(context.Background(), load(t, "dipper"), list, small)
	if err != nil {
		t.Fatal(err)
	}
	all := s.spread(400)
	if len(all) != 400 {
		t.Fatalf("%d designs, want 400", len(all))
	}
	for _, k := range []int{whichBattery, howManyModules, howMuchPanel, howTilted, howThick} {
		n := make([]int, s.space.levels()[k])
		for _, g := range all {
			n[g[k]]++
		}
		for level, times := range n {
			if mean := 400 / len(n); times < mean*6/10 || times > mean*15/10 {
				t.Errorf("level %d of %d is tried %d times, the mean is %d", level, k, times, mean)
			}
		}
	}
}

// Small spaces are searched whole and then the search ends.
func TestSearchEndsWhenNothingIsLeft(t *testing.T) {
	s := &searcher{space: &space{base: make([]base, 1), modules: []int{1, 2}, panels: []float64{1}, tilts: []float64{-1}, heaters: []float64{0}, thick: []float64{-1}},
		seen: map[genes]bool{}, draw: newDraw(1)}
	s.space.base[0].variant = &variant{res: &fit.Result{Kind: lithiumCell(t)}, rig: &rig.Rig{}}
	s.space.base[0].rig, s.space.rig = &rig.Rig{}, &rig.Rig{}
	if got := s.spread(10); len(got) != 2 {
		t.Errorf("%d designs of 2 possible ones", len(got))
	}
}
