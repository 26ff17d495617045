package keep

import (
	"fmt"
	"math"
	"strconv"
	"time"

	"ampstead/physics/cell"
	q "ampstead/quantity"
	"ampstead/rig"
	"ampstead/store"
)

// When a value is questioned; ours.
const (
	lowestShare = 0.4  // of the cell's lower limit: below, no reading of a living cell
	aboveMaxV   = 0.4  // over the cell's upper limit
	farV        = 0.08 // from the other groups, unless it stood so before
	swapV       = 0.03 // within which a slip put right must fit
	sumShare    = 0.01 // by which groups may add up to other than the bank
	mostRate    = 3.0  // of the capacity per hour: more current than a house bank's
	aheadH      = 24.0 // of the time it was entered
)

// Doubt is a value that looks like a slip of the fingers.
type Doubt struct {
	Field   string `json:"field"` // "groups.3", the groups counted from 1, "groups", "bank_v", "current_a", "temperatures.1", "taken"
	Found   string `json:"found"`
	Perhaps string `json:"perhaps,omitempty"` // what was meant, as it would be typed; "" when there is no guess
}

// asker looks through one reading.
type asker struct {
	sys       q.System
	kind      *cell.Cell
	n         int
	bankAh    float64
	before    *store.Reading // the last one before it
	fresh     store.Reading
	low, high float64 // of a cell that lives
	list      []Doubt
}

// Question looks through a new reading for slips of the fingers, beside those
// before it, which may come in any order. It refuses nothing: the person decides.
func Question(r *rig.Rig, before []store.Reading, fresh store.Reading) []Doubt {
	a := &asker{n: r.Bank.Series, fresh: fresh}
	a.sys, _ = q.ParseSystem(r.About.Units)
	name := r.Bank.Cell
	if r.Bank.Own != nil && name == rig.OwnCellName {
		name = r.Bank.Own.Like
	}
	kind, err := cell.Lookup(name)
	if err != nil { // fit refuses such a rig
		return nil
	}
	a.kind, a.low, a.high = kind, lowestShare*kind.MinV.Value, kind.MaxV.Value+aboveMaxV
	if r.Bank.CellCapacity != nil {
		a.bankAh = float64(*r.Bank.CellCapacity) * float64(max(1, r.Bank.CellsPerGroup)*max(1, r.Bank.Strings))
	}
	a.before = lastBefore(before, fresh)
	a.taken()
	a.groups()
	a.same()
	a.bank()
	a.current()
	a.temperatures()
	return a.list
}

// lastBefore is the latest reading not after the new one, nil when there is none.
func lastBefore(list []store.Reading, fresh store.Reading) (last *store.Reading) {
	for k := range list {
		x := &list[k]
		if x.Gone || x.ID == fresh.ID && x.ID != "" || x.Taken.After(fresh.Taken) {
			continue
		}
		if last == nil || x.Taken.After(last.Taken) {
			last = x
		}
	}
	return last
}

func (a *asker) doubt(field, perhaps, format string, args ...any) {
	a.list = append(a.list, Doubt{Field: field, Perhaps: perhaps, Found: fmt.Sprintf(format, args...)})
}

func (a *asker) taken() {
	x := a.fresh
	if !x.Entered.IsZero() && x.Taken.Sub(x.Entered).Hours() > aheadH {
		a.doubt("taken", x.Entered.Format(time.DateOnly), "taken on %s, after the day it is entered", day(x.Taken))
	}
}

// groups questions each group's voltage by itself and beside the others.
func (a *asker) groups() {
	if n := len(a.fresh.Groups); n > 0 && n != a.n {
		a.doubt("groups", "", "%d groups, the bank has %d in series", n, a.n)
	}
	good := make([]float64, len(a.fresh.Groups))
	for k, v := range a.fresh.Groups {
		good[k] = math.NaN()
		if v == nil {
			continue
		}
		if a.fits(*v) {
			good[k] = *v
			continue
		}
		a.doubt(groupField(k), a.scaled(*v), "%s V is no voltage of such a cell", short(*v))
	}
	if len(present(good)) < 3 {
		return
	}
	others := middle(good)
	for k, v := range good {
		if !known(v) || math.Abs(v-others) <= farV || a.stoodSo(k, v-others) {
			continue
		}
		a.doubt(groupField(k), a.swapped(v, others), "%s V is %.0f mV from the middle group", short(v), 1000*math.Abs(v-others))
	}
}

func groupField(k int) string { return "groups." + strconv.Itoa(k+1) }

func (a *asker) fits(v float64) bool { return v >= a.low && v <= a.high }

// stoodSo reports whether a group was as far from the others at the last reading.
func (a *asker) stoodSo(k int, apart float64) bool {
	if a.before == nil || k >= len(a.before.Groups) || a.before.Groups[k] == nil {
		return false
	}
	old := make([]float64, len(a.before.Groups))
	for j, v := range a.before.Groups {
		old[j] = number(v)
	}
	was := old[k] - middle(old)
	return math.Abs(apart-was) <= farV/2
}

// same questions a reading that repeats the last one to the digit.
func (a *asker) same() {
	if a.before == nil || len(a.fresh.Groups) < 3 || len(a.before.Groups) != len(a.fresh.Groups) {
		return
	}
	read := 0
	for k, v := range a.fresh.Groups {
		old := a.before.Groups[k]
		if (v == nil) != (old == nil) || v != nil && *v != *old {
			return
		}
		if v != nil {
			read++
		}
	}
	if read >= 3 {
		a.doubt("groups", "", "every group reads as on %s, to the digit", day(a.before.Taken))
	}
}

// bank questions a bank voltage that the groups do not add up to.
func (a *asker) bank() {
	v := number(a.fresh.BankV)
	if !known(v) {
		if a.fresh.BankV != nil {
			a.doubt("bank_v", "", "is no number")
		}
		return
	}
	total, n := 0.0, 0
	for _, g := range a.fresh.Groups {
		if g != nil && a.fits(*g) {
			total, n = total+*g, n+1
		}
	}
	if n == a.n {
		if math.Abs(v-total) > sumShare*total {
			a.doubt("bank_v", a.bankMeant(v, func(x float64) bool { return math.Abs(x-total) <= sumShare*total }),
				"%s V, the groups add up to %.2f V", short(v), total)
		}
		return
	}
	each := func(x float64) bool { return a.fits(x / float64(a.n)) }
	if !each(v) {
		a.doubt("bank_v", a.bankMeant(v, each), "%s V is no voltage of %d such cells in series", short(v), a.n)
	}
}

func (a *asker) current() {
	if a.fresh.Amps == nil {
		return
	}
	v := *a.fresh.Amps
	most := mostRate * a.bankAh
	switch {
	case !finite(v):
		a.doubt("current_a", "", "is no number")
	case most > 0 && math.Abs(v) > most && math.Abs(v)/1000 <= most:
		a.doubt("current_a", short(v/1000), "%s A is more than such a bank carries", short(v))
	}
}

func (a *asker) temperatures() {
	for k, t := range a.fresh.TempsC {
		field := "temperatures." + strconv.Itoa(k+1)
		celsius := (t - 32) / 1.8
		switch {
		case !finite(t):
			a.doubt(field, "", "is no number")
		case t < -40 || t > 80:
			perhaps := ""
			if celsius > -40 && celsius < 60 {
				perhaps = q.Celsius.Fixed(math.Round(celsius), "°C", 0)
			}
			a.doubt(field, perhaps, "%s °C in a bank", short(t))
		}
	}
}
