package drill

import "fmt"

// How full the bank is where a scene begins, and how long scenes are; ours. They
// are chosen so that what can go wrong has the time to.
const (
	fromFull  = 0.05 // below the top of daily use, in full sun
	fromEmpty = 0.08 // above the bottom of daily use, at the evening peak
	halfFull  = 0.5
	driveSoC  = 0.6
	mildC     = 20.0
)

// fullSun is noon at the brightest stay with the bank nearly full.
func (s *scenery) fullSun() {
	if !s.has("solar") {
		return
	}
	p, day := s.brightest()
	temp := min(max(mildC, p.coldest), p.hottest)
	s.add(Scene{Name: "full sun", About: "A clear noon with the bank nearly full and nobody at home.", Where: p.name,
		SoC: s.charged(s.fit.Daily.CellHighV) - fromFull, BankC: temp, AirC: temp, Hours: 6, Sun: true},
		stage{sun: s.sunlight(p, day, 9, 15, temp)})
}

// frozenDawn is the coldest morning of the route: the heater was off overnight
// and comes on with the sun.
func (s *scenery) frozenDawn() {
	p := s.coldest()
	if !s.has("solar") || !s.frost(p.coldest) {
		return
	}
	day := p.middle()
	rise := sunrise(p.latitude, day)
	s.add(Scene{Name: "frozen dawn", About: "A clear morning after a night in which the heater was off: the bank is as cold as it gets, and the sun comes up.", Where: p.name,
		SoC: halfFull, BankC: p.coldest, AirC: p.coldestAir, Hours: 6, Sun: true, Home: true},
		stage{sun: s.sunlight(p, day, rise, rise+6, p.coldestAir)})
}

// eveningPeak is everything at once on a bank that is low, and the night after.
func (s *scenery) eveningPeak() {
	if len(s.rig.Inverters)+len(s.rig.Converters)+len(s.rig.Loads) == 0 {
		return
	}
	p := s.coldest()
	air := (p.coldest + p.hottest) / 2
	s.add(Scene{Name: "evening peak", About: "Every appliance at once with the inverter at its rated load, on a bank that is low; then the night, with lights and what cools.", Where: p.name,
		SoC: s.charged(s.fit.Daily.CellLowV) + fromEmpty, BankC: s.settled(air), AirC: air, Hours: 12, Home: true},
		stage{beats: []beat{s.demand(0, every, 1), s.demand(1.5*3600, every, 0.1), s.demand(5*3600, usual, 0)}})
}

// driving is a cold day on the road to the coldest stay that is driven to.
func (s *scenery) driving() {
	if !s.has("alternator") {
		return
	}
	p := s.coldestDriven()
	c := Scene{Name: "driving", About: "A clear cold day on the road, the alternator charging, the heater as it is set.", Where: p.name,
		SoC: driveSoC, BankC: s.settled(p.coldest), AirC: p.coldest, Hours: 8, Drives: true, Home: true}
	st := stage{}
	if s.has("solar") {
		c.Sun, st.sun = true, s.sunlight(p, p.firstDay, 9, 17, p.coldestAir)
	}
	s.add(c, st)
}

// mainsOvernight is a night on a hook-up.
func (s *scenery) mainsOvernight() {
	p, ok := s.hookup()
	if !s.has("mains") || !ok {
		return
	}
	s.add(Scene{Name: "mains overnight", About: "A cold night on the hook-up, the mains charger left on.", Where: p.name,
		SoC: halfFull, BankC: s.settled(p.coldest), AirC: p.coldest, Hours: 12, Mains: true, Home: true},
		stage{mainsW: s.mainsWatts(p), beats: []beat{s.demand(0, every, 0.1), s.demand(3*3600, usual, 0)}})
}

// storage is a winter under cover with everything off.
func (s *scenery) storage() {
	p := s.coldest()
	air := (p.coldest + p.hottest) / 2
	s.add(Scene{Name: "three months' storage", About: "Under cover with everything switched off by hand, the disconnect open, and nobody there.", Where: p.name,
		SoC: s.fit.Kind.StorageSoC.Value, BankC: air, AirC: air, Hours: 90 * 24},
		stage{stored: true, longest: storageStep, beats: []beat{s.demand(0, nothing, 0)}})
}

// hotAfternoon is the hottest day of the route.
func (s *scenery) hotAfternoon() {
	p := s.hottest()
	c := Scene{Name: "hottest afternoon", About: "The hottest day of the route, from nine in the morning until nine at night.", Where: p.name,
		SoC: driveSoC, BankC: p.hottest, AirC: p.hottest, Hours: 12, Home: true}
	st := stage{}
	if s.has("solar") {
		c.Sun, st.sun = true, s.sunlight(p, p.middle(), 9, 21, p.hottest)
	}
	s.add(c, st)
}

func (s *scenery) assume(format string, args ...any) {
	s.assumed = append(s.assumed, fmt.Sprintf(format, args...))
}
