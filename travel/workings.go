package travel

import (
	"fmt"

	"ampstead/finding"
	q "ampstead/quantity"
	"ampstead/working"
)

// read are the numbers of the year each rule speaks of, by their keys.
var read = map[string][]string{
	"frost-unguarded":   {"frost_locked_hours", "lost_frost_wh", "frost_charge_ah", "coldest_charge_c"},
	"disconnected":      {"disconnected_hours", "unserved_wh"},
	"unserved":          {"unserved_hours", "unserved_wh", "load_wh"},
	"frost-locked":      {"frost_locked_hours", "lost_frost_wh", "sun_offered_wh"},
	"heater-too-low":    {"heater_wh", "frost_locked_hours"},
	"cold-current":      {"cold_excess_ah", "charge_peak_a"},
	"cell-beyond-limit": {"cell_high_v", "cell_low_v"},
	"main-fuse-peak":    {"draw_peak_a"},
	"held-full":         {"hours_above_90_percent"},
	"charger-limit":     {"lost_limit_wh", "sun_offered_wh"},
	"hot-bank":          {"hours_above_35_c", "bank_temp_max_c"},
}

// workings are what stands behind the numbers of a rule's finding: the run they
// were read off, and the limits they are held against.
func (s *study) workings(id string, res *Result) []finding.Working {
	w := working.Year.Run(fmt.Sprintf("read off the first weather year: %s; %d in all, seed %d", res.Weather.Source, res.Weather.Years, res.Weather.Seed),
		working.Row("", res.Year, read[id]...).Outputs...)
	k := s.fit.Kind
	list := []finding.Working{w}
	switch id {
	case "frost-unguarded":
		list = append(list, working.Found("from November to March", working.Of("lost to frost", darkMonths(res, func(m *Month) float64 { return m.LostFrost }), q.WattHours)),
			s.lockWorking(), working.Taken("no charge below", k.ChargeMinC.Value, q.Celsius, k.ChargeMinC.Source))
	case "heater-too-low":
		h := s.world.rig.Heater
		list = append(list, s.lockWorking(), working.Stated(working.Of("heater off", float64(h.Off.Value), q.Celsius)))
	case "unserved":
		list = append(list, unservedWorkings(res)...)
	case "cell-beyond-limit":
		list = append(list, working.Taken("charge limit", k.MaxV.Value, q.Volts, k.MaxV.Source), working.Taken("discharge limit", k.MinV.Value, q.Volts, k.MinV.Source))
	case "cold-current":
		list = append(list, working.Taken("the cells bear less current below", coldC, q.Celsius, k.ChargeRates.Source))
	case "main-fuse-peak":
		for _, f := range s.world.rig.Protection.Fuses {
			if f.Guards == "bank" {
				list = append(list, working.Stated(working.Of("rating of "+f.Name, float64(*f.Rating), q.Amperes)))
			}
		}
	case "start-refused":
		for _, v := range s.world.feeds {
			list = append(list, working.Found("the hardest start of the year", finding.Value{Name: v, Value: s.years[0].refused[v], Unit: "W"}))
		}
	case "held-full", "hot-bank":
		list = append(list, working.Found("hours are counted above", working.Of("charge", 0.9, q.Fraction), working.Of("temperature", 35, q.Celsius)))
	}
	return list
}

func (s *study) lockWorking() finding.Working {
	return working.Found("the frost lock fit advises (frost-lock)", working.Of("lock", s.lockC(), q.Celsius))
}

func unservedWorkings(res *Result) []finding.Working {
	var list []finding.Working
	if b := res.Bands; b.Years > 1 {
		list = append(list, working.Found(fmt.Sprintf("over %d weather years, 10th and 90th percentile", b.Years),
			finding.Value{Name: "hours not served, low", Value: b.UnservedHours.Low, Unit: "h"}, finding.Value{Name: "high", Value: b.UnservedHours.High, Unit: "h"}))
	}
	if len(res.Limits) > 0 {
		list = append(list, working.Found("the same years reckoned again with "+res.Limits[0].Change, working.Of("not served, change", res.Limits[0].Unserved, q.WattHours)))
	}
	return list
}
