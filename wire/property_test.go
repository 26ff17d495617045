package wire_test

import (
	"testing"

	"pgregory.net/rapid"

	"ampstead/finding"
	q "ampstead/quantity"
	"ampstead/rig"
	"ampstead/wire"
)

// anyBranches changes a rig's currents, lengths and surroundings.
func anyBranches(t *rapid.T, r *rig.Rig, gauge q.Gauge) {
	for k := range r.Charge {
		r.Charge[k].Limit = amps(rapid.Float64Range(1, 120).Draw(t, "limit"))
	}
	r.Inverters[0].Power = ptr[q.Power](rapid.Float64Range(100, 5000).Draw(t, "power"))
	for k := range r.Cables {
		c := &r.Cables[k]
		c.Length = metres(rapid.Float64Range(0.2, 6).Draw(t, "length"))
		c.Place = rapid.SampledFrom([]string{"", "open", "engine", "enclosed"}).Draw(t, "place")
		c.Bundle = rapid.IntRange(1, 8).Draw(t, "bundle")
		celsius := q.Temperature(rapid.Float64Range(20, 55).Draw(t, "ambient"))
		c.Ambient = &celsius
		c.Size = &q.Size{Gauge: gauge, Number: rapid.SampledFrom([]float64{4, 10, 16}).Draw(t, "size")}
	}
}

// follow takes every advice about cables and fuses.
func follow(r *rig.Rig, res *wire.Result) {
	for _, c := range res.Circuits {
		for k := range r.Cables {
			if r.Cables[k].Name == c.Name && c.SmallestSize != "" {
				size, err := q.ParseSize(c.SmallestSize)
				if err != nil {
					panic(err)
				}
				r.Cables[k].Size = &size
			}
		}
	}
}

// A proposed size satisfies every rule: once every run has its own, and its own
// standard fuse, nothing is too small or unprotected.
func TestProposedSizesSatisfyEveryRule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text, _ := loadText()
		r := text
		anyBranches(t, r, rapid.SampledFrom([]q.Gauge{q.AWG, q.SAE, q.MM2}).Draw(t, "gauge"))
		r.Protection.Fuses = nil
		res := run(t, r)
		for round := 0; round < 2; round++ { // a thicker main cable leaves more drop to the branches
			follow(r, res)
			res = run(t, r)
		}
		for _, f := range res.Fuses {
			if f.Proposed && f.BestA > 0 {
				guards := f.Circuit
				r.Protection.Fuses = append(r.Protection.Fuses, rig.Fuse{Name: f.Name, Guards: guards, Class: f.BestClass, Rating: amps(f.BestA),
					RatedVoltage: volts(f.VoltageNeededV), Interrupt: amps(f.NeededA), Distance: metres(0.1)})
			}
		}
		res = run(t, r)
		possible := map[string]bool{}
		for _, c := range res.Circuits {
			possible["cables."+c.Name+".size"], possible["cables."+c.Name] = c.SmallestSize != "", c.SmallestSize != ""
		}
		for _, f := range res.Findings {
			if (f.ID == "cable-too-small" || f.ID == "cable-unprotected" || f.ID == "fuse-too-small") && possible[f.Where] && f.Severity != finding.Note {
				t.Fatalf("%s at %s: %s", f.ID, f.Where, f.Found)
			}
		}
	})
}

// A larger current never gets a smaller conductor or fuse.
func TestLargerCurrentNeverGetsLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, _ := loadText()
		anyBranches(t, r, q.MM2)
		r.Protection.Fuses = nil
		less := rapid.Float64Range(1, 150).Draw(t, "less")
		more := rapid.Float64Range(less, 160).Draw(t, "more")
		solar(r).Limit = amps(less)
		small := circuitOf(run(t, r), "bus to solar")
		solar(r).Limit = amps(more)
		large := circuitOf(run(t, r), "bus to solar")
		if large.FuseA < small.FuseA && !large.FuseShared {
			t.Fatalf("fuse %g A for %g A, %g A for %g A", small.FuseA, less, large.FuseA, more)
		}
		if large.SmallestSize == "" {
			return
		}
		if small.SmallestSize == "" {
			t.Fatalf("none for %g A, %s for %g A", less, large.SmallestSize, more)
		}
		a, _ := q.ParseSize(small.SmallestSize)
		b, _ := q.ParseSize(large.SmallestSize)
		if b.Number < a.Number {
			t.Fatalf("%v for %g A, %v for %g A", a, less, b, more)
		}
	})
}

func circuitOf(res *wire.Result, name string) wire.Circuit {
	for _, c := range res.Circuits {
		if c.Name == name {
			return c
		}
	}
	panic("no circuit " + name)
}
