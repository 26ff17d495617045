package drill

import "ampstead/device"

// The faults that sit around a device, between it and what it sees or does.

// fixed is a device that does one thing whatever happens.
type fixed device.Port

// Step implements device.Device.
func (f fixed) Step(_ float64, _ *device.Sense, p *device.Port) { *p = device.Port(f) }

// stuckSource gives all it has, whatever its voltage, its stop input and its
// thermometer say.
type stuckSource struct {
	of     *device.Charger
	amps   float64
	toward float64 // V it would rise to
}

// Step implements device.Device.
func (f stuckSource) Step(_ float64, _ *device.Sense, p *device.Port) {
	if f.of.SupplyW <= 0 {
		p.State = device.Unsupplied
		return
	}
	p.State, p.SetV, p.MaxA = device.Bulk, f.toward, f.amps
	if f.of.SupplyW < unboundedW {
		p.MaxW = f.of.SupplyW
	}
}

// wedged is a guard or contactor whose contact no longer moves: it judges, and
// nothing comes of it.
type wedged struct {
	device.Device
	stop bool
}

// Step implements device.Device.
func (f wedged) Step(dt float64, s *device.Sense, p *device.Port) {
	f.Device.Step(dt, s, p)
	p.Stop = f.stop
}

// welded is a contactor that carries on whatever its coil does.
type welded struct{ device.Device }

// Step implements device.Device.
func (f welded) Step(dt float64, s *device.Sense, p *device.Port) {
	f.Device.Step(dt, s, p)
	p.Stop, p.State = false, device.Closed
}

// falseWarmth is a device whose thermometer reads one temperature for ever.
type falseWarmth struct {
	device.Device
	tempC float64
	seen  device.Sense
	temps []float64
}

// Step implements device.Device.
func (f *falseWarmth) Step(dt float64, s *device.Sense, p *device.Port) {
	if f.temps == nil {
		f.temps = make([]float64, len(s.GroupC))
		for k := range f.temps {
			f.temps[k] = f.tempC
		}
	}
	f.seen = *s
	f.seen.SetGroupC(f.temps)
	f.seen.SurroundingC = f.tempC
	f.Device.Step(dt, &f.seen, p)
}

// oneBlind is a cell meter that misses a group: it takes the mean of the others.
type oneBlind struct {
	device.Device
	group int
	seen  device.Sense
	volts []float64
}

// Step implements device.Device.
func (f *oneBlind) Step(dt float64, s *device.Sense, p *device.Port) {
	f.volts = append(f.volts[:0], s.GroupV...)
	sum := -f.volts[f.group]
	for _, v := range f.volts {
		sum += v
	}
	f.volts[f.group] = sum / float64(len(f.volts)-1)
	f.seen = *s
	f.seen.SetGroupV(f.volts)
	f.Device.Step(dt, &f.seen, p)
}

// stuckPad is a heater whose thermostat contact is welded; a switch in its lead
// still opens it.
type stuckPad struct{ of *device.Heater }

// Step implements device.Device.
func (f stuckPad) Step(_ float64, s *device.Sense, p *device.Port) {
	if s.Stop {
		p.State = device.Stopped
		return
	}
	p.State, p.LoadW, p.HeatW = device.On, f.of.PowerW, f.of.PowerW*(1-f.of.Stray)
}
