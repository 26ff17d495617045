package fit

import (
	"math"

	"ampstead/figure"
	q "ampstead/quantity"
	"ampstead/rig"
)

// Off is the value of a setting that is to be switched off.
const Off = "off"

// notGiven is the value today of a setting the rig file does not state.
const notGiven = "not given"

// settings makes the sheets: a value for every setting of every device.
func (s *study) settings() []Setting {
	sheet := []Setting{}
	for k := range s.rig.Charge {
		sheet = append(sheet, s.chargerSheet(k)...)
	}
	for k := range s.rig.Inverters {
		v := &s.rig.Inverters[k]
		sheet = append(sheet, s.lowCutSheet("inverters."+v.Name, v.LowCut, v.Restart)...)
	}
	for k := range s.rig.Converters {
		v := &s.rig.Converters[k]
		sheet = append(sheet, s.lowCutSheet("converters."+v.Name, v.LowCut, v.Restart)...)
	}
	for k := range s.rig.Protection.Relays {
		sheet = append(sheet, s.relaySheet(&s.rig.Protection.Relays[k])...)
	}
	for k := range s.rig.Protection.Meters {
		sheet = append(sheet, s.meterSheet(&s.rig.Protection.Meters[k])...)
	}
	for k := range s.rig.Protection.Cutouts {
		sheet = append(sheet, s.cutoutSheet(&s.rig.Protection.Cutouts[k])...)
	}
	if s.rig.Heater != nil {
		sheet = append(sheet, s.heaterSheet(s.rig.Heater)...)
	}
	return sheet
}

// recommended finds a setting on the finished sheets; ok is false when it is
// not there or is to be off.
func (s *study) recommended(path string) (float64, bool) {
	for k := range s.sheet {
		if s.sheet[k].Path == path {
			v, ok := s.sheet[k].Value.(float64)
			return v, ok
		}
	}
	return 0, false
}

// page is one device's sheet in the making.
type page struct {
	kind, device, path string
	lines              []Setting
}

// line adds a setting: its value in base units, Off or a word.
func (p *page) line(key string, v, today any, dim *q.Dimension, because string, how ...figure.Use) {
	unit := ""
	if n, isNumber := v.(float64); isNumber && dim != nil {
		v, unit = tidy(n), dim.Base
	}
	p.lines = append(p.lines, Setting{Device: p.device, Kind: p.kind, Setting: spaced(key), Path: p.path + "." + key,
		Value: v, Unit: unit, Today: today, Because: because, Differs: differs(v, today), Dim: dim, How: how})
}

func spaced(key string) string {
	b := []byte(key)
	for k := range b {
		if b[k] == '_' {
			b[k] = ' '
		}
	}
	return string(b)
}

// differs compares as numbers where both are; a compensation of nothing is off.
func differs(v, today any) bool {
	a, aIs := v.(float64)
	b, bIs := today.(float64)
	switch {
	case aIs && bIs:
		return math.Abs(a-b) > nudge
	case v == Off && bIs:
		return b != 0
	}
	return v != today
}

// todayOf is a setting as the file states it.
func todayOf[Q q.Quantity](set rig.Setting[Q]) any {
	switch {
	case !set.Given:
		return notGiven
	case set.Off:
		return Off
	}
	return float64(set.Value)
}
