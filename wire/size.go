package wire

import (
	"ampstead/figure"
	"ampstead/fit"
	"ampstead/physics/conductor"
	"ampstead/physics/protect"
	q "ampstead/quantity"
)

// The rules that ask for a size, as decided_by names them.
const (
	ruleLeast   = "least size"
	ruleAmps    = "ampacity"
	ruleFuse    = "protection by its fuse"
	ruleDrop    = "voltage drop"
	ruleTrade   = "voltage drop by the trade's formula"
	leastGauge  = 16.0 // AWG or SAE of a conductor run singly: 33 CFR 183.425
	leastMetric = 1.0  // mm²: ISO 10133, clause 7
)

// judged is what a size would do in a run.
type judged struct {
	size           q.Size
	ampacity       float64 // A with every correction
	copperC        float64
	loopOhm        float64
	way, wayTrade  float64 // percent from the bank to the end of the run
	own, ownTrade  float64 // V of this run
	rating         conductor.Rating
	beforeTerminal float64 // A without the limit of the lugs
}

// judge works out what a size would do in a run. Errors: a size, insulation or
// air that the tables do not have.
func (s *study) judge(r *run, size q.Size) (judged, error) {
	j := judged{size: size}
	var err error
	if j.rating, err = conductor.RateIn(size, r.in); err != nil {
		return j, err
	}
	j.ampacity, j.beforeTerminal = j.rating.Amperes, j.rating.Amperes
	if r.in.LugsC > 0 && r.in.LugsC < r.in.InsulationC {
		free := r.in
		free.LugsC = 0
		bare, err := conductor.RateIn(size, free)
		if err != nil {
			return j, err
		}
		j.beforeTerminal = bare.Amperes
	}
	j.copperC = min(r.in.InsulationC, conductor.Temperature(r.drawAt, j.beforeTerminal, r.in.InsulationC, r.air()))
	perM, err := conductor.Resistance(size, j.copperC)
	if err != nil {
		return j, err
	}
	if j.ownTrade, err = conductor.TradeDrop(size, r.LengthM, r.drawAt); err != nil {
		return j, err
	}
	j.loopOhm = conductor.Drop(perM, r.LengthM, 1)
	j.own = j.loopOhm * r.drawAt
	before, beforeTrade := 0.0, 0.0
	for at := r.parent; at != nil; at = at.parent {
		before, beforeTrade = before+at.DropV, beforeTrade+at.TradeDropV
	}
	j.way, j.wayTrade = 100*(before+j.own)/r.OfV, 100*(beforeTrade+j.ownTrade)/r.OfV
	return j, nil
}

// air is what a run lies in; an engine space is 50 °C at least.
func (r *run) air() float64 {
	if r.in.Place == conductor.Engine {
		return max(50, r.in.AmbientC)
	}
	return r.in.AmbientC
}

// demand is one rule that a size must satisfy in a run.
type demand struct {
	rule, why string
	ok        func(judged) bool
}

// demands lists the rules of a run; fuse is the rating that protects it.
func (s *study) demands(r *run, fuse float64) []demand {
	const rounding = 1e-9
	least := protect.Continuous * r.CurrentA
	return []demand{
		{ruleLeast, "a conductor run singly has 16 AWG or 1 mm² at least", func(j judged) bool { return thickEnough(j.size) }},
		{ruleAmps, "carries 1.25 × " + s.amps(r.CurrentA), func(j judged) bool { return j.ampacity >= least*(1-rounding) }},
		{ruleFuse, "carries what its fuse of " + s.amps(fuse) + " lets through", func(j judged) bool { return j.ampacity >= fuse*(1-rounding) }},
		{ruleDrop, "loses " + percent(r.DropLimit) + " at most on the way from the bank", func(j judged) bool { return j.way <= r.DropLimit*(1+rounding) }},
		{ruleTrade, "the same with 10.75 Ω·cmil/ft", func(j judged) bool { return j.wayTrade <= r.DropLimit*(1+rounding) }},
	}
}

func thickEnough(size q.Size) bool {
	if size.Gauge == q.MM2 {
		return size.Number >= leastMetric
	}
	return size.Number <= leastGauge
}

// sizeAll finds the smallest size of every run and judges the one it has; runs
// nearer to the bank come first, for what they drop counts further out.
func (s *study) sizeAll() {
	for _, r := range s.runs {
		j, ok := s.smallest(r)
		if !r.Proposed {
			var err error
			if j, err = s.judge(r, r.size); err != nil {
				s.figures.Fail(&fit.InputError{Path: r.Path, Message: err.Error(), Expected: "a size, insulation and surroundings that the tables have"})
				return
			}
		}
		if r.Proposed && !ok && j.size.Gauge == "" {
			continue // not even the largest can be reckoned
		}
		s.settleSize(r, j)
	}
}

