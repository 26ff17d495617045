package habit

import (
	"fmt"
	"math"

	"ampstead/rig"
)

// Appliance is one load by habit.
type Appliance struct {
	Name   string
	Feed   int     // what feeds it, an index of the caller's
	Watts  float64 // while it runs
	Start  float64 // W as it starts, 0 when no more than Watts
	Hours  float64 // a day of use, all people together
	Steady bool    // its hours are spread over the whole day, as of a thermostat
	Cools  bool    // hours hold at warmC around it
	Days   string  // as in the rig file
	When   string
	Season string
}

// sessionHours is about how long an appliance is used at a stretch; ours.
const sessionHours = 2.0

// defaultFridgeHours is a third of the day: the rule printed by the US
// Department of Energy for a refrigerator whose hours are not known.
const defaultFridgeHours = 8.0

// defaultHours is taken of any other appliance that states none.
const defaultHours = 1.0

// Of reads the appliances of a rig; feeds names what can feed them. assumed says
// what the file leaves open.
func Of(r *rig.Rig, feeds []string) (list []Appliance, assumed []string) {
	for i := range r.Loads {
		l := &r.Loads[i]
		a := Appliance{
			Name: l.Name, Feed: index(feeds, l), Watts: float64(*l.Power), Days: l.Days, When: l.When, Season: l.Season,
			Cools: l.Follows == "warmth", Steady: l.Duty != nil || l.Follows == "warmth",
		}
		if l.Start != nil {
			a.Start = float64(*l.Start)
		}
		switch {
		case l.Duty != nil:
			a.Hours = 24 * float64(*l.Duty)
		case l.Hours != nil:
			a.Hours = float64(*l.Hours) / 3600
		case a.Cools:
			a.Hours = defaultFridgeHours
			assumed = append(assumed, fmt.Sprintf("loads.%s.hours is not given: a third of the time", l.Name))
		default:
			a.Hours = defaultHours
			assumed = append(assumed, fmt.Sprintf("loads.%s.hours is not given: %g h", l.Name, defaultHours))
		}
		a.Hours = math.Min(24, a.Hours*float64(max(1, l.People)))
		list = append(list, a)
	}
	return list, assumed
}

// index finds what feeds a load: bank loads before the disconnect are a feed of
// their own.
func index(feeds []string, l *rig.Load) int {
	name := l.On
	if l.On == "bank" && l.BypassesRelay {
		name = BeforeDisconnect
	}
	for k, f := range feeds {
		if f == name {
			return k
		}
	}
	return -1
}

// The feeds of loads on the bank itself.
const (
	Bank             = "bank"
	BeforeDisconnect = "bank, before the disconnect"
)

// Warmth around a cooling appliance at which its hours hold, and inside it, °C.
const (
	warmC   = 25.0
	insideC = 5.0
)

// leastShare is what a cooling appliance runs however cold it is: doors are
// opened and food brought in.
const leastShare = 0.1

// Cooling returns by what factor an appliance that cools runs longer in a room of
// some temperature (°C) than at 25 °C: heat leaks in with the difference to the
// 5 °C inside.
func Cooling(roomC float64) float64 {
	return math.Max(leastShare, (roomC-insideC)/(warmC-insideC))
}
