package rig

import q "ampstead/quantity"

// The struct tags drive the reader, the schema, the form and the manual:
//
//	yaml     key in the file
//	doc      what it is, in plain words
//	one      what one of a list, or the block, is called
//	eg       an example value as a person writes it
//	need     "yes" when it must be given
//	oneof    allowed words, separated by |
//	names    what it may name, separated by |: words, and @lists of named things
//	only     the kind of device the key belongs to
//	min,max  inclusive bounds in base units

// Rig is a whole design.
type Rig struct {
	About      About       `yaml:"about" need:"yes" doc:"whose rig this is"`
	Route      []Stay      `yaml:"route" one:"stay" doc:"where the vehicle stands through the year"`
	Bank       Bank        `yaml:"bank" need:"yes" doc:"the house battery"`
	Charge     []Source    `yaml:"charge" one:"charger" doc:"everything that charges the bank"`
	Converters []Converter `yaml:"converters" one:"converter" doc:"dc converters fed by the bank"`
	Inverters  []Inverter  `yaml:"inverters" one:"inverter" doc:"mains inverters fed by the bank"`
	Loads      []Load      `yaml:"loads" one:"load" doc:"what uses energy, by habit"`
	Protection Protection  `yaml:"protection" doc:"devices that act when something is wrong"`
	Heater     *Heater     `yaml:"heater" one:"heater" doc:"the pad that warms the bank"`
	Cables     []Cable     `yaml:"cables" one:"cable" doc:"conductors, one way length each"`
	Prices     []Price     `yaml:"prices" one:"price" doc:"what things cost"`
	Candidates []Candidate `yaml:"candidates" one:"battery to compare" doc:"batteries that could be bought for it instead, for choose to compare"`
	Live       *Live       `yaml:"live" one:"source of live readings" doc:"where live readings come from, and who is told of an alarm"`
}

// About says whose rig it is and how to show it.
type About struct {
	Name  string `yaml:"name" need:"yes" doc:"name of the rig" eg:"Curlew"`
	Note  string `yaml:"note" doc:"anything worth remembering"`
	Units string `yaml:"units" oneof:"metric|us" doc:"units to show" eg:"metric"`
}

// Stay is one place and the dates there.
type Stay struct {
	Name        string         `yaml:"name" need:"yes" doc:"name of the place" eg:"Salt marsh"`
	From        *Date          `yaml:"from" need:"yes" doc:"first day" eg:"2026-11-01"`
	To          *Date          `yaml:"to" need:"yes" doc:"last day" eg:"2027-02-20"`
	Near        string         `yaml:"near" doc:"a weather station nearby, by name or code, instead of latitude and longitude" eg:"Tromso"`
	Latitude    *q.Latitude    `yaml:"latitude" min:"-90" max:"90" doc:"latitude" eg:"37.2 °N"`
	Longitude   *q.Longitude   `yaml:"longitude" min:"-180" max:"180" doc:"longitude" eg:"7.6 °W"`
	Elevation   *q.Length      `yaml:"elevation" min:"-430" max:"6000" doc:"height above the sea" eg:"12 m"`
	Coldest     *q.Temperature `yaml:"coldest" min:"-60" max:"50" doc:"coldest the bank can get there" eg:"1 °C"`
	ColdestAir  *q.Temperature `yaml:"coldest_air" min:"-70" max:"50" doc:"coldest the air outside gets there, for the panels on the roof; without it, coldest is taken" eg:"-6 °C"`
	Hottest     *q.Temperature `yaml:"hottest" min:"-60" max:"70" doc:"hottest the bank can get there" eg:"31 °C"`
	Hookup      bool           `yaml:"hookup" doc:"is there a mains supply" eg:"no"`
	HookupLimit *q.Current     `yaml:"hookup_limit" min:"0" max:"63" doc:"mains current allowed" eg:"6 A"`
	Shade       *q.Ratio       `yaml:"shade" min:"0" max:"1" doc:"share of sky or sun lost to trees and houses" eg:"10 %"`
	Tilt        *q.Angle       `yaml:"tilt" min:"0" max:"90" doc:"tilt of the panels there; 0 is flat" eg:"0 °"`
	Facing      *q.Angle       `yaml:"facing" min:"0" max:"360" doc:"compass direction the panels face; 180 is south" eg:"180 °"`
	Driving     *q.Duration    `yaml:"driving" min:"0" max:"360000" doc:"hours driven to get there" eg:"6 h"`
}

