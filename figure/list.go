package figure

import (
	"fmt"
	"reflect"
	"strings"

	"ampstead/quantity"
)

// ReadList reads comma-separated numbers in a dimension's base unit; name says in
// an error whose they are.
func ReadList(name string, d *quantity.Dimension, text string) ([]float64, error) {
	var list []float64
	for _, part := range strings.Split(text, ",") {
		v, err := parseInput(d, strings.TrimSpace(part))
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		list = append(list, v)
	}
	return list, nil
}

// Show writes a result for people: a number in its dimension (as it is when d is
// nil), a list with commas, a list of records as "range 3, count 0.5; …".
func Show(d *quantity.Dimension, v any, s quantity.System) string {
	if number, ok := v.(float64); ok {
		if d == nil {
			return fmt.Sprint(number)
		}
		return d.Text(number, s)
	}
	list := reflect.ValueOf(v)
	if list.Kind() != reflect.Slice {
		return fmt.Sprint(v)
	}
	between := ", "
	parts := make([]string, list.Len())
	for k := range parts {
		item := list.Index(k)
		if item.Kind() == reflect.Struct {
			between = "; "
			parts[k] = record(item)
			continue
		}
		parts[k] = Show(d, item.Interface(), s)
	}
	return strings.Join(parts, between)
}

// record names the fields of a struct as its JSON does.
func record(v reflect.Value) string {
	parts := make([]string, v.NumField())
	for k := range parts {
		f := v.Type().Field(k)
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		if name == "" {
			name = strings.ToLower(f.Name)
		}
		parts[k] = fmt.Sprint(strings.ReplaceAll(name, "_", " "), " ", v.Field(k).Interface())
	}
	return strings.Join(parts, ", ")
}
