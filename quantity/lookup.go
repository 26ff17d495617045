package quantity

import (
	"fmt"
	"strings"
)

// unknown is why a unit was refused when nothing resembles it.
const unknown = "unknown"

// read finds the unit a person named. Slips of case and other signs for ohm,
// micro, degree and square are taken when only one unit can be meant.
func (d *Dimension) read(name string) (Unit, string) {
	if u, ok := d.exact(name); ok {
		return u, ""
	}
	p := plain(name)
	if p == "" {
		return Unit{}, unknown
	}
	if u, ok := d.exact(p); ok {
		return u, ""
	}
	return d.slip(p)
}

func (d *Dimension) exact(name string) (Unit, bool) {
	for _, u := range d.Units {
		for _, n := range u.Names {
			if n == name {
				return u, true
			}
		}
	}
	return Unit{}, false
}

// slip finds the one unit that differs from name in case only.
func (d *Dimension) slip(name string) (Unit, string) {
	found, meant := Unit{}, ""
	for _, u := range d.Units {
		for _, n := range u.Names {
			if !strings.EqualFold(n, name) {
				continue
			}
			if meant != "" && u.Scale != found.Scale {
				return Unit{}, fmt.Sprintf("could mean %q or %q", meant, n)
			}
			found, meant = u, n
		}
	}
	if meant == "" {
		return Unit{}, unknown
	}
	if why := d.prefixSlip(name, meant); why != "" {
		return Unit{}, why
	}
	return found, ""
}

// prefixSlip refuses m for M and the reverse where it is a prefix: a factor of
// a thousand million must not hang on the shift key.
func (d *Dimension) prefixSlip(name, meant string) string {
	if name[0] == meant[0] || meant[0] != 'm' && meant[0] != 'M' {
		return ""
	}
	if _, prefixed := d.exact(meant[1:]); !prefixed {
		return ""
	}
	size := map[byte]string{'m': "milli", 'M': "mega"}
	return fmt.Sprintf("begins its unit with %q for %s; %s is written %q",
		name[:1], size[name[0]], size[meant[0]], meant)
}

var signs = strings.NewReplacer("\u03a9", "ohm", "\u2126", "ohm", "\u00b5", "u", "\u03bc", "u",
	"²", "2", "^2", "2", "º", "°", "˚", "°", "degrees", "°", "degree", "°", "deg", "°",
	"′", "'", "’", "'", "″", `"`, "”", `"`,
	" ", "", "\u00a0", "", "\u2009", "", "\u202f", "", "·", "", "⋅", "", "*", "")

// plain writes a unit with the simplest signs. Each unit of every dimension has
// a name that plain leaves as it is.
func plain(unit string) string { return signs.Replace(unit) }

// explain turns the reason a unit was refused into words about the whole text.
func explain(text, unit, why string) string {
	if why != unknown {
		return why
	}
	if d := dimensionOf(unit); d != nil {
		return "is " + d.Article
	}
	if _, err := ParseSize(text); err == nil {
		return "is a conductor size"
	}
	return fmt.Sprintf("has a unit %.20q that is not known here", unit)
}

// dimensionOf finds what a unit would measure; as written first, so that a
// slip never hides a unit of that very name.
func dimensionOf(unit string) *Dimension {
	all := All()
	for _, d := range all {
		if _, ok := d.exact(unit); ok && unit != "" {
			return d
		}
	}
	for _, d := range all {
		if _, why := d.read(unit); why == "" {
			return d
		}
	}
	return nil
}