// Bank is the house battery.
type Bank struct {
	Cell          string        `yaml:"cell" need:"yes" doc:"cell by name from the library, or own" eg:"nmc532"`
	Own           *OwnCell      `yaml:"own" one:"cell of your own" doc:"your own cell, when cell is own"`
	Series        int           `yaml:"series" need:"yes" min:"1" max:"200" doc:"groups in series" eg:"12"`
	CellsPerGroup int           `yaml:"cells_per_group" min:"1" max:"1000" doc:"cells in parallel in one group of one module" eg:"1"`
	Strings       int           `yaml:"strings" min:"1" max:"20" doc:"equal series strings (modules) in parallel" eg:"2"`
	CellCapacity  *q.Charge     `yaml:"cell_capacity" need:"yes" min:"0.1" max:"2000" doc:"rated capacity of one cell when new" eg:"94 Ah"`
	Measured      *Measured     `yaml:"measured" one:"measured values" doc:"what a test of this bank found"`
	Limits        *Limits       `yaml:"limits" one:"cell limits" doc:"stricter limits from the cell's maker, if known"`
	Daily         *Daily        `yaml:"daily" one:"daily window" doc:"the window you want to use day by day; without it, the one recommended for a long life"`
	Links         *q.Resistance `yaml:"links" min:"0" max:"0.1" doc:"joints and links between the groups of one string, all together" eg:"0.4 mΩ"`
	ShortOhm      *q.Resistance `yaml:"short_resistance" min:"0.00001" max:"1" doc:"dc resistance of one string of modules when new, from its maker, for the short-circuit current" eg:"7 mΩ"`
	Mass          *q.Mass       `yaml:"mass" min:"0.1" max:"2000" doc:"mass of the whole bank" eg:"52 kg"`
	Box           *Box          `yaml:"box" one:"case" doc:"the case around the bank"`
	Cooling       string        `yaml:"cooling" oneof:"none|fan|liquid" doc:"how heat is taken away" eg:"none"`
	Balancer      *Balancer     `yaml:"balancer" one:"balancer" doc:"what the groups are levelled with, built in or clipped on by hand"`
}

// Balancer levels the groups.
type Balancer struct {
	Kind    string     `yaml:"kind" oneof:"bleed|transfer|charger" doc:"bleed burns off the full groups, transfer moves charge to the low ones, charger tops up the low ones from outside" eg:"bleed"`
	Current *q.Current `yaml:"current" need:"yes" min:"0.001" max:"200" doc:"out of or into one group" eg:"100 mA"`
	AtOnce  int        `yaml:"at_once" min:"1" max:"200" doc:"groups it works on at one time; without it, all of them" eg:"1"`
}

// OwnCell is a cell described in the file.
type OwnCell struct {
	Title      string       `yaml:"title" doc:"what it is" eg:"pouch cell, make unknown"`
	Like       string       `yaml:"like" need:"yes" doc:"library cell whose other figures are used" eg:"nmc532"`
	MaxVoltage *q.Voltage   `yaml:"max_voltage" min:"1" max:"5" doc:"charge limit of one cell" eg:"4.15 V"`
	MinVoltage *q.Voltage   `yaml:"min_voltage" min:"0.5" max:"4" doc:"discharge limit of one cell" eg:"3.0 V"`
	Curve      []CurvePoint `yaml:"curve" one:"point of the curve" doc:"rest voltage against charge, rising, from 0 % to 100 %"`
}

// CurvePoint is one rest voltage.
type CurvePoint struct {
	SoC     *q.Ratio   `yaml:"soc" need:"yes" min:"0" max:"1" doc:"state of charge" eg:"50 %"`
	Voltage *q.Voltage `yaml:"voltage" need:"yes" min:"0.5" max:"5" doc:"rest voltage" eg:"3.71 V"`
}

