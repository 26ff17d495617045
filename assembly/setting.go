package assembly

import (
	"fmt"

	q "ampstead/quantity"
	"ampstead/rig"
)

// or returns an optional quantity's value, or what is taken without one.
func or[Q q.Quantity](v *Q, instead float64) float64 {
	if v == nil {
		return instead
	}
	return float64(*v)
}

// assume notes something the file does not say.
func (b *builder) assume(format string, args ...any) {
	b.out.Assumed = append(b.out.Assumed, fmt.Sprintf(format, args...))
}

// recommended returns what fit sets at a path; false when it is to be off or is
// not on its sheets.
func (b *builder) recommended(path string) (float64, bool) {
	for k := range b.fit.Settings {
		if s := &b.fit.Settings[k]; s.Path == path {
			v, ok := s.Value.(float64)
			return v, ok
		}
	}
	return 0, false
}

// setting returns what is set today, false when it is off. What is not given is
// set as fit recommends.
func setting[Q q.Quantity](b *builder, set rig.Setting[Q], path string) (float64, bool) {
	if set.Given {
		return float64(set.Value), !set.Off
	}
	v, on := b.recommended(path)
	if on {
		b.assume("%s is not given: set to %s as recommended", path, set.Dimension().Text(v, q.Metric))
	}
	return v, on
}

// value is setting for a device in which 0 is off.
func value[Q q.Quantity](b *builder, set rig.Setting[Q], path string) float64 {
	v, on := setting(b, set, path)
	if !on {
		return 0
	}
	return v
}
