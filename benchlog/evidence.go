package benchlog

import "math"

// basis is what told the direction of current.
type basis uint8

const (
	byStep basis = iota
	byTrend
	byState
	byCounter
	bySoC
	byHeader
	bases
)

// evidence weighs, row by row, whether a positive current charges. It knows
// four witnesses: a column that names what is done, counters of one direction,
// the state of charge, and the voltage, which rises with a step towards
// charging (the cell's resistance) and while charging at constant current.
type evidence struct {
	counter  bool // the charge counter has a direction of its own
	last     [4]point
	seen     int     // points since the last cut
	maxA     float64 // A, largest current of two rows together so far, without sign
	leastV   float64 // V, smallest change of voltage seen, which is about the resolution
	refV     float64 // V, where the stretch of constant current began
	refA     float64
	answer   float64        // Ω, largest answer of the voltage to a step of current
	plus     [bases]float64 // weight for "positive charges"
	minus    [bases]float64
	negative float64 // A, most negative current of two rows together so far
}

type point struct{ v, a, ah, soc float64 }

const (
	stepShare  = 0.1    // of the largest current: a smaller change is no step
	stepVolts  = 0.0005 // of the voltage: a smaller answer to a step may be noise
	clearVolts = 0.002  // of the voltage: an answer to a step beyond doubt
	trendVolts = 0.003  // of the voltage, at constant current
	resolved   = 2.5    // smallest steps of voltage: told from noise
	loadAmps   = 0.05   // A; less may be an offset of the meter, until a step shows what is load
	steadyAmps = 0.05   // of the current: constant
	restShare  = 0.02   // of the largest current: at rest
	enough     = 3.0    // weight that decides
	clearRatio = 3.0    // of the weights for and against
)

// newEvidence knows the size of currents from the head of the file, so that an
// offset at rest before the first load is not taken for one.
func newEvidence(maxA float64) evidence {
	return evidence{maxA: maxA, leastV: math.Inf(1), refV: math.NaN(), refA: math.NaN()}
}

// cut forgets the rows before: the next does not follow them.
func (e *evidence) cut() {
	e.seen = 0
	e.refV, e.refA = math.NaN(), math.NaN()
}

// take weighs one row and returns what it added to "positive charges".
func (e *evidence) take(p point, state float64) float64 {
	if math.IsNaN(p.a) {
		return 0
	}
	copy(e.last[:3], e.last[1:])
	e.last[3] = p
	e.seen++
	e.size()
	sum := 0.0
	if math.Abs(p.a) > restShare*e.maxA {
		if state == 1 || state == -1 {
			sum += e.vote(byState, state*p.a, enough)
		}
		sum += e.counters(p)
		sum += e.trend(p)
	}
	return sum + e.step()
}

// size follows the largest currents; one row alone may be a spike.
func (e *evidence) size() {
	if e.seen < 2 {
		return
	}
	a, b := e.last[2].a, e.last[3].a
	e.maxA = max(e.maxA, min(math.Abs(a), math.Abs(b)))
	e.negative = min(e.negative, max(a, b))
}

// vote adds to the weight of a witness. Counters and the state of charge speak
// in every row, so what they can come to is bounded.
func (e *evidence) vote(b basis, sign, weight float64) float64 {
	if (b == byCounter || b == bySoC) && e.plus[b]+e.minus[b] >= enough {
		return signOf(sign)
	}
	switch {
	case sign > 0:
		e.plus[b] += weight
		return weight
	case sign < 0:
		e.minus[b] += weight
		return -weight
	}
	return 0
}

// counters compares a counter of one direction, and the state of charge, with
// the row before.
func (e *evidence) counters(p point) float64 {
	if e.seen < 2 {
		return 0
	}
	before := e.last[2]
	if before.a*p.a <= 0 {
		return 0
	}
	sum := 0.0
	if d := p.ah - before.ah; e.counter && math.Abs(d) < 10*e.maxA {
		sum += e.vote(byCounter, d*p.a, 1)
	}
	if d := p.soc - before.soc; math.Abs(d) < 20 {
		sum += e.vote(bySoC, d*p.a, 1)
	}
	return sum
}