// Measured is what a test found. Capacity and resistance are of the whole bank.
type Measured struct {
	Date       *Date          `yaml:"date" doc:"day of the test" eg:"2026-09-12"`
	Estimated  bool           `yaml:"estimated" doc:"are these figures an estimate from the bank's past, not a test" eg:"no"`
	Capacity   *q.Charge      `yaml:"capacity" min:"0.1" max:"20000" doc:"capacity of the whole bank" eg:"171 Ah"`
	Resistance *q.Resistance  `yaml:"resistance" min:"0.00001" max:"10" doc:"10 s resistance of the whole bank at its terminals, about 25 °C" eg:"6.3 mΩ"`
	SpreadHigh *q.Voltage     `yaml:"spread_high" min:"0" max:"0.5" doc:"how far the highest group stands above the mean near full" eg:"8 mV"`
	SpreadLow  *q.Voltage     `yaml:"spread_low" min:"0" max:"1" doc:"how far the lowest group stands below the mean near empty" eg:"20 mV"`
	Groups     []GroupReading `yaml:"groups" one:"reading of a group" doc:"what was measured of each group, negative end first"`
}

// GroupReading is what was measured of one group, all strings together.
type GroupReading struct {
	Capacity   *q.Charge     `yaml:"capacity" min:"0.1" max:"20000" doc:"capacity of the group" eg:"172 Ah"`
	Resistance *q.Resistance `yaml:"resistance" min:"0.000001" max:"1" doc:"10 s resistance of the group" eg:"0.52 mΩ"`
	Behind     *q.Charge     `yaml:"behind" min:"0" max:"20000" doc:"charge it stands below the fullest group" eg:"2.1 Ah"`
	Leak       *q.Current    `yaml:"leak" min:"0" max:"1" doc:"what it loses at rest beyond the median group" eg:"0.7 mA"`
}

// Limits are stricter limits than the library's; looser ones are refused.
type Limits struct {
	MaxVoltage *q.Voltage     `yaml:"max_voltage" min:"1" max:"5" doc:"charge limit of one cell" eg:"4.15 V"`
	MinVoltage *q.Voltage     `yaml:"min_voltage" min:"0.5" max:"4" doc:"discharge limit of one cell" eg:"3.1 V"`
	ChargeMin  *q.Temperature `yaml:"charge_min" min:"-40" max:"40" doc:"no charge below" eg:"5 °C"`
	ChargeMax  *q.Temperature `yaml:"charge_max" min:"0" max:"80" doc:"no charge above" eg:"45 °C"`
}

// Daily is a wish for the window of daily use. It is met as far as the layers
// around it allow.
type Daily struct {
	High *q.Voltage `yaml:"high" min:"1" max:"5" doc:"charge to this voltage of one cell" eg:"4.00 V"`
	Low  *q.Voltage `yaml:"low" min:"0.5" max:"4.5" doc:"discharge to this voltage of one cell" eg:"3.50 V"`
}

// Box is the case around the bank.
type Box struct {
	Length       *q.Length       `yaml:"length" need:"yes" min:"0.01" max:"5" doc:"inner length" eg:"0.9 m"`
	Width        *q.Length       `yaml:"width" need:"yes" min:"0.01" max:"5" doc:"inner width" eg:"0.4 m"`
	Height       *q.Length       `yaml:"height" need:"yes" min:"0.01" max:"5" doc:"inner height" eg:"0.3 m"`
	Insulation   *q.Length       `yaml:"insulation" min:"0" max:"0.5" doc:"thickness of insulation" eg:"25 mm"`
	Conductivity *q.Conductivity `yaml:"conductivity" min:"0.01" max:"1" doc:"of the insulation" eg:"0.029 W/m/K"`
}

// Setting is a value that can also be switched off. The zero Setting was not given.
type Setting[Q q.Quantity] struct {
	Given bool
	Off   bool // written off or none
	Value Q
}

// On reports whether a value is set.
func (s Setting[Q]) On() bool { return s.Given && !s.Off }

// Dimension is that of the value.
func (s Setting[Q]) Dimension() *q.Dimension { return s.Value.Dimension() }

func (s *Setting[Q]) set(value float64) { *s = Setting[Q]{Given: true, Value: Q(value)} }

