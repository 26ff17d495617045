package benchlog

import "strings"

// dimension is what a unit measures.
type dimension uint8

const (
	noDimension dimension = iota
	volts
	amperes
	ampereHours
	wattHours
	watts
	celsius
	seconds
	percent
	ohms
)

// unit is a unit of a column: value in SI = value*scale + offset.
type unit struct {
	symbol    string
	dimension dimension
	scale     float64
	offset    float64
}

// units by the way they are written, small letters, after fold.
var units = map[string]unit{
	"v": {"V", volts, 1, 0}, "volt": {"V", volts, 1, 0}, "volts": {"V", volts, 1, 0}, "vdc": {"V", volts, 1, 0},
	"mv": {"mV", volts, 1e-3, 0}, "millivolt": {"mV", volts, 1e-3, 0}, "millivolts": {"mV", volts, 1e-3, 0}, "uv": {"µV", volts, 1e-6, 0}, "kv": {"kV", volts, 1e3, 0},
	"a": {"A", amperes, 1, 0}, "amp": {"A", amperes, 1, 0}, "amps": {"A", amperes, 1, 0}, "ampere": {"A", amperes, 1, 0}, "amperes": {"A", amperes, 1, 0}, "adc": {"A", amperes, 1, 0},
	"ma": {"mA", amperes, 1e-3, 0}, "milliamp": {"mA", amperes, 1e-3, 0}, "milliamps": {"mA", amperes, 1e-3, 0}, "milliampere": {"mA", amperes, 1e-3, 0}, "ua": {"µA", amperes, 1e-6, 0}, "ka": {"kA", amperes, 1e3, 0},
	"ah": {"Ah", ampereHours, 1, 0}, "amphours": {"Ah", ampereHours, 1, 0}, "amphrs": {"Ah", ampereHours, 1, 0}, "amperestunden": {"Ah", ampereHours, 1, 0}, "mah": {"mAh", ampereHours, 1e-3, 0}, "uah": {"µAh", ampereHours, 1e-6, 0}, "as": {"As", ampereHours, 1.0 / 3600, 0}, "coulomb": {"As", ampereHours, 1.0 / 3600, 0},
	"wh": {"Wh", wattHours, 1, 0}, "watthours": {"Wh", wattHours, 1, 0}, "watthrs": {"Wh", wattHours, 1, 0}, "wattstunden": {"Wh", wattHours, 1, 0}, "mwh": {"mWh", wattHours, 1e-3, 0}, "kwh": {"kWh", wattHours, 1e3, 0}, "j": {"J", wattHours, 1.0 / 3600, 0}, "ws": {"J", wattHours, 1.0 / 3600, 0}, "kj": {"kJ", wattHours, 1 / 3.6, 0},
	"w": {"W", watts, 1, 0}, "watt": {"W", watts, 1, 0}, "watts": {"W", watts, 1, 0}, "mw": {"mW", watts, 1e-3, 0}, "kw": {"kW", watts, 1e3, 0},
	"c": {"°C", celsius, 1, 0}, "degc": {"°C", celsius, 1, 0}, "°c": {"°C", celsius, 1, 0}, "celsius": {"°C", celsius, 1, 0}, "ºc": {"°C", celsius, 1, 0}, "deg": {"°C", celsius, 1, 0}, "°": {"°C", celsius, 1, 0},
	"f": {"°F", celsius, 5.0 / 9, -160.0 / 9}, "degf": {"°F", celsius, 5.0 / 9, -160.0 / 9}, "°f": {"°F", celsius, 5.0 / 9, -160.0 / 9}, "ºf": {"°F", celsius, 5.0 / 9, -160.0 / 9}, "fahrenheit": {"°F", celsius, 5.0 / 9, -160.0 / 9},
	"k": {"K", celsius, 1, -273.15}, "kelvin": {"K", celsius, 1, -273.15}, "degk": {"K", celsius, 1, -273.15}, "mc": {"m°C", celsius, 1e-3, 0},
	"s": {"s", seconds, 1, 0}, "sec": {"s", seconds, 1, 0}, "secs": {"s", seconds, 1, 0}, "second": {"s", seconds, 1, 0}, "seconds": {"s", seconds, 1, 0},
	"sekunde": {"s", seconds, 1, 0}, "sekunden": {"s", seconds, 1, 0}, "sek": {"s", seconds, 1, 0}, "segundo": {"s", seconds, 1, 0}, "segundos": {"s", seconds, 1, 0}, "seg": {"s", seconds, 1, 0}, "seconde": {"s", seconds, 1, 0}, "secondes": {"s", seconds, 1, 0},
	"ms": {"ms", seconds, 1e-3, 0}, "msec": {"ms", seconds, 1e-3, 0}, "millis": {"ms", seconds, 1e-3, 0}, "millisecond": {"ms", seconds, 1e-3, 0}, "milliseconds": {"ms", seconds, 1e-3, 0}, "us": {"µs", seconds, 1e-6, 0}, "usec": {"µs", seconds, 1e-6, 0}, "micros": {"µs", seconds, 1e-6, 0}, "ns": {"ns", seconds, 1e-9, 0},
	"min": {"min", seconds, 60, 0}, "mins": {"min", seconds, 60, 0}, "minute": {"min", seconds, 60, 0}, "minutes": {"min", seconds, 60, 0}, "minuten": {"min", seconds, 60, 0}, "minuto": {"min", seconds, 60, 0}, "minutos": {"min", seconds, 60, 0}, "m": {"min", seconds, 60, 0},
	"h": {"h", seconds, 3600, 0}, "hr": {"h", seconds, 3600, 0}, "hrs": {"h", seconds, 3600, 0}, "hour": {"h", seconds, 3600, 0}, "hours": {"h", seconds, 3600, 0}, "std": {"h", seconds, 3600, 0}, "stunde": {"h", seconds, 3600, 0}, "stunden": {"h", seconds, 3600, 0}, "hora": {"h", seconds, 3600, 0}, "horas": {"h", seconds, 3600, 0}, "heure": {"h", seconds, 3600, 0}, "heures": {"h", seconds, 3600, 0},
	"day": {"d", seconds, 86400, 0}, "days": {"d", seconds, 86400, 0}, "d": {"d", seconds, 86400, 0}, "tage": {"d", seconds, 86400, 0}, "dias": {"d", seconds, 86400, 0}, "jours": {"d", seconds, 86400, 0},
	"%": {"%", percent, 1, 0}, "pct": {"%", percent, 1, 0}, "percent": {"%", percent, 1, 0},
	"ohm": {"Ω", ohms, 1, 0}, "ohms": {"Ω", ohms, 1, 0}, "mohm": {"mΩ", ohms, 1e-3, 0}, "ω": {"Ω", ohms, 1, 0}, "mω": {"mΩ", ohms, 1e-3, 0},
}

// joined takes out what some write between the parts of a unit: A.h, mA·h.
var joined = strings.NewReplacer(".", "", "·", "", "*", "", " ", "", "-", "", "_", "")

// longestUnit bounds in bytes what is looked up as a unit.
const longestUnit = 16

// unitOf reads a unit in any common spelling: "mV", "A.h", "mA·h", "deg C".
func unitOf(text string) (unit, bool) {
	if len(text) > longestUnit {
		return unit{}, false
	}
	text = fold(strings.TrimSpace(text))
	if u, ok := units[text]; ok {
		return u, ok
	}
	u, ok := units[joined.Replace(text)]
	return u, ok
}
