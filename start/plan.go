package start

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"ampstead/quantity"
)

// plan is what the answers come to, as far as they have been taken in.
type plan struct {
	known map[string]bool // by question: asked, and answered with more than Unknown

	name  string
	units quantity.System

	winter, summer *place
	sameSummer     bool
	keeps          string  // where the bank lives: heated, cold, or empty for a typed temperature
	typedCold      float64 // °C

	battery *battery
	series  int
	ah      float64 // of one module when new
	modules int

	sources  []string
	count    int     // panels, 0 when only the power is known
	watts    float64 // of one panel where they are counted, else of all
	chargers string  // what they are set for: lead-acid, lithium, own, or empty

	inverter float64 // W, 0 for none
	loads    []load
	guards   []string
	fuse     float64 // A, 0 for none
}

func newPlan() *plan {
	return &plan{known: map[string]bool{}, battery: &unknownBattery, modules: 1}
}

func (p *plan) nominal() float64 { return float64(p.series) * p.battery.nominal }

// top is about the highest voltage of the bank, for placeholders only.
func (p *plan) top() float64 { return 1.17 * p.nominal() }

// class is the nominal voltage of the devices that go with the bank.
func (p *plan) class() int {
	switch v := p.nominal(); {
	case v < 18:
		return 12
	case v < 36:
		return 24
	}
	return 48
}

// inputs is the range of voltage that inverters and converters made for lead-acid
// of that class commonly work in; common practice, no source, on the narrow side.
func (p *plan) inputs() (low, high float64) {
	k := float64(p.class()) / 12
	return 10.5 * k, 15 * k
}

func (p *plan) solar() bool { return slices.Contains(p.sources, "solar") }

func (p *plan) roof() array { return lay(p.count, p.watts, p.top()) }

// The most that is reckoned with at the bank's nominal voltage, A: beyond, no
// fuse or cable of the handbook's tables would do.
const (
	mostInverter = 400.0
	mostSolar    = 300.0
	mostDirect   = 200.0
)

// within refuses a power that is more than so many amperes at the bank's
// voltage.
func (p *plan) within(w, most float64) error {
	return within(w, most, p.nominal(), volts(p.nominal())+" of this battery")
}

// withinDirect does so for what runs without an inverter: at 12 V, where a converter
// makes them, or the bank's voltage where that is lower.
func (p *plan) withinDirect(w float64) error {
	v := math.Min(p.nominal(), 12)
	return within(w, mostDirect, v, volts(v)+" it runs on")
}

func within(w, most, at float64, of string) error {
	if a := w / at; a > most {
		return &Problem{Message: fmt.Sprintf("%s is %s at the %s", watts(w), amperes(math.Round(a)), of),
			Expected: fmt.Sprintf("at most %s at this voltage", watts(math.Floor(most*at)))}
	}
	return nil
}

// charger is the current a charger of some power is sold for at the bank's
// voltage, A.
func (p *plan) charger(watts float64) float64 {
	need := watts / math.Max(1, p.nominal())
	for _, a := range []float64{10, 15, 20, 30, 40, 50, 60, 70, 85, 100, 150, 200, 300, 500, 1000, 2000} {
		if a >= need {
			return a
		}
	}
	return 2000
}

// bankCold is how cold the bank gets at a place, °C.
func (p *plan) bankCold(at *place, months []int) float64 {
	night := at.coldNight(months)
	switch {
	case p.keeps == "heated":
		return math.Max(night, heatedC)
	case p.keeps == "cold":
		return night
	case at == p.winter:
		return p.typedCold
	}
	return math.Max(night, p.typedCold)
}

// heatedC is how cold a heated living space gets while it is lived in, °C;
// common practice, no source.
const heatedC = 5.0

func (p *plan) degrees(c float64) string {
	if p.units == quantity.US {
		return quantity.Celsius.Fixed(c, "°F", 0)
	}
	return quantity.Celsius.Text(math.Round(10*c)/10, quantity.Metric)
}

func (p *plan) converter() bool {
	return p.class() > 12 && slices.ContainsFunc(p.loads, func(l load) bool { return p.feed(l) == converterName })
}

// Names of devices in the file.
const (
	converterName = "12 V converter"
	inverterName  = "mains inverter"
	meterName     = "cell meter"
	boardName     = "protection board"
	padName       = "heater pad"
)

// feed is what an appliance hangs on; empty when nothing here can feed it.
func (p *plan) feed(l load) string {
	switch {
	case p.inverter > 0 && (l.mains || l.either):
		return inverterName
	case l.mains:
		return ""
	case p.class() == 12:
		return "bank"
	}
	return converterName
}

// fed lists the appliances that something can feed, and those that nothing can.
func (p *plan) fed() (list, unfed []load) {
	for _, l := range p.loads {
		if p.feed(l) == "" {
			unfed = append(unfed, l)
			continue
		}
		list = append(list, l)
	}
	return list, unfed
}

func watts(v float64) string { return quantity.Watts.Text(v, quantity.Metric) }

func volts(v float64) string {
	return quantity.Volts.Text(math.Round(10*v)/10, quantity.Metric)
}

func ampHours(v float64) string {
	return quantity.AmpereHours.Text(math.Round(10*v)/10, quantity.Metric)
}

func amperes(v float64) string { return quantity.Amperes.Text(v, quantity.Metric) }

// listed joins words as one says them: "a, b and c".
func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " and " + words[last]
}

func many(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}