func (s *Setting[Q]) switchOff() { *s = Setting[Q]{Given: true, Off: true} }

// Source is one charge source.
type Source struct {
	Name           string         `yaml:"name" need:"yes" doc:"what you call it" eg:"roof solar"`
	Kind           string         `yaml:"kind" need:"yes" oneof:"solar|mains|alternator" doc:"where its energy comes from" eg:"solar"`
	Limit          *q.Current     `yaml:"limit" need:"yes" min:"0.1" max:"2000" doc:"the most current it can give" eg:"60 A"`
	Panels         []PanelString  `yaml:"panels" one:"string of panels" only:"solar" doc:"strings of solar panels on it"`
	Input          *SolarInput    `yaml:"input" one:"solar input" only:"solar" doc:"what its solar input takes"`
	Tolerance      *q.Ratio       `yaml:"tolerance" min:"0" max:"0.1" doc:"accuracy of its voltage, of the setting" eg:"0.3 %"`
	Step           *q.Voltage     `yaml:"step" min:"0.0001" max:"2" doc:"finest step its voltages can be set in" eg:"0.1 V"`
	Lowest         *q.Voltage     `yaml:"lowest" min:"0" max:"1000" doc:"lowest charge voltage it can be set to" eg:"36 V"`
	Highest        *q.Voltage     `yaml:"highest" min:"0" max:"1000" doc:"highest charge voltage it can be set to" eg:"64 V"`
	Senses         string         `yaml:"senses" oneof:"bank|own" doc:"where it measures voltage: own terminals or by wires at the bank" eg:"own"`
	Thermometer    string         `yaml:"thermometer" oneof:"none|bank|own" doc:"where it measures temperature" eg:"bank"`
	StopInput      bool           `yaml:"stop_input" doc:"can another device tell it to stop" eg:"yes"`
	StarterBattery string         `yaml:"starter_battery" oneof:"stays|none" only:"alternator" doc:"alternator only: does a starter battery stay on the alternator when the bank disconnects" eg:"stays"`
	Settings       ChargeSettings `yaml:"settings" doc:"how it is set today"`
}

// ChargeSettings is how a charge source is set today.
type ChargeSettings struct {
	Profile        string                  `yaml:"profile" oneof:"lithium|flooded|agm|gel|own" doc:"the named profile chosen on the device" eg:"own"`
	Absorption     Setting[q.Voltage]      `yaml:"absorption" min:"1" max:"1000" doc:"charge voltage" eg:"49.2 V"`
	AbsorptionTime Setting[q.Duration]     `yaml:"absorption_time" min:"0" max:"86400" doc:"longest time at the charge voltage" eg:"60 min"`
	Tail           Setting[q.Current]      `yaml:"tail" min:"0" max:"1000" doc:"charging ends below this current" eg:"8 A"`
	Float          Setting[q.Voltage]      `yaml:"float" min:"1" max:"1000" doc:"voltage held afterwards, or none" eg:"none"`
	Equalise       Setting[q.Voltage]      `yaml:"equalise" min:"1" max:"1000" doc:"equalise voltage, or off" eg:"off"`
	Compensation   Setting[q.VoltageSlope] `yaml:"compensation" min:"-2" max:"2" doc:"change of the charge voltage per kelvin away from 25 °C, whole bank, or off" eg:"off"`
	Restart        Setting[q.Voltage]      `yaml:"restart" min:"1" max:"1000" doc:"charging starts again below this voltage" eg:"47.6 V"`
	Current        Setting[q.Current]      `yaml:"current" min:"0.1" max:"2000" doc:"current limit as set" eg:"40 A"`
	FrostLock      Setting[q.Temperature]  `yaml:"frost_lock" min:"-20" max:"25" doc:"no charging below this temperature" eg:"5 °C"`
}

// SolarInput is what a solar charger's panel side takes.
type SolarInput struct {
	MaxVoltage *q.Voltage `yaml:"max_voltage" need:"yes" min:"5" max:"1500" doc:"never more than this" eg:"150 V"`
	MaxCurrent *q.Current `yaml:"max_current" min:"0.5" max:"1000" doc:"short-circuit current it takes" eg:"70 A"`
}

