package engine

import "math"

// net is the electrical side of a step: the bank as volts + ohm·I, what feeds the
// bus and what draws from it.
type net struct {
	volts, ohm float64 // the bank at the end of the step
	main       float64 // Ω of the main cable
	floor      float64 // V below which a load no longer draws its power
	bus, bank  draw    // loads behind and before the contactor
	feeds      []feed

	amps    float64 // into the bank
	through float64 // through the main cable, towards the bank
	given   float64 // by all feeds
	behind  float64 // drawn behind the contactor
	before  float64 // drawn before it
	busV    float64
	bankV   float64
}

// draw is loads added up.
type draw struct{ watts, amps float64 }

// at returns the current drawn at a voltage and how it changes with it. Below
// the floor loads fade like resistors; at no voltage they draw nothing.
func (d *draw) at(volts, floor float64) (amps, slope float64) {
	if volts >= floor {
		if d.watts == 0 {
			return d.amps, 0
		}
		per := 1 / volts
		power := d.watts * per
		return power + d.amps, -power * per
	}
	if volts <= 0 {
		return 0, 0
	}
	slope = (d.watts/floor + d.amps) / floor
	return slope * volts, slope
}

// feed is a source during a step.
type feed struct {
	set, most, watts float64
	ceiling          float64
	ohm              float64 // its cable
	cable            float64 // 1/Ω of its cable
	give             float64 // 1/Ω by which it answers at its sense point
	atBank           bool
	part             int
	amps             float64
}

// at returns the current given at a bus and bank voltage, and how it changes
// with each of them.
func (f *feed) at(busV, bankV float64) (amps, dBus, dBank float64) {
	if f.atBank {
		amps, dBank = (f.set-bankV)*f.give, -f.give
		if top := (f.ceiling - busV) * f.cable; top < amps {
			amps, dBus, dBank = top, -f.cable, 0
		}
	} else {
		amps, dBus = (f.set-busV)*f.give, -f.give
	}
	if amps <= 0 {
		return 0, 0, 0
	}
	if amps > f.most {
		amps, dBus, dBank = f.most, 0, 0
	}
	if f.watts > 0 && amps*(busV+amps*f.ohm) > f.watts {
		root := math.Sqrt(busV*busV + 4*f.ohm*f.watts)
		amps = 2 * f.watts / (busV + root)
		return amps, -amps / root, 0
	}
	return amps, dBus, dBank
}

// excess returns by how much the feeds give more than loads take and the bank
// gets at a bank current, and how that falls with the current.
func (n *net) excess(amps float64) (excess, slope float64) {
	n.bankV = n.volts + n.ohm*amps
	before, rise := n.bank.at(n.bankV, n.floor)
	n.through = amps + before
	dThrough := 1 + rise*n.ohm
	n.busV = n.bankV + n.main*n.through
	dBus := n.ohm + n.main*dThrough
	behind, rise := n.bus.at(n.busV, n.floor)
	slope = -rise*dBus - dThrough
	given := 0.0
	for i := range n.feeds {
		f := &n.feeds[i]
		a, byBus, byBank := f.at(n.busV, n.bankV)
		f.amps = a
		given += a
		slope += byBus*dBus + byBank*n.ohm
	}
	n.given, n.behind, n.before = given, behind, before
	return given - behind - n.through, slope
}

// The balance may be off by this current (A), and by what makes this voltage (V)
// over the bank's resistance, when the rest is charged to the bank.
const (
	enoughA = 1e-3
	enoughV = 1e-5
)

func (n *net) balanced(excess float64) bool {
	v := excess * n.ohm
	return excess < enoughA && excess > -enoughA && v < enoughV && v > -enoughV
}

// solve finds the bank current that balances the bus, from a guess. The balance
// falls with the current wherever loads do not collapse, so there Newton's rule
// has one answer to find; where the rule fails, a bracket is halved.
func (n *net) solve(guess float64) float64 {
	if !n.newton(guess) {
		n.halve()
	}
	n.through = n.given - n.behind // what is left of the balance goes to the bank
	n.amps = n.through - n.before
	return n.amps
}

func (n *net) newton(amps float64) bool {
	for range 8 {
		excess, slope := n.excess(amps)
		if n.balanced(excess) {
			return true
		}
		if slope >= 0 {
			return false
		}
		amps -= excess / slope
	}
	return false
}

func (n *net) halve() {
	low, high := n.bracket()
	for range 100 {
		amps := low + 0.5*(high-low)
		excess, _ := n.excess(amps)
		switch {
		case n.balanced(excess) || high-low < 1e-12:
			return
		case excess > 0:
			low = amps
		default:
			high = amps
		}
	}
}

// bracket returns a bank current at which more is given than taken and one at
// which less is.
func (n *net) bracket() (low, high float64) {
	for i := range n.feeds {
		high += n.feeds[i].most
	}
	low = -(n.bus.watts+n.bank.watts)/n.floor - n.bus.amps - n.bank.amps
	return low - 1, high + 1
}

// island solves the bus without the bank: the highest voltage at which the feeds
// carry the loads. Where they cannot, the bus collapses and nothing flows.
func (n *net) island() {
	n.through = 0
	low, high := n.islandBracket()
	if high == 0 {
		n.collapse()
		return
	}
	for k := 0; k < 60 && low < high; k++ {
		middle := 0.5 * (low + high)
		if n.islandExcess(middle) > 0 {
			low = middle
		} else {
			high = middle
		}
	}
	n.busV = high
	n.islandExcess(high)
}

func (n *net) collapse() {
	n.busV = 0
	for i := range n.feeds {
		n.feeds[i].amps = 0
	}
}

// islandBracket looks down from the highest voltage any feed gives for the first
// at which the feeds carry the loads, among the voltages at which a feed comes to
// its limit. It returns zeros when there is none.
func (n *net) islandBracket() (low, high float64) {
	for i := range n.feeds {
		high = max(high, n.feeds[i].top())
	}
	if high == 0 || n.islandExcess(high) >= 0 {
		return high, high
	}
	for {
		low = n.kneeBelow(high)
		if low <= n.floor {
			return 0, 0
		}
		if n.islandExcess(low) >= 0 {
			return low, high
		}
		high = low
	}
}

// kneeBelow returns the highest voltage under volts at which a feed is at its
// limit, or 0.
func (n *net) kneeBelow(volts float64) float64 {
	knee := 0.0
	for i := range n.feeds {
		f := &n.feeds[i]
		if k := f.top() - f.most/f.cable; k < volts {
			knee = max(knee, k)
		}
		if k := f.top() - f.watts/f.top()/f.cable; f.watts > 0 && k < volts {
			knee = max(knee, k)
		}
	}
	return knee
}

// top returns the highest voltage a feed puts on the bus without the bank: one
// whose sense wires lie at the bank knows no better than its ceiling.
func (f *feed) top() float64 {
	if f.atBank {
		return f.ceiling
	}
	return f.set
}

func (n *net) islandExcess(busV float64) float64 {
	behind, _ := n.bus.at(busV, n.floor)
	excess := -behind
	for i := range n.feeds {
		f := &n.feeds[i]
		f.amps, _, _ = f.at(busV, n.volts)
		excess += f.amps
	}
	return excess
}

// alone solves the bank with the loads before its contactor only.
func (n *net) alone() {
	amps := 0.0
	for range 8 {
		before, _ := n.bank.at(n.volts+n.ohm*amps, n.floor)
		amps = -before
	}
	n.amps = amps
}
