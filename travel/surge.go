package travel

// surges looks at appliances that start in some minutes: what the bank has to
// give for that moment, and whether what feeds them can.
func (r *drive) surges(m, n int) {
	for i := range r.demand.Starts {
		s := &r.demand.Starts[i]
		if s.Minute < m || s.Minute >= m+n {
			continue
		}
		volts := r.a.Engine.Sense().BusV
		efficiency, running := r.feed(s.Feed, s.Watts)
		if running && volts > 0 {
			amps := -r.a.Bank.Amps() + s.Watts/efficiency/volts
			r.out.DrawPeakA = max(r.out.DrawPeakA, amps)
		}
	}
}

// feed returns the efficiency of what feeds a start, and whether it carries so
// much more than it does; what it does not carry is noted.
func (r *drive) feed(k int, more float64) (efficiency float64, carries bool) {
	switch k -= 2; {
	case k < 0:
		return 1, true
	case k < len(r.a.Converters):
		c := r.a.Converters[k].Device
		return c.Efficiency, r.carries(r.a.Converters[k].Name, c.DeliveredW, more, c.RatedW)
	}
	v := r.a.Inverters[k-len(r.a.Converters)]
	return v.Device.Efficiency, r.carries(v.Name, v.Device.DeliveredW, more, max(v.Device.RatedW, v.Device.SurgeW))
}

func (r *drive) carries(name string, now, more, most float64) bool {
	if now == 0 {
		return false
	}
	if asked := now + more; asked > most {
		r.out.refused[name] = max(r.out.refused[name], asked)
		return false
	}
	return true
}