// PanelString is one string of panels.
type PanelString struct {
	Name               string        `yaml:"name" doc:"which string" eg:"left side"`
	Series             int           `yaml:"series" need:"yes" min:"1" max:"50" doc:"panels in series" eg:"2"`
	Parallel           int           `yaml:"parallel" min:"1" max:"50" doc:"such strings in parallel" eg:"1"`
	Power              *q.Power      `yaml:"power" need:"yes" min:"1" max:"2000" doc:"rated power of one panel" eg:"330 W"`
	OpenVoltage        *q.Voltage    `yaml:"open_voltage" need:"yes" min:"1" max:"200" doc:"open-circuit voltage of one panel" eg:"40.5 V"`
	PeakVoltage        *q.Voltage    `yaml:"peak_voltage" min:"1" max:"200" doc:"voltage at peak power" eg:"33.4 V"`
	ShortCurrent       *q.Current    `yaml:"short_current" min:"0.1" max:"50" doc:"short-circuit current" eg:"10.2 A"`
	SeriesFuse         *q.Current    `yaml:"series_fuse" min:"1" max:"100" doc:"largest series fuse, on the panel's label" eg:"20 A"`
	VoltageCoefficient *q.RatioSlope `yaml:"voltage_coefficient" min:"-0.02" max:"0" doc:"of the open-circuit voltage" eg:"-0.29 %/K"`
	PowerCoefficient   *q.RatioSlope `yaml:"power_coefficient" min:"-0.02" max:"0" doc:"of the power" eg:"-0.37 %/K"`
}

// Converter is a dc converter fed by the bank.
type Converter struct {
	Name       string             `yaml:"name" need:"yes" doc:"what you call it" eg:"12 V converter"`
	Power      *q.Power           `yaml:"power" need:"yes" min:"1" max:"20000" doc:"the most it can give" eg:"360 W"`
	Output     *q.Voltage         `yaml:"output" min:"1" max:"1000" doc:"output voltage" eg:"13.2 V"`
	InputLow   *q.Voltage         `yaml:"input_low" need:"yes" min:"1" max:"1000" doc:"lowest input it works from" eg:"34 V"`
	InputHigh  *q.Voltage         `yaml:"input_high" need:"yes" min:"1" max:"1000" doc:"highest input it bears" eg:"72 V"`
	Tolerance  *q.Ratio           `yaml:"tolerance" min:"0" max:"0.1" doc:"accuracy of its cut-off" eg:"1 %"`
	Step       *q.Voltage         `yaml:"step" min:"0.0001" max:"2" doc:"finest step of its cut-off" eg:"0.1 V"`
	Efficiency *q.Ratio           `yaml:"efficiency" min:"0.3" max:"1" doc:"output over input" eg:"90 %"`
	Idle       *q.Power           `yaml:"idle" min:"0" max:"500" doc:"draw with nothing on it" eg:"1.5 W"`
	LowCut     Setting[q.Voltage] `yaml:"low_cut" min:"1" max:"1000" doc:"it stops below, as set today" eg:"40.5 V"`
	Restart    Setting[q.Voltage] `yaml:"restart" min:"1" max:"1000" doc:"it starts again above" eg:"43 V"`
}

// Inverter makes mains from the bank.
type Inverter struct {
	Name             string             `yaml:"name" need:"yes" doc:"what you call it" eg:"mains inverter"`
	Power            *q.Power           `yaml:"power" need:"yes" min:"1" max:"50000" doc:"the most it can give for long" eg:"3000 W"`
	Surge            *q.Power           `yaml:"surge" min:"1" max:"100000" doc:"the most for a few seconds" eg:"6000 W"`
	InputLow         *q.Voltage         `yaml:"input_low" need:"yes" min:"1" max:"1000" doc:"lowest input it works from" eg:"38 V"`
	InputHigh        *q.Voltage         `yaml:"input_high" need:"yes" min:"1" max:"1000" doc:"highest input it bears" eg:"66 V"`
	Tolerance        *q.Ratio           `yaml:"tolerance" min:"0" max:"0.1" doc:"accuracy of its cut-off" eg:"1 %"`
	Step             *q.Voltage         `yaml:"step" min:"0.0001" max:"2" doc:"finest step of its cut-off" eg:"0.1 V"`
	Efficiency       *q.Ratio           `yaml:"efficiency" min:"0.3" max:"1" doc:"output over input at half load" eg:"93 %"`
	Idle             *q.Power           `yaml:"idle" min:"0" max:"500" doc:"draw with nothing on it" eg:"18 W"`
	InputCapacitance *q.Capacitance     `yaml:"input_capacitance" min:"0" max:"2" doc:"capacitors on its dc side, for the pre-charge" eg:"18 mF"`
	LowCut           Setting[q.Voltage] `yaml:"low_cut" min:"1" max:"1000" doc:"it stops below, as set today" eg:"40 V"`
	Restart          Setting[q.Voltage] `yaml:"restart" min:"1" max:"1000" doc:"it starts again above" eg:"44 V"`
}

