package prove

import (
	"fmt"
	"math"
	"strconv"
)

// Change is one value for a rig file: its path, and the value as text with its
// unit, empty to remove what stands there.
type Change struct {
	Path  string `json:"path"`
	Value string `json:"value"`
}

// goodShare is the error, as a share of a value, up to which it counts as
// measured well enough to build on.
const goodShare = 0.10

// Changes returns what a rig file takes over from the test of one of its strings
// of so many groups in series: the date, and of the rest only what was measured
// well enough. strings is how many of the rig's strings are like the one tested; a
// log of the whole bank counts as one. The log of a part of a string says nothing
// of the bank: there are no changes then.
func Changes(res *Result, series, strings int, date string) []Change {
	if res.Series != series {
		return nil
	}
	w := writer{res: res, strings: float64(max(1, strings))}
	if good(res.CapacityAh, res.CapacityErr) {
		w.add("capacity", w.strings*res.CapacityAh, w.strings*res.CapacityErr, "Ah", 1)
	}
	if good(res.Resistance, res.ResistErr) {
		w.add("resistance", res.Resistance/w.strings, res.ResistErr/w.strings, "mΩ", 1000)
	}
	if len(res.Groups) == series && series > 1 {
		w.spreads()
		w.groups()
	}
	if len(w.list) == 0 {
		return nil
	}
	return append([]Change{{"bank.measured.date", date}}, w.list...)
}

// good reports whether a value stands well above its error.
func good(v, sigma float64) bool { return v > 0 && sigma <= goodShare*v }

type writer struct {
	res     *Result
	strings float64
	list    []Change
}

// add writes a value with the digits its error leaves. scale is from SI to the
// unit.
func (w *writer) add(key string, v, sigma float64, unit string, scale float64) {
	v, sigma = v*scale, sigma*scale
	text := strconv.FormatFloat(v, 'f', digits(v, sigma), 64)
	w.list = append(w.list, Change{"bank.measured." + key, text + " " + unit})
}

// digits is how many decimals a value bears: to a tenth of its error, at most
// four significant.
func digits(v, sigma float64) int {
	least := v / 1e4
	if sigma > 0 {
		least = max(least, sigma/3)
	}
	if !(least > 0) {
		return 0
	}
	return max(0, -int(math.Floor(math.Log10(least))))
}

// spreads of one string hold for a bank of one string only: side by side the
// groups of strings are tied together.
func (w *writer) spreads() {
	if w.strings > 1 {
		return
	}
	if v := w.res.SpreadHigh; v != nil {
		w.add("spread_high", *v, settledV, "mV", 1000)
	}
	if v := w.res.SpreadLow; v != nil {
		w.add("spread_low", *v, settledV, "mV", 1000)
	}
}

// groups writes what is known of them: capacity and resistance of all or of none,
// for a rig file takes a list of all groups. Offset and leak are written where
// they stand clear of their errors, so that a rig does not carry noise; where a
// test that could have shown them does not, an older value is removed.
func (w *writer) groups() {
	factor := w.res.toRoom()
	allAh := w.all(func(g *Group) bool { return good(g.CapacityAh, g.CapacityErr) })
	allOhm := w.all(func(g *Group) bool { return good(g.Ohm, g.OhmErr) })
	for k, g := range w.res.Groups {
		at := func(key string) string { return fmt.Sprintf("groups.%d.%s", k, key) }
		if allAh {
			w.add(at("capacity"), w.strings*g.CapacityAh, w.strings*g.CapacityErr, "Ah", 1)
		}
		if allOhm {
			w.add(at("resistance"), factor*g.Ohm/w.strings, factor*g.OhmErr/w.strings, "mΩ", 1000)
		}
		if allAh {
			w.clear(at("behind"), g.OffsetAh, g.OffsetErr, "Ah")
		}
		if (allAh || allOhm) && g.LeakMA != nil {
			w.clear(at("leak"), *g.LeakMA, g.LeakErrMA, "mA")
		}
	}
}

func (w *writer) all(have func(*Group) bool) bool {
	for k := range w.res.Groups {
		if !have(&w.res.Groups[k]) {
			return false
		}
	}
	return true
}

// clear writes a value of all strings that stands clear of its error, and removes
// one that does not.
func (w *writer) clear(key string, v, sigma float64, unit string) {
	if v > 2*sigma {
		w.add(key, w.strings*v, w.strings*sigma, unit, 1)
		return
	}
	w.list = append(w.list, Change{"bank.measured." + key, ""})
}

// toRoom carries the groups' resistances from the log's temperature to 25 °C,
// where a rig file has them.
func (r *Result) toRoom() float64 {
	sum, n := 0.0, 0.0
	for _, p := range r.Pulses {
		if len(p.Groups) > 0 && p.TempC != 0 && r.Kind != nil {
			sum, n = sum+r.Kind.ResistanceFactor(p.TempC), n+1
		}
	}
	if n == 0 {
		return 1
	}
	return n / sum
}
