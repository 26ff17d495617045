package wire

import (
	"fmt"

	"ampstead/finding"
	"ampstead/working"
)

func stringTooHigh(s *study) []finding.Finding {
	var list []finding.Finding
	for _, x := range s.res.Strings {
		if x.LimitV == 0 || x.Passes {
			continue
		}
		severity := finding.Stop
		if x.CoefGiven && x.CoefficientV <= x.LimitV {
			severity = finding.Care // the maker's own coefficient stays below; the table, for any silicon, does not
		}
		mend := fmt.Sprintf("put at most %d in series, or use a charger that bears %s", x.MostSeries, volts(x.ColdV))
		if x.MostSeries == 0 {
			mend = "use a charger that bears " + volts(x.ColdV)
		}
		list = append(list, by(mistake(severity, x.Path+".series",
			fmt.Sprintf("%d panels in series reach %s by the maker's coefficient and %s by table at %s (%s); %s bears %s",
				x.Series, volts(x.CoefficientV), volts(x.TableV), s.degrees(x.ColdestC), x.ColdestAt, x.Charger, volts(x.LimitV)),
			"at sunrise the panels are as cold as the air and nothing draws on them yet: the charger's input breaks down", mend), x.How, working.Row("the string "+x.Name, x, "coldest_c", "open_v", "coefficient_v", "table_v", "cold_v", "limit_v")))
	}
	return list
}

func stringTooLow(s *study) []finding.Finding {
	var list []finding.Finding
	for _, x := range s.res.Strings {
		if x.HotV == 0 || x.HotV >= x.NeedV {
			continue
		}
		list = append(list, by(mistake(finding.Care, x.Path+".series",
			fmt.Sprintf("%s gives %s at best on a hot roof; %s needs %s to fill the bank", x.Name, volts(x.HotV), x.Charger, volts(x.NeedV)),
			"a charger that lowers the voltage cannot raise it: in summer the bank does not fill", "put one more panel in series, within the limit in the cold"), x.How, working.Row("the string "+x.Name, x, "hot_v", "need_v")))
	}
	return list
}

func panelCurrent(s *study) []finding.Finding {
	var list []finding.Finding
	for _, a := range s.res.Arrays {
		if a.Passes {
			continue
		}
		severity := finding.Care
		if a.ShortA > a.LimitA {
			severity = finding.Stop
		}
		list = append(list, by(mistake(severity, a.Path,
			fmt.Sprintf("its panels give up to %s into a short, %s with the quarter for bright sun; %s takes %s", s.amps(a.ShortA), s.amps(a.DesignA), a.Charger, s.amps(a.LimitA)),
			"an input with the wrong polarity or a fault inside meets all of it", "share the strings between two chargers"), a.How, working.Row("all strings on "+a.Charger, a, "short_a", "design_a", "limit_a")))
	}
	return list
}

func panelFuse(s *study) []finding.Finding {
	var list []finding.Finding
	for _, x := range s.res.Strings {
		if x.FuseA == 0 {
			continue
		}
		list = append(list, by(mistake(finding.Care, x.Path,
			fmt.Sprintf("%s is one of several strings in parallel: the others drive more into it than its panels bear", x.Name),
			"a shorted string is fed by all others and its panels burn", fmt.Sprintf("fit a fuse of %s in each string", s.amps(x.FuseA))), x.How, working.Row("the string "+x.Name, x, "short_a", "fuse_a")))
	}
	return list
}

func supplyOverloaded(s *study) []finding.Finding {
	var list []finding.Finding
	for _, x := range s.res.Supplies {
		list = append(list, finding.AllBy(s.overloaded(x), working.Row("what "+x.Name+" gives and what the loads of the file ask of it", x,
			"rated_w", "surge_w", "demand_w", "start_w", "largest_w", "largest_start_w"))...)
	}
	return list
}

// overloaded compares a supply with one load, the hardest start, and all at once.
func (s *study) overloaded(x Supply) []finding.Finding {
	switch {
	case x.LargestW > x.RatedW:
		return []finding.Finding{mistake(finding.Care, x.Path+".power", fmt.Sprintf("%s gives %s; one load alone draws %s", x.Name, s.watts(x.RatedW), s.watts(x.LargestW)),
			"it shuts down, or overheats", "use a larger one, or a smaller load")}
	case x.LargestStartW > x.SurgeW:
		return []finding.Finding{mistake(finding.Care, x.Path+".surge", fmt.Sprintf("%s gives %s for seconds; one load starts with %s", x.Name, s.watts(x.SurgeW), s.watts(x.LargestStartW)),
			"it shuts down at the start, again and again", "use a larger one, or a soft starter")}
	case x.DemandW > x.RatedW || x.StartW > x.SurgeW:
		return []finding.Finding{mistake(finding.Note, x.Path+".power", fmt.Sprintf("everything on %s together draws %s, %s at the hardest start; it gives %s, %s for seconds",
			x.Name, s.watts(x.DemandW), s.watts(x.StartW), s.watts(x.RatedW), s.watts(x.SurgeW)),
			"it shuts down when all run at once", "do not run the largest together")}
	case x.Kind == KindConverter && converterShare*x.DemandW > x.RatedW:
		return []finding.Finding{mistake(finding.Note, x.Path+".power", fmt.Sprintf("%s gives %s; its loads draw %s together", x.Name, s.watts(x.RatedW), s.watts(x.DemandW)),
			"a converter lasts longer with a quarter to spare", "use a larger one if they all run together for long")}
	}
	return nil
}

// converterShare is the room a converter should have over its steady load.
const converterShare = 1.25

func heaterDensity(s *study) []finding.Finding {
	h := s.res.Heater
	if h == nil || h.DensityWCM2 <= h.MostWCM2*(1+1e-9) {
		return nil
	}
	return []finding.Finding{by(mistake(finding.Care, "heater.area",
		fmt.Sprintf("%s gives %.2f W/cm²; a plastic-cased cell takes %g W/cm²", h.Name, h.DensityWCM2, h.MostWCM2),
		"the face of the cell overheats while the middle is still cold, and a thermostat in the middle does not see it",
		fmt.Sprintf("spread it over %.0f cm² or more, or use less power", h.LeastCM2)), h.How, working.Row("the heater", h, "power_w", "area_cm2", "density_w_cm2", "density_most_w_cm2", "least_area_cm2"))}
}
