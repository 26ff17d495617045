package device

import "strings"

// State is what a device is doing, for the log.
type State uint8

// The states of all devices.
const (
	Idle State = iota
	Bulk
	Absorption
	Float
	Equalise
	Charged
	Stopped
	Unsupplied
	FrostLocked
	Closed
	Open
	Quiet
	TrippedHigh
	TrippedLow
	Alarming
	On
	Off
	CutLow
	CutHigh
	Overloaded
	TooCold
	TooHot
)

var stateNames = [...]string{
	Idle: "idle", Bulk: "bulk", Absorption: "absorption", Float: "float", Equalise: "equalise",
	Charged: "charged", Stopped: "stopped by another device", Unsupplied: "no supply", FrostLocked: "locked by frost",
	Closed: "closed", Open: "open", Quiet: "quiet", TrippedHigh: "tripped on high voltage", TrippedLow: "tripped on low voltage",
	Alarming: "alarm", On: "on", Off: "off", CutLow: "cut on low voltage", CutHigh: "cut on high voltage",
	Overloaded: "overloaded", TooCold: "too cold", TooHot: "too hot",
}

// String returns the state in plain words.
func (s State) String() string {
	if int(s) < len(stateNames) {
		return stateNames[s]
	}
	return "unknown"
}

// Alarm is the set of alarms a meter sounds.
type Alarm uint8

// The alarms.
const (
	AlarmHigh Alarm = 1 << iota
	AlarmLow
	AlarmSpread
	AlarmHot
)

// String lists the alarms in plain words.
func (a Alarm) String() string {
	var names []string
	for k, name := range [...]string{"group high", "group low", "spread", "hot"} {
		if a&(1<<k) != 0 {
			names = append(names, name)
		}
	}
	if names == nil {
		return "none"
	}
	return strings.Join(names, ", ")
}
