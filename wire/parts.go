package wire

import (
	"fmt"
	"math"

	"ampstead/circuit"
	"ampstead/figure"
	"ampstead/physics/conductor"
	q "ampstead/quantity"
)

const (
	lugsPerRun = 4   // both ends of both conductors
	spare      = 1.1 // a tenth more cable than measured
	orderStep  = 0.5 // m
	footStep   = 0.3048
)

// parts lists what is to be bought, alike things in one line.
func (s *study) parts() {
	s.cableParts()
	for _, f := range s.fuses {
		s.fusePart(f)
	}
	s.switchParts()
	s.busPart()
	if h := s.res.Heater; h != nil {
		s.part(Part{Item: "heater pad", Spec: s.watts(h.PowerW), Quantity: 1, Unit: "piece", For: []string{h.Name}, Have: true})
	}
	for _, x := range s.res.Strings {
		if x.FuseA > 0 {
			s.part(Part{Item: "panel string fuse with holder", Spec: fmt.Sprintf("%s, %s dc or more", s.amps(x.FuseA), volts(x.ColdV)),
				Quantity: float64(x.Parallel), Unit: "piece", For: []string{x.Name}})
		}
	}
}

// part adds a line, or to the line that is the same.
func (s *study) part(p Part) {
	for k := range s.res.Parts {
		if old := &s.res.Parts[k]; old.Item == p.Item && old.Spec == p.Spec && old.Have == p.Have {
			old.Quantity = tidy(old.Quantity + p.Quantity)
			old.For = append(old.For, p.For...)
			return
		}
	}
	s.res.Parts = append(s.res.Parts, p)
}

// cableParts adds up conductor by size and insulation, with its lugs. A run whose
// size breaks a rule is bought in the size it should have.
func (s *study) cableParts() {
	for _, r := range s.runs {
		size := r.Size
		if r.SmallestSize != "" && s.tooSmall(r) {
			size = r.SmallestSize
		}
		if size == "" {
			continue
		}
		s.total(size, r)
		s.part(Part{Item: "lug", Spec: size, Quantity: float64(lugsPerRun * r.Count), Unit: "piece", For: []string{r.Name}, Have: !r.Proposed && size == r.Size})
	}
	for k := range s.res.Totals {
		t := &s.res.Totals[k]
		t.OrderM = s.order(t.LengthM)
		s.part(Part{Item: "stranded copper cable", Spec: fmt.Sprintf("%s, insulation %s", t.Size, s.degrees(t.InsulationC)),
			Quantity: t.OrderM, Unit: "m", For: t.For})
	}
}

func (s *study) total(size string, r *run) {
	length := 2 * r.LengthM * float64(r.Count)
	for k := range s.res.Totals {
		if t := &s.res.Totals[k]; t.Size == size && t.InsulationC == r.InsulationC {
			t.LengthM, t.Runs, t.For = tidy(t.LengthM+length), t.Runs+r.Count, append(t.For, r.Name)
			return
		}
	}
	s.res.Totals = append(s.res.Totals, CableTotal{Size: size, InsulationC: r.InsulationC, LengthM: tidy(length), Runs: r.Count, For: []string{r.Name}})
}

// order adds a tenth and rounds up to half metres, or feet.
func (s *study) order(lengthM float64) float64 {
	step := orderStep
	if s.sys == q.US {
		step = footStep
	}
	return tidy(math.Ceil(lengthM*spare/step-1e-9) * step)
}

// fusePart lists a fuse: the one of the file, or the one that should stand there.
func (s *study) fusePart(f *fused) {
	rating, class, have := f.RatingA, f.Class, f.given != nil
	if have && !s.fuseStays(f) {
		have, class = false, f.BestClass
		if f.BestA > 0 {
			rating = f.BestA
		}
	}
	if class == "" {
		class = "class as its maker states for " + kiloamps(f.NeededA)
	}
	spec := fmt.Sprintf("%s, %s, %s dc or more", class, s.amps(rating), volts(f.VoltageNeededV))
	if f.NeededA > 0 {
		spec += ", interrupts " + kiloamps(f.NeededA) + " or more"
	}
	s.part(Part{Item: "fuse with holder", Spec: spec, Quantity: float64(f.Count), Unit: "piece", For: []string{f.Circuit}, Have: have})
}

// fuseStays reports whether a fuse of the file breaks none of its rules.
func (s *study) fuseStays(f *fused) bool {
	const rounding = 1e-9
	return f.InterruptA >= f.NeededA && f.VoltageV >= f.VoltageNeededV-1e-6 && f.RatingA >= f.LeastA*(1-rounding) && f.RatingA <= f.MostA*(1+rounding)
}

func (s *study) switchParts() {
	for _, c := range s.res.Contactors {
		s.part(Part{Item: "contactor", Spec: fmt.Sprintf("%s for long, breaks %s at %s in both directions", s.amps(max(c.CurrentA, c.ContinuousA)), s.amps(max(c.BreakNeedA, c.BreakA)), volts(s.res.TopV)),
			Quantity: 1, Unit: "piece", For: []string{c.Name}, Have: c.ContinuousA >= c.CurrentA && c.BreakA >= c.BreakNeedA && !c.Polarised})
	}
	p := s.res.PreCharge
	if p == nil {
		return
	}
	spec := fmt.Sprintf("%s wire-wound, pulse of %s, %s for an instant", q.Ohms.Text(p.Ohm, s.sys), q.Joules.Text(p.PulseRatingJ, s.sys), s.watts(p.PeakW))
	s.part(Part{Item: "pre-charge resistor with timer", Spec: spec, Quantity: 1, Unit: "piece", For: []string{p.Contactor}, Have: p.GivenOhm > 0})
}

// busPart is the pair of bus bars.
func (s *study) busPart() {
	r := s.endOf(circuit.AtBus)
	if r == nil || r.CurrentA == 0 {
		return
	}
	u, err := s.figures.Try(conductor.BusBar, figure.N("current", r.CurrentA))
	if err != nil {
		return // more than a single bar carries: the finding on the main run says so
	}
	bar, _ := u.Out["bar"].(string)
	s.part(Part{Item: "copper bus bar", Spec: fmt.Sprintf("%s or larger, carries %s in a closed box", bar, s.amps(u.Num("ampacity_a"))),
		Quantity: 2, Unit: "piece", For: []string{circuit.AtBus}})
}
