package working

import (
	"reflect"
	"slices"
	"strings"

	"ampstead/finding"
)

// Row takes numbers out of a row of a result by their JSON keys; the unit is the
// end of the key, as everywhere in the results. What says what the row is.
func Row(what string, row any, keys ...string) finding.Working {
	w := finding.Working{What: what}
	v := reflect.Indirect(reflect.ValueOf(row))
	for _, key := range keys {
		if f, ok := field(v, key); ok {
			name, unit := Key(key)
			w.Outputs = append(w.Outputs, finding.Value{Name: name, Value: sound(plain(f)), Unit: unit})
		}
	}
	return w
}

// field finds a field by its JSON key, in embedded structs too.
func field(v reflect.Value, key string) (reflect.Value, bool) {
	for k := range v.NumField() {
		f := v.Type().Field(k)
		if tag, _, _ := strings.Cut(f.Tag.Get("json"), ","); tag == key {
			return v.Field(k), true
		}
		if f.Anonymous && f.Type.Kind() == reflect.Struct {
			if in, ok := field(v.Field(k), key); ok {
				return in, true
			}
		}
	}
	return reflect.Value{}, false
}

func plain(v reflect.Value) any {
	switch v = reflect.Indirect(v); v.Kind() {
	case reflect.Int:
		return float64(v.Int())
	case reflect.Float64:
		return v.Float()
	case reflect.Invalid:
		return "none"
	}
	return v.Interface()
}

// ends are the units at the end of a key, the longest first.
var ends = [][2]string{{"_w_cm2", "W/cm²"}, {"_v_per_k", "V/K"}, {"_fraction", Share}, {"_percent", "%"}, {"_hours", "h"}, {"_cm2", "cm²"}, {"_ohm", "Ω"},
	{"_mah", "mAh"}, {"_mv", "mV"}, {"_ma", "mA"}, {"_ah", "Ah"}, {"_wh", "Wh"}, {"_kg", "kg"}, {"_v", "V"}, {"_a", "A"}, {"_w", "W"},
	{"_c", "°C"}, {"_k", "K"}, {"_h", "h"}, {"_s", "s"}, {"_m", "m"}, {"_f", "F"}, {"_j", "J"}}

// Key splits a key of a result into words and the unit at its end.
func Key(key string) (name, unit string) {
	k := slices.IndexFunc(ends, func(e [2]string) bool { return strings.HasSuffix(key, e[0]) })
	if k >= 0 {
		key, unit = strings.TrimSuffix(key, ends[k][0]), ends[k][1]
	}
	if unit == "" && strings.HasPrefix(key, "soc") {
		unit = Share
	}
	return strings.ReplaceAll(key, "_", " "), unit
}
