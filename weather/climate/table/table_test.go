package table

import (
	"bytes"
	"errors"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	_ "ampstead/internal/fixedseed" // property tests draw the same every run
	"ampstead/internal/near"
)

func small() *Grid {
	g := &Grid{South: -10, West: -180, Step: 10, Rows: 3, Cols: 36}
	l := g.NewLayer(0.5)
	for lat := -10.0; lat <= 10; lat += 10 {
		for lon := -180.0; lon < 180; lon += 10 {
			n, _ := g.Node(lat, lon)
			l.Values[n] = int16(lat*10 + 20)
		}
	}
	g.Layers = []Layer{l}
	return g
}

func TestAround(t *testing.T) {
	g := small()
	for _, tt := range []struct{ lat, lon, want float64 }{
		{0, 0, 10}, {5, 3, 35}, {-10, 179.9, -40}, {-90, 0, -40}, {90, 0, 60}, {2.5, 185, 22.5}, {2.5, -540, 22.5},
	} {
		got, weight := g.Layers[0].At(g.Around(tt.lat, tt.lon))
		near.Equal(t, "value", got, tt.want, 1e-9)
		near.Equal(t, "weight", weight, 1, 1e-9)
	}
}

// A node without a value leaves the others to answer.
func TestMissingNode(t *testing.T) {
	g := small()
	n, ok := g.Node(0, 0)
	if !ok {
		t.Fatal("no node at 0, 0")
	}
	g.Layers[0].Values[n] = Missing
	got, weight := g.Layers[0].At(g.Around(0, 2.5))
	near.Equal(t, "value", got, 10, 1e-9)
	near.Equal(t, "weight", weight, 0.25, 1e-9)
	if _, weight := g.Layers[0].At(g.Around(0, 0)); weight != 0 {
		t.Errorf("weight %g where there is nothing", weight)
	}
	if _, ok := g.Node(3, 0); ok {
		t.Error("a node off the grid")
	}
}

func TestPackAndRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := &Grid{South: -60, West: 0, Step: 2.5, Rows: rapid.IntRange(1, 5).Draw(t, "rows"), Cols: rapid.IntRange(1, 7).Draw(t, "cols")}
		for range rapid.IntRange(0, 3).Draw(t, "layers") {
			l := g.NewLayer(rapid.Float64().Draw(t, "unit"))
			for i := range l.Values {
				l.Values[i] = rapid.Int16().Draw(t, "value")
			}
			g.Layers = append(g.Layers, l)
		}
		var b bytes.Buffer
		if err := Write(&b, g, small()); err != nil {
			t.Fatal(err)
		}
		got, err := Read(&b)
		if err != nil || len(got) != 2 || len(got[0].Layers) != len(g.Layers) || got[0].Rows != g.Rows || got[0].Step != g.Step {
			t.Fatalf("%v %v", got, err)
		}
		for i, l := range g.Layers {
			if !slices.Equal(l.Values, got[0].Layers[i].Values) || math.Float64bits(l.Unit) != math.Float64bits(got[0].Layers[i].Unit) {
				t.Fatalf("layer %d differs", i)
			}
		}
	})
}

func FuzzRead(f *testing.F) {
	var b bytes.Buffer
	if err := Write(&b, small()); err != nil {
		f.Fatal(err)
	}
	f.Add(b.Bytes())
	f.Add(b.Bytes()[:40])
	f.Add([]byte(magic))
	f.Fuzz(func(t *testing.T, text []byte) {
		grids, err := Read(bytes.NewReader(text))
		if err != nil {
			if !errors.Is(err, ErrDamaged) {
				t.Fatal(err)
			}
			return
		}
		for _, g := range grids {
			for _, l := range g.Layers {
				if len(l.Values) != g.Rows*g.Cols {
					t.Fatalf("%d values of %d rows and %d columns", len(l.Values), g.Rows, g.Cols)
				}
			}
		}
	})
}
