package wire

import (
	"math"
	"reflect"

	"ampstead/circuit"
	"ampstead/figure"
	"ampstead/finding"
	"ampstead/fit"
	q "ampstead/quantity"
	"ampstead/rig"
)

// Options are what other stages know of the currents. The zero Options take
// every current from the ratings of the devices.
type Options struct {
	ChargePeakA float64            // largest into the bank in a year, 0 when not known
	DrawPeakA   float64            // largest out of the bank in a year
	PeakA       map[string]float64 // largest in a cable or at a device, by its name
}

// study is one run: the rig and what has been worked out of it so far.
type study struct {
	rig     *rig.Rig
	fit     *fit.Result
	opt     Options
	sys     q.System
	short   circuit.Short
	devices []device
	kinds   map[string]string // of every node by name
	runs    []*run
	fuses   []*fused
	res     *Result
	figures figure.Ledger
}

// Run works out the wiring of a rig from the file and its fit. It changes
// neither. Errors: *fit.InputError for a cable that cannot be reckoned.
func Run(r *rig.Rig, f *fit.Result, o Options) (*Result, error) {
	s := &study{rig: r, fit: f, opt: o, res: &Result{
		TopV: f.Window.BankHighV, NominalV: f.Window.BankNominalV, LowV: f.Window.BankLowV,
		Circuits: []Circuit{}, Fuses: []Fuse{}, Coordination: []Pair{}, Contactors: []Contactor{}, Strings: []String{}, Arrays: []Array{},
		Supplies: []Supply{}, Parts: []Part{}, Totals: []CableTotal{}, Steps: []Step{}, Assumed: []string{},
	}}
	s.sys, _ = q.ParseSystem(r.About.Units) // anything else was refused by the reader
	if err := s.shortOf(); err != nil {
		return nil, err
	}
	for _, step := range []func(*study){(*study).layOut, (*study).reckon, (*study).fuseAll, (*study).sizeAll, (*study).protect,
		(*study).coordinate, (*study).switches, (*study).preCharge, (*study).heater, (*study).panels, (*study).supplies} {
		if step(s); s.figures.Err != nil {
			return nil, s.figures.Err
		}
	}
	s.publish()
	s.res.Findings = s.findings()
	s.res.Uses = s.figures.Uses
	return s.res, s.figures.Err
}

func (s *study) shortOf() error {
	info := s.fit.Cell
	short, err := circuit.ShortOf(&s.rig.Bank, s.fit.Kind, s.res.TopV, info.RatedAh, info.Ohm)
	if err != nil {
		return err
	}
	s.short = short
	s.figures.Uses = append(s.figures.Uses, short.Use)
	s.res.ShortA, s.res.StringShortA, s.res.BankOhm = short.BankA(), short.BankA(), short.Ohm
	if short.Strings > 1 {
		s.res.StringShortA = short.StringA()
	}
	return nil
}

// publish copies what was worked out into the result.
func (s *study) publish() {
	for _, r := range s.runs {
		s.res.Circuits = append(s.res.Circuits, r.Circuit)
	}
	for _, f := range s.fuses {
		s.res.Fuses = append(s.res.Fuses, f.Fuse)
	}
	s.parts()
	s.steps()
	tidyAll(reflect.ValueOf(s.res).Elem())
}

// assume records what the file does not say.
func (s *study) assume(text string) { s.res.Assumed = append(s.res.Assumed, text) }

// findings runs every rule.
func (s *study) findings() []finding.Finding {
	list := []finding.Finding{}
	for _, r := range rules {
		for _, f := range r.check(s) {
			f.ID = r.id
			list = append(list, f)
		}
	}
	finding.Sort(list)
	return list
}

// or returns an optional quantity's value, or what is assumed without one.
func or[Q q.Quantity](v *Q, assumed float64) float64 {
	if v == nil {
		return assumed
	}
	return float64(*v)
}

// on returns a setting's number, or what holds when it is absent or off.
func on[Q q.Quantity](set rig.Setting[Q], without float64) float64 {
	if !set.On() {
		return without
	}
	return float64(set.Value)
}

// tidy drops the dust of floating point.
func tidy(v float64) float64 { return math.Round(v*1e9) / 1e9 }

// tidyAll does that to every number of a result; the figures behind them keep
// theirs.
func tidyAll(v reflect.Value) {
	switch v.Kind() {
	case reflect.Float64:
		v.SetFloat(tidy(v.Float()))
	case reflect.Pointer:
		if !v.IsNil() {
			tidyAll(v.Elem())
		}
	case reflect.Slice:
		for k := range v.Len() {
			tidyAll(v.Index(k))
		}
	case reflect.Struct:
		for k := range v.NumField() {
			if v.Type().Field(k).Tag.Get("json") != "-" {
				tidyAll(v.Field(k))
			}
		}
	}
}

func (s *study) amps(v float64) string    { return q.Amperes.Text(v, s.sys) }
func (s *study) metres(v float64) string  { return q.Metres.Text(v, s.sys) }
func (s *study) degrees(v float64) string { return q.Celsius.Text(v, s.sys) }
func (s *study) watts(v float64) string   { return q.Watts.Text(v, s.sys) }

func volts(v float64) string    { return q.Volts.Fixed(v, "V", 1) }
func kiloamps(v float64) string { return q.Amperes.Fixed(v, "kA", 1) }
func percent(v float64) string  { return q.Percent.Fixed(v, "%", 1) }