// Load is an appliance by habit.
type Load struct {
	Name          string      `yaml:"name" need:"yes" doc:"what it is" eg:"nipping press"`
	On            string      `yaml:"on" need:"yes" names:"bank|@converters|@inverters" doc:"what feeds it: bank, or the name of a converter or inverter" eg:"mains inverter"`
	Power         *q.Power    `yaml:"power" need:"yes" min:"0.01" max:"20000" doc:"power while it runs" eg:"800 W"`
	Hours         *q.Duration `yaml:"hours" min:"0" max:"86400" doc:"time it runs on a day of use" eg:"0.5 h"`
	Duty          *q.Ratio    `yaml:"duty" min:"0" max:"1" doc:"share of the time it runs, day and night, instead of hours" eg:"35 %"`
	Follows       string      `yaml:"follows" oneof:"nothing|warmth" doc:"warmth for what cools, such as a compressor fridge: hours or duty hold at 25 °C around it, and change with that" eg:"warmth"`
	Days          string      `yaml:"days" oneof:"every day|weekdays|weekends|one in two|one in three|one in seven" doc:"which days" eg:"weekdays"`
	When          string      `yaml:"when" oneof:"any time|morning|midday|evening|night|daylight" doc:"the part of the day in which it is used" eg:"evening"`
	Season        string      `yaml:"season" oneof:"all year|spring|summer|autumn|winter|cold half|warm half" doc:"the part of the year, by the half of the globe the place lies on" eg:"cold half"`
	People        int         `yaml:"people" min:"1" max:"50" doc:"how many people each use it for these hours" eg:"2"`
	Start         *q.Power    `yaml:"start" min:"0" max:"50000" doc:"power as it starts" eg:"2400 W"`
	BypassesRelay bool        `yaml:"bypasses_relay" doc:"is it fed from before the disconnect" eg:"no"`
}

// Protection is everything that acts when something is wrong.
type Protection struct {
	Relays     []Relay     `yaml:"relays" one:"voltage relay" doc:"voltage relays"`
	Contactors []Contactor `yaml:"contactors" one:"contactor" doc:"switches a relay opens"`
	Meters     []Meter     `yaml:"meters" one:"cell meter" doc:"cell meters with alarms"`
	Cutouts    []Cutout    `yaml:"cutouts" one:"temperature cut-out" doc:"temperature cut-outs"`
	Fuses      []Fuse      `yaml:"fuses" one:"fuse" doc:"fuses and breakers"`
}

// Relay is a voltage relay on the whole bank.
type Relay struct {
	Name      string              `yaml:"name" need:"yes" doc:"what you call it" eg:"guard relay"`
	Drives    string              `yaml:"drives" need:"yes" names:"@contactors|@charge" doc:"name of the contactor or charge source it switches" eg:"main contactor"`
	Tolerance *q.Ratio            `yaml:"tolerance" min:"0" max:"0.1" doc:"accuracy of its thresholds" eg:"0.5 %"`
	Step      *q.Voltage          `yaml:"step" min:"0.0001" max:"2" doc:"finest step of its thresholds" eg:"0.1 V"`
	Senses    string              `yaml:"senses" oneof:"bank|bus" doc:"where it measures: at the bank, or at the bus bars behind the main cable" eg:"bank"`
	High      Setting[q.Voltage]  `yaml:"high" min:"1" max:"1000" doc:"opens above" eg:"49.8 V"`
	HighReset Setting[q.Voltage]  `yaml:"high_reset" min:"1" max:"1000" doc:"closes again below" eg:"48.6 V"`
	Low       Setting[q.Voltage]  `yaml:"low" min:"1" max:"1000" doc:"opens below" eg:"37.2 V"`
	LowReset  Setting[q.Voltage]  `yaml:"low_reset" min:"1" max:"1000" doc:"closes again above" eg:"42 V"`
	HighDelay Setting[q.Duration] `yaml:"high_delay" min:"0" max:"3600" doc:"waits before it opens on high voltage" eg:"2 s"`
	LowDelay  Setting[q.Duration] `yaml:"low_delay" min:"0" max:"3600" doc:"waits before it opens on low voltage" eg:"20 s"`
}

