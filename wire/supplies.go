package wire

// supplies compares converters and inverters with what hangs on them.
func (s *study) supplies() {
	for i := range s.rig.Converters {
		c := &s.rig.Converters[i]
		x := Supply{Name: c.Name, Kind: KindConverter, Path: "converters." + c.Name, RatedW: float64(*c.Power), SurgeW: float64(*c.Power),
			InputLowV: float64(*c.InputLow), InputHighV: float64(*c.InputHigh)}
		s.ask(&x)
	}
	for i := range s.rig.Inverters {
		inv := &s.rig.Inverters[i]
		x := Supply{Name: inv.Name, Kind: KindInverter, Path: "inverters." + inv.Name, RatedW: float64(*inv.Power), SurgeW: or(inv.Surge, float64(*inv.Power)),
			InputLowV: float64(*inv.InputLow), InputHighV: float64(*inv.InputHigh)}
		s.ask(&x)
	}
}

// ask adds up what a supply may be asked for at once, and with the hardest start.
func (s *study) ask(x *Supply) {
	start := 0.0
	for _, l := range s.rig.Loads {
		if l.On != x.Name {
			continue
		}
		x.DemandW += float64(*l.Power)
		x.LargestW = max(x.LargestW, float64(*l.Power))
		start = max(start, or(l.Start, 0)-float64(*l.Power))
		x.LargestStartW = max(x.LargestStartW, or(l.Start, 0))
	}
	if h := s.rig.Heater; h != nil && h.Supply == x.Name {
		x.DemandW += float64(*h.Power)
		x.LargestW = max(x.LargestW, float64(*h.Power))
	}
	x.StartW = x.DemandW + start
	if r := s.endOf(x.Name); r != nil {
		x.InputA, x.SurgeA = r.CurrentA, r.SurgeA
	}
	x.BearsTop = x.InputHighV >= s.res.TopV
	x.Passes = x.BearsTop && x.DemandW <= x.RatedW && x.StartW <= x.SurgeW
	s.res.Supplies = append(s.res.Supplies, *x)
}