// smallest walks the sizes on sale from the thinnest until every rule is
// satisfied. When none is, it returns the largest and false.
func (s *study) smallest(r *run) (j judged, ok bool) {
	demands := s.demands(r, s.fuseFor(r))
	r.Rules = make([]Need, len(demands))
	for k, d := range demands {
		r.Rules[k] = Need{Rule: d.rule, Why: d.why}
	}
	for _, size := range conductor.Sizes(r.gauge) {
		got, err := s.judge(r, size)
		if err != nil {
			continue // thinner or thicker than the tables go
		}
		j = got
		if s.satisfied(r, demands, j) {
			r.SmallestSize = size.String()
			return j, true
		}
	}
	r.DecidedBy = unsatisfied(r.Rules)
	return j, false
}

// satisfied notes which rules a size is the first to satisfy, and whether all are.
func (s *study) satisfied(r *run, demands []demand, j judged) bool {
	all := true
	for k, d := range demands {
		switch {
		case !d.ok(j):
			all = false
		case r.Rules[k].Size == "":
			r.Rules[k].Size = j.size.String()
			if r.DecidedBy == "" || r.Rules[k].Size != r.sizeOf(r.DecidedBy) {
				r.DecidedBy = d.rule
			}
		}
	}
	return all
}

// sizeOf is the size a rule asks for.
func (r *run) sizeOf(rule string) string {
	for _, n := range r.Rules {
		if n.Rule == rule {
			return n.Size
		}
	}
	return ""
}

// unsatisfied is the first rule that no size satisfies.
func unsatisfied(needs []Need) string {
	for _, n := range needs {
		if n.Size == "" {
			return n.Rule
		}
	}
	return ""
}

// settleSize writes a size and what it does into the run, each number with its
// figure.
func (s *study) settleSize(r *run, j judged) {
	r.size, r.Size = j.size, j.size.String()
	r.InsulationC, r.LugsC, r.AmbientC, r.Bundle = r.in.InsulationC, r.in.LugsC, r.air(), max(1, r.in.Bundle)
	if r.Place = r.in.Place; r.Place == "" {
		r.Place = conductor.Open
	}
	r.CopperC, r.LoopOhm = j.copperC, j.loopOhm
	r.AmpacityA, r.AmpacityBasis, r.AmpacityWeak = j.ampacity, j.rating.Basis, j.rating.Weak
	r.DropV, r.DropPercent, r.TradeDropV, r.WayPercent = j.own, 100*j.own/r.OfV, j.ownTrade, j.way
	r.How = append(r.How, s.explain(r, j)...)
}

// explain applies the figures behind a run's numbers.
func (s *study) explain(r *run, j judged) []figure.Use {
	size := figure.T("size", r.size.String())
	of := s.figures.Use(conductor.Conductor, size, figure.N("temperature", j.copperC), figure.N("insulation", r.in.InsulationC), figure.T("place", r.Place),
		figure.N("bundle", r.Bundle), figure.N("ambient", r.in.AmbientC), figure.N("lugs", r.in.LugsC), figure.N("voltage", r.in.Volts))
	if s.figures.Err != nil {
		return nil
	}
	r.AreaMM2 = of.Num("area_mm2")
	hows := []figure.Use{of}
	if r.drawAt <= j.beforeTerminal {
		hows = append(hows, s.figures.Use(conductor.Heat, figure.N("current", r.drawAt), figure.N("ampacity", j.beforeTerminal),
			figure.N("insulation", r.in.InsulationC), figure.N("ambient", r.air())))
	}
	drop, err := s.figures.Try(conductor.VoltageDrop, size, figure.N("length", r.LengthM), figure.N("current", r.drawAt),
		figure.N("voltage", r.OfV), figure.N("temperature", j.copperC))
	if err == nil { // a drop beyond the voltage is refused there and found by a rule here
		hows = append(hows, drop)
	}
	if r.drawAt > 0 {
		if u, err := s.figures.Try(conductor.ConductorForDrop, figure.N("length", r.LengthM), figure.N("current", r.drawAt),
			figure.N("voltage", r.OfV), figure.N("drop-percent", r.DropLimit)); err == nil {
			hows = append(hows, u)
		}
	}
	return hows
}