// Contactor is a switch that a relay or meter opens.
type Contactor struct {
	Name          string        `yaml:"name" need:"yes" doc:"what you call it" eg:"main contactor"`
	Opens         string        `yaml:"opens" need:"yes" oneof:"bank|charge|loads" doc:"what is cut off when it opens" eg:"bank"`
	Continuous    *q.Current    `yaml:"continuous" min:"1" max:"5000" doc:"current it carries for long" eg:"250 A"`
	Break         *q.Current    `yaml:"break" min:"1" max:"50000" doc:"most current it can interrupt" eg:"600 A"`
	Polarised     bool          `yaml:"polarised" doc:"does it break current better in one direction" eg:"no"`
	Coil          *q.Power      `yaml:"coil" min:"0" max:"200" doc:"power to hold it" eg:"1.7 W"`
	PreCharge     *q.Resistance `yaml:"pre_charge" min:"0.1" max:"10000" doc:"resistor that fills the capacitors behind it before it closes" eg:"22 Ω"`
	PreChargeTime *q.Duration   `yaml:"pre_charge_time" min:"0.01" max:"60" doc:"how long the resistor is on before it closes" eg:"2 s"`
}

// Meter is a cell meter: it watches groups and warns.
type Meter struct {
	Name      string                 `yaml:"name" need:"yes" doc:"what you call it" eg:"cell meter"`
	Watches   int                    `yaml:"watches" need:"yes" min:"1" max:"500" doc:"number of groups it is wired to, all strings together" eg:"24"`
	Tolerance *q.Voltage             `yaml:"tolerance" min:"0" max:"0.2" doc:"error of one reading" eg:"5 mV"`
	Step      *q.Voltage             `yaml:"step" min:"0.0001" max:"0.5" doc:"finest step of its alarms" eg:"10 mV"`
	Drives    string                 `yaml:"drives" names:"@contactors|@charge" doc:"name of a contactor or charge source its output switches, if any" eg:"main contactor"`
	AlarmHigh Setting[q.Voltage]     `yaml:"alarm_high" min:"0.5" max:"5" doc:"warns when a group is above" eg:"4.13 V"`
	AlarmLow  Setting[q.Voltage]     `yaml:"alarm_low" min:"0.5" max:"5" doc:"warns when a group is below" eg:"3.2 V"`
	Spread    Setting[q.Voltage]     `yaml:"spread" min:"0.001" max:"1" doc:"warns when groups differ by more" eg:"50 mV"`
	Hot       Setting[q.Temperature] `yaml:"hot" min:"0" max:"100" doc:"warns above" eg:"50 °C"`
}

// Cutout is a switch worked by temperature alone.
type Cutout struct {
	Name      string                 `yaml:"name" need:"yes" doc:"what you call it" eg:"frost switch"`
	Stops     string                 `yaml:"stops" need:"yes" names:"charge|heater|@charge|@converters|@inverters|@contactors|@heater" doc:"name of what it stops, or charge for every source, or heater" eg:"charge"`
	Tolerance *q.TemperatureStep     `yaml:"tolerance" min:"0" max:"20" doc:"accuracy" eg:"2 K"`
	Below     Setting[q.Temperature] `yaml:"below" min:"-40" max:"60" doc:"stops it below" eg:"4 °C"`
	Above     Setting[q.Temperature] `yaml:"above" min:"0" max:"120" doc:"stops it above" eg:"50 °C"`
}

