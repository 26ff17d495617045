package choose

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"ampstead/fit"
	"ampstead/rig"
	"ampstead/travel"
)

// A design becomes a rig file that keeps its comments, and whose year is the
// design's.
func TestApplyRoundTrip(t *testing.T) {
	f := parsed(t, "dipper")
	for _, d := range searched(t).designs {
		g, err := Apply(f, &d)
		if err != nil {
			t.Errorf("%s: %v", d.Name, err)
			continue
		}
		if !strings.HasPrefix(string(g.Text), "# Dipper: a short van") {
			t.Errorf("%s: the comments at the top are gone", d.Name)
		}
		res, err := fit.Run(g.Rig)
		if err != nil {
			t.Errorf("%s: %v", d.Name, err)
			continue
		}
		for _, set := range res.Settings {
			if set.Differs {
				t.Errorf("%s: %s is %v, recommended %v", d.Name, set.Path, set.Today, set.Value)
			}
		}
		year, err := travel.Run(context.Background(), g.Rig, travel.Options{Years: 1, Seed: small.Seed})
		if err != nil {
			t.Errorf("%s: %v", d.Name, err)
			continue
		}
		if diff := math.Abs(year.Year.UnservedH - d.ShortHours); diff > max(0.5, 0.01*d.ShortHours) {
			t.Errorf("%s: the file leaves %.2f hours short, the design %.2f", d.Name, year.Year.UnservedH, d.ShortHours)
		}
	}
}

func TestApplyEveryBatteryToCurlew(t *testing.T) {
	f := parsed(t, "curlew")
	list, err := variants(context.Background(), f.Rig)
	if err != nil {
		t.Fatal(err)
	}
	s, err := spaceOf(f.Rig, list)
	if err != nil {
		t.Fatal(err)
	}
	for k := range s.base {
		for _, change := range []genes{{}, {howManyModules: 2, howMuchPanel: -4, howTilted: 2, whichWindow: 1}, {howManyModules: 1, whichWindow: -1}} {
			g := s.today(k)
			for i := range g {
				g[i] = min(max(0, g[i]+change[i]), s.levels()[i]-1)
			}
			g[howMuchHeater] = (g[howMuchHeater] + change[howManyModules]) % len(s.heaters)
			g = s.plain(g)
			d := Design{Name: s.name(g), Set: s.set(g)}
			file, err := Apply(f, &d)
			if err != nil {
				t.Errorf("%s: %v", d.Name, err)
				continue
			}
			lead := acid(file.Rig.Bank.Cell) // whose relays and frost switches are off for good
			if left := rig.Diff(open(file.Rig), open(s.build(g))); slices.ContainsFunc(left, func(c rig.Change) bool { return !lead || !strings.HasPrefix(c.Path, "protection.") }) {
				t.Errorf("%s: the file differs from the design in %v", d.Name, left)
			}
		}
	}
}

func TestApplyToAFileThatChanged(t *testing.T) {
	d := Design{Set: map[string]string{"charge.attic panel.limit": "20 A"}}
	if _, err := Apply(parsed(t, "dipper"), &d); err == nil {
		t.Error("a design for another file was applied")
	}
}

// An estimate of a candidate's capacity never passes for a measurement.
func TestApplySaysWhatIsEstimated(t *testing.T) {
	f := parsed(t, "dipper")
	list, err := dipperBatteries()
	if err != nil {
		t.Fatal(err)
	}
	s, err := spaceOf(f.Rig, list)
	if err != nil {
		t.Fatal(err)
	}
	d := Design{Set: s.set(s.today(1))} // two narrow modules, only years and distance known
	g, err := Apply(f, &d)
	if err != nil {
		t.Fatal(err)
	}
	res, err := fit.Run(g.Rig)
	if err != nil {
		t.Fatal(err)
	}
	if res.Cell.Measured || res.Cell.Basis != "estimated from its past" || res.Cell.Capacity >= res.Cell.RatedAh {
		t.Errorf("%g Ah of rated %g, %s", res.Cell.Capacity, res.Cell.RatedAh, res.Cell.Basis)
	}
}
