package protect

import (
	"fmt"
	"sort"
	"strings"

	"ampstead/figure"
)

// Sizes are the standard ratings of fuses in A: NFPA 70, 240.6(A), with the small
// ones that exist as fuses only (1, 3, 6, 10). The odd 601 A is left out.
var Sizes = []float64{1, 3, 6, 10, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400,
	450, 500, 600, 700, 800, 1000, 1200}

// Continuous is the share by which fuse and conductor exceed a current that
// flows for three hours or more (NFPA 70, 210.19).
const Continuous = 1.25

// NextSize returns the smallest standard rating of at least amperes. Errors:
// figure.ErrRange beyond the largest.
func NextSize(amperes float64) (float64, error) {
	const rounding = 1e-9
	for _, s := range Sizes {
		if s >= amperes*(1-rounding) {
			return s, nil
		}
	}
	return 0, fmt.Errorf("no standard fuse is rated %g A; the largest is %g A: %w", amperes, Sizes[len(Sizes)-1], figure.ErrRange)
}

// Class is a class of fuse on dc.
type Class struct {
	Name         string
	From, To     float64 // A, range of ratings
	RatedV       float64 // highest dc voltage
	Limiting     bool    // clears a dead short before the current has fully risen
	Interrupting []Interrupt
}

// Interrupt is what a class can interrupt up to a voltage.
type Interrupt struct {
	UpToV   float64
	Amperes float64
}

// Classes are listed from the least to the most able, with the cautious figure
// where two texts differ.
var Classes = []Class{
	{"blade", 1, 80, 32, false, []Interrupt{{32, 1000}}},
	{"midi", 30, 200, 32, false, []Interrupt{{32, 2000}}},
	{"mega", 40, 500, 70, false, []Interrupt{{32, 2000}, {70, 1000}}},
	{"strip", 35, 750, 32, false, []Interrupt{{32, 2700}}},
	{"terminal", 30, 300, 58, false, []Interrupt{{14, 10000}, {32, 5000}, {58, 2000}}},
	{"class T", 1, 1200, 125, true, []Interrupt{{125, 20000}}},
}

// At is the current in A the class can interrupt at a voltage; 0 above its rating.
func (c Class) At(volts float64) float64 {
	list := c.Interrupting
	k := sort.Search(len(list), func(i int) bool { return list[i].UpToV >= volts })
	if k == len(list) {
		return 0
	}
	return list[k].Amperes
}

// ClassNamed finds a class by name, in any case.
func ClassNamed(name string) (Class, bool) {
	for _, c := range Classes {
		if strings.EqualFold(c.Name, strings.TrimSpace(name)) {
			return c, true
		}
	}
	return Class{}, false
}

// Propose returns the least able class that has a rating, bears a voltage and
// interrupts a current. Errors: figure.ErrRange when there is none.
func Propose(rating, volts, amperes float64) (Class, error) {
	for _, c := range Classes {
		if rating >= c.From && rating <= c.To && c.At(volts) >= amperes {
			return c, nil
		}
	}
	return Class{}, fmt.Errorf("no class of fuse listed interrupts %g A at %g V: %w", amperes, volts, figure.ErrRange)
}

// Coordinated is the ratio of ratings from which on two current-limiting fuses of
// one class are taken to clear one by one.
const Coordinated = 2.0
