package wire

import (
	"ampstead/circuit"
	"ampstead/figure"
	"ampstead/physics/conductor"
	"ampstead/physics/protect"
	"ampstead/rig"
)

// How far along the conductor a fuse may stand from its source, m: 33 CFR
// 183.455(b), and the same with the conductor enclosed all the way.
const (
	fuseNear     = 0.178
	fuseEnclosed = 1.016
)

// fused is one fuse while it is worked on.
type fused struct {
	Fuse
	given *rig.Fuse // nil when it is proposed
	run   *run
}

// fuseAll hangs the fuses of the file on their runs.
func (s *study) fuseAll() {
	for _, r := range s.runs {
		for _, f := range s.fusesOn(r) {
			x := &fused{given: f, run: r, Fuse: Fuse{Name: f.Name, Path: "protection.fuses." + f.Name, Circuit: r.Name, Count: r.Count,
				Class: f.Class, RatingA: float64(*f.Rating), VoltageV: or(f.RatedVoltage, 0), InterruptA: or(f.Interrupt, 0), DistanceM: or(f.Distance, -1)}}
			if r.guard == nil {
				r.guard = x
			}
			s.fuses = append(s.fuses, x)
		}
	}
}

// fusesOn are the fuses of the file that stand at the beginning of a run.
func (s *study) fusesOn(r *run) []*rig.Fuse {
	var list []*rig.Fuse
	for _, guards := range s.guardNames(r) {
		list = append(list, circuit.Fuses(s.rig, guards)...)
	}
	return list
}

// guardNames is what the fuses of a run may be said to guard.
func (s *study) guardNames(r *run) []string {
	names := []string{r.Name}
	switch {
	case r.From == KindModules:
		return append(names, "string")
	case r.kind == KindPanels:
		return append(names, r.From)
	case r == s.mainRun():
		names = append(names, "bank")
	}
	if s.endOf(r.To) == r && r.To != circuit.AtBus {
		names = append(names, r.To)
	}
	return names
}

// fuseFor is the rating a run's conductor must carry: of the fuse it has, of the
// one before it when that is enough, else of the one it should get.
func (s *study) fuseFor(r *run) float64 {
	least := protect.Continuous * r.CurrentA
	best, err := protect.NextSize(least)
	if err != nil {
		best = least
	}
	switch {
	case r.guard != nil && r.guard.RatingA >= least:
		return r.guard.RatingA
	case r.guard != nil || r.Proposed:
		return best
	}
	if before := r.before(); before != nil {
		if j, err := s.judge(r, r.size); err == nil && before.RatingA <= j.ampacity {
			return before.RatingA
		}
	}
	return best
}

// before is the nearest fuse of the file between a run and the bank.
func (r *run) before() *fused {
	for at := r.parent; at != nil; at = at.parent {
		if at.guard != nil && at.guard.given != nil {
			return at.guard
		}
	}
	return nil
}

// protect finds what each fuse must bear and proposes those that are missing.
func (s *study) protect() {
	for _, r := range s.runs {
		s.shortAt(r)
		r.FuseLowA, r.FuseHighA = protect.Continuous*r.CurrentA, r.AmpacityA
		size := s.figures.Use(protect.FuseSize, figure.N("continuous", r.CurrentA))
		r.How = append(r.How, size)
		switch before := r.before(); {
		case r.guard != nil:
		case before != nil && !r.Proposed && before.RatingA <= r.AmpacityA:
			r.FuseShared = true
			r.show(before)
			continue
		case s.needsFuse(r):
			r.guard = &fused{run: r, Fuse: Fuse{Name: "fuse for " + r.Name, Proposed: true, Circuit: r.Name, Count: r.Count,
				RatingA: size.Num("size_a"), DistanceM: -1}}
			s.fuses = append(s.fuses, r.guard)
		}
		for _, f := range s.fuses {
			if f.run == r {
				s.rateFuse(f, size)
			}
		}
		if r.guard != nil {
			r.show(r.guard)
		}
	}
}

// needsFuse reports whether a run has a source that can feed a short in it. Up
// to two strings of panels cannot harm each other, and a converter limits itself
// but not below what its cables bear.
func (s *study) needsFuse(r *run) bool {
	return r.kind != KindPanels
}

// rateFuse writes what a fuse must bear, and the class for it.
func (s *study) rateFuse(f *fused, size figure.Use) {
	r := f.run
	f.LeastA, f.MostA, f.NeededA = r.FuseLowA, r.FuseHighA, r.InterruptA
	f.VoltageNeededV = s.sideVolts(r)
	f.DistanceMostM = fuseNear
	if r.in.Place == conductor.Enclosed {
		f.DistanceMostM = fuseEnclosed
	}
	if best := size.Num("size_a"); best <= f.MostA {
		f.BestA = best
	}
	if class, err := protect.Propose(size.Num("size_a"), f.VoltageNeededV, f.NeededA); err == nil {
		f.BestClass = class.Name
		f.How = append(f.How, s.figures.Use(protect.FuseInterrupt, figure.T("class", class.Name), figure.N("voltage", f.VoltageNeededV)))
	}
	if f.given == nil {
		f.Class, f.VoltageV = f.BestClass, f.VoltageNeededV
	}
	f.How = append(f.How, size)
}

// show copies the fuse that protects a run into it.
func (r *run) show(f *fused) {
	r.FuseName, r.FuseProposed = f.Name, f.Proposed
	r.FuseA, r.FuseClass = f.RatingA, f.Class
	if r.FuseClass == "" {
		r.FuseClass = f.BestClass
	}
	if r.FuseShared {
		r.InterruptA = f.NeededA
	}
}

// shortAt finds the prospective current where a run begins, with the cables
// before it cold, and how long its conductor bears it.
func (s *study) shortAt(r *run) {
	if r.side > 0 || r.kind == KindPanels || s.adrift(r) {
		return // the bank does not feed a short there
	}
	u := s.short.Use
	switch {
	case r.From == KindModules:
		r.ShortStartA = s.short.StringA()
	case r.parent != nil:
		u = s.figures.Use(conductor.ShortCircuit, figure.N("voltage", s.res.TopV), figure.N("bank-resistance", s.short.Ohm+s.coldLoops(r.parent.parent)),
			figure.T("size", r.parent.size.String()), figure.N("length", r.parent.LengthM))
		r.ShortStartA = u.Num("current_a")
	default:
		r.ShortStartA = u.Num("current_a")
	}
	r.InterruptA = r.ShortStartA
	copper, err := conductor.Copper(r.size)
	if err != nil {
		s.figures.Fail(err)
		return
	}
	withstand := s.figures.Use(conductor.ShortTime, figure.N("area", copper), figure.N("current", r.ShortStartA))
	r.WithstandS = withstand.Num("time_s")
	r.How = append(r.How, u, withstand)
}

// adrift reports whether a run hangs on nothing that leads to the bank.
func (s *study) adrift(r *run) bool {
	for r.parent != nil {
		r = r.parent
	}
	return r.From != circuit.AtBank && r.From != KindModules && r.side == 0 && r.kind != KindPanels
}

// coldLoops is the resistance of a run and those before it at 20 °C.
func (s *study) coldLoops(r *run) float64 {
	sum := 0.0
	for ; r != nil; r = r.parent {
		perM, err := conductor.Resistance(r.size, 20)
		if err != nil {
			s.figures.Fail(err)
			return sum
		}
		sum += conductor.Drop(perM, r.LengthM, 1)
	}
	return sum
}
