package drill

import (
	"ampstead/fit"
	"ampstead/physics/cell"
	"ampstead/rig"
)

// stage is what a scene sets for the engine. It never changes once made.
type stage struct {
	soc, bankC float64
	seconds    float64
	longest    float64     // longest step, s
	air        []float64   // °C, by knot
	sun        [][]float64 // W the panels give, by charge source and knot
	mainsW     float64     // each mains charger can draw on
	drives     bool
	stored     bool   // everything that has a switch is off, the disconnect open
	beats      []beat // demand, in order of time
}

// beat is what loads ask for from a moment on.
type beat struct {
	at         float64   // s
	converters []float64 // W, in the order of the rig file
	inverters  []float64
	direct     [2]float64 // on the bank: behind the disconnect, before it
}

// knotS is the time between knots of air and sun.
const knotS = 600.0

// along reads a list of knots at a time, by straight lines.
func along(knots []float64, seconds float64) float64 {
	if len(knots) == 0 {
		return 0
	}
	x := max(0, seconds/knotS)
	k := int(x)
	if k >= len(knots)-1 {
		return knots[len(knots)-1]
	}
	return knots[k] + (x-float64(k))*(knots[k+1]-knots[k])
}

// scenery is what scenes are made from.
type scenery struct {
	rig     *rig.Rig
	fit     *fit.Result
	stays   []stay
	scenes  []Scene
	stages  []stage
	assumed []string
}

// makeScenes makes the scenes a rig can have.
func makeScenes(r *rig.Rig, res *fit.Result) *scenery {
	s := &scenery{rig: r, fit: res}
	s.places()
	for _, make := range []func(){s.fullSun, s.frozenDawn, s.eveningPeak, s.driving, s.mainsOvernight, s.storage, s.hotAfternoon} {
		make()
	}
	return s
}

// add keeps a scene; the stage takes from it what both hold.
func (s *scenery) add(c Scene, st stage) {
	st.soc, st.bankC, st.seconds = c.SoC, c.BankC, 3600*c.Hours
	st.drives = c.Drives
	if st.longest == 0 {
		st.longest = dayStep
	}
	if st.air == nil {
		st.air = []float64{c.AirC}
	}
	if st.beats == nil {
		st.beats = []beat{s.demand(0, usual, 0)}
	}
	s.scenes, s.stages = append(s.scenes, c), append(s.stages, st)
}

func (s *scenery) has(kind string) bool {
	for k := range s.rig.Charge {
		if s.rig.Charge[k].Kind == kind {
			return true
		}
	}
	return false
}

// charged is the state of charge at a cell voltage of rest.
func (s *scenery) charged(volts float64) float64 { return s.fit.Kind.Curve.SoC(volts) }

// settled is the bank's temperature (°C) as its heater leaves it in such air.
func (s *scenery) settled(airC float64) float64 {
	h := s.rig.Heater
	if h == nil {
		return airC
	}
	if h.On.Given {
		if h.On.Off {
			return airC
		}
		return max(airC, float64(h.On.Value))
	}
	for _, m := range s.fit.Warmth {
		if m.Name == "heater on" {
			return max(airC, m.TempC)
		}
	}
	return airC
}

// frost reports whether a bank at a temperature is near or below its frost limit.
func (s *scenery) frost(tempC float64) bool {
	return s.fit.Kind.Family != cell.LeadAcid && tempC <= s.fit.Kind.ChargeMinC.Value+nearFrostK
}

// nearFrostK is how far above the frost limit a place still counts as one where
// the bank freezes, K.
const nearFrostK = 5.0