// Fuse is a fuse or breaker.
type Fuse struct {
	Name         string     `yaml:"name" need:"yes" doc:"which fuse" eg:"main fuse"`
	Guards       string     `yaml:"guards" need:"yes" names:"bank|string|@cables|@devices" doc:"bank for the main fuse, string for one in each string, or the name of a cable or device" eg:"bank"`
	Class        string     `yaml:"class" doc:"class as printed on it" eg:"class T"`
	Rating       *q.Current `yaml:"rating" need:"yes" min:"0.1" max:"2000" doc:"rated current" eg:"200 A"`
	RatedVoltage *q.Voltage `yaml:"rated_voltage" min:"1" max:"1500" doc:"highest dc voltage" eg:"125 V"`
	Interrupt    *q.Current `yaml:"interrupt" min:"1" max:"500000" doc:"highest dc current it can interrupt" eg:"20 kA"`
	Distance     *q.Length  `yaml:"distance" min:"0" max:"50" doc:"cable between source and fuse" eg:"0.15 m"`
}

// Heater warms the bank.
type Heater struct {
	Name      string                 `yaml:"name" need:"yes" doc:"what you call it" eg:"heater pad"`
	Power     *q.Power               `yaml:"power" need:"yes" min:"1" max:"3000" doc:"power of the pad" eg:"90 W"`
	Area      *q.Area                `yaml:"area" min:"0.0001" max:"10" doc:"heated area of the pad" eg:"1500 cm2"`
	Supply    string                 `yaml:"supply" names:"bank|@converters" doc:"what feeds it: bank, or a converter's name" eg:"bank"`
	Tolerance *q.TemperatureStep     `yaml:"tolerance" min:"0" max:"20" doc:"accuracy of its thermostat" eg:"1 K"`
	On        Setting[q.Temperature] `yaml:"on" min:"-20" max:"40" doc:"starts below" eg:"7 °C"`
	Off       Setting[q.Temperature] `yaml:"off" min:"-20" max:"60" doc:"stops above" eg:"11 °C"`
}

// Cable is one run: positive and negative conductor of equal length and size.
type Cable struct {
	Name       string         `yaml:"name" need:"yes" doc:"which run" eg:"bank to bus"`
	From       string         `yaml:"from" need:"yes" names:"bank|bus|@devices" doc:"bank, bus, or a device's name" eg:"bank"`
	To         string         `yaml:"to" need:"yes" names:"bus|@devices" doc:"bus, or a device's name" eg:"bus"`
	Length     *q.Length      `yaml:"length" need:"yes" min:"0.01" max:"100" doc:"one way" eg:"1.2 m"`
	Size       *q.Size        `yaml:"size" need:"yes" doc:"conductor size" eg:"50 mm2"`
	Insulation *q.Temperature `yaml:"insulation" min:"60" max:"200" doc:"temperature rating of its insulation" eg:"105 °C"`
	Place      string         `yaml:"place" oneof:"open|enclosed|engine" doc:"where it runs: in open air, in a conduit, loom or wall, or in an engine space" eg:"open"`
	Bundle     int            `yaml:"bundle" min:"1" max:"100" doc:"current-carrying conductors lying together" eg:"2"`
	Ambient    *q.Temperature `yaml:"ambient" min:"-40" max:"90" doc:"hottest the air around it gets; without it, the hottest of the route or 30 °C" eg:"40 °C"`
	Lugs       *q.Temperature `yaml:"lugs" min:"60" max:"200" doc:"temperature rating of the lugs and terminals it is bolted to; 75 °C without it" eg:"90 °C"`
	DropLimit  *q.Ratio       `yaml:"drop_limit" min:"0.001" max:"0.2" doc:"voltage drop allowed from the bank to its end; 3 %, or 10 % for what is not critical" eg:"3 %"`
}

// Price is what something costs.
type Price struct {
	Item     string   `yaml:"item" need:"yes" doc:"what" eg:"module"`
	Price    *q.Money `yaml:"price" need:"yes" doc:"each" eg:"480 EUR"`
	Quantity int      `yaml:"quantity" min:"1" max:"10000" doc:"how many" eg:"2"`
}