// trend follows the voltage while the current stays as it is.
func (e *evidence) trend(p point) float64 {
	if math.Abs(p.a-e.refA) > steadyAmps*math.Abs(e.refA) || math.IsNaN(e.refA) || math.IsNaN(e.refV) {
		e.refV, e.refA = p.v, p.a
		return 0
	}
	d := p.v - e.refV
	least := trendVolts * math.Abs(p.v)
	if !math.IsInf(e.leastV, 1) {
		least = max(least, resolved*e.leastV)
	}
	if math.Abs(d) < least || e.maxA < loadAmps && e.plus[byStep]+e.minus[byStep] == 0 {
		return 0
	}
	e.refV = p.v
	return e.vote(byTrend, d*p.a, 2)
}

// step looks at a step of current one row back: the voltage may have been
// sampled a row sooner or later than the current.
func (e *evidence) step() float64 {
	if d := math.Abs(e.last[3].v - e.last[2].v); e.seen > 1 && d > 0 && d < e.leastV && math.Abs(e.last[3].a-e.last[2].a) < stepShare*e.maxA {
		e.leastV = d
	}
	if e.seen < 3 {
		return 0
	}
	change := e.last[2].a - e.last[1].a
	from := e.last[1].v
	if e.seen > 3 && math.Abs(e.last[1].a-e.last[0].a) < stepShare*e.maxA {
		from = e.last[0].v
	}
	answer := e.last[3].v - from
	size := math.Abs(e.last[3].v)
	least := stepVolts * size
	if !math.IsInf(e.leastV, 1) {
		least = max(least, resolved*e.leastV)
	}
	if math.Abs(change) < stepShare*e.maxA || math.Abs(answer) < least || math.IsNaN(answer) {
		return 0
	}
	if math.Abs(e.last[3].a-e.last[2].a) > 0.5*math.Abs(change) {
		return 0 // a spike, or another step: its answer is mixed with this one
	}
	e.answer = max(e.answer, math.Abs(answer/change))
	weight := 1.0
	if math.Abs(answer) > clearVolts*size && math.Abs(change) > 0.5*e.maxA {
		weight = 2
	}
	return e.vote(byStep, answer*change, weight)
}

func signOf(x float64) float64 {
	switch {
	case x > 0:
		return 1
	case x < 0:
		return -1
	}
	return 0
}

// decided returns 1 or -1 when the weights tell what a positive current is, 0
// when they do not yet.
func (e *evidence) decided() float64 {
	plus, minus := e.weights()
	switch {
	case plus >= enough && plus >= clearRatio*minus:
		return 1
	case minus >= enough && minus >= clearRatio*plus:
		return -1
	}
	return 0
}

// leaning is the better guess while nothing is decided, 0 without any hint.
func (e *evidence) leaning() float64 {
	switch plus, minus := e.weights(); {
	case plus > minus:
		return 1
	case minus > plus:
		return -1
	}
	return 0
}

func (e *evidence) weights() (plus, minus float64) {
	for b := range bases {
		plus += e.plus[b]
		minus += e.minus[b]
	}
	return plus, minus
}

// signed reports whether the file's current has both signs: a negative value
// that is more than noise was seen.
func (e *evidence) signed() bool { return e.negative < -restShare*e.maxA }

// how says what told the sign.
func (e *evidence) how(sign float64) string {
	side := &e.plus
	if sign < 0 {
		side = &e.minus
	}
	best := byHeader
	for b := range bases {
		if side[b] > side[best] {
			best = b
		}
	}
	return map[basis]string{byState: "the column that names what is done", byCounter: "the counters of charge in and out",
		bySoC: "the state of charge", byHeader: "header", byStep: e.voltageWords(sign), byTrend: e.voltageWords(sign)}[best]
}

func (e *evidence) voltageWords(sign float64) string {
	switch {
	case sign > 0 && e.signed():
		return "voltage falls while current is negative"
	case sign > 0:
		return "voltage rises while current is positive"
	}
	return "voltage falls while current is positive"
}
