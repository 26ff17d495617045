package start

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"ampstead/quantity"
)

// array is what is on the roof, laid out in equal strings.
type array struct {
	series, parallel int
	each             float64 // W
	open             float64 // V of one panel, a placeholder
	counted          bool    // the number of panels was said
}

func (a *array) watts() float64 { return float64(a.series*a.parallel) * a.each }

// One panel of either common size; common practice, no source.
const (
	smallPanel     = 220.0 // W, up to which a panel is one of the small ones
	smallOpen      = 24.0  // V, its open-circuit voltage
	largeOpen      = 46.0
	peakShare      = 0.8 // of the open-circuit voltage, hot, that is left at peak power
	leastPanel     = 5.0 // W, the smallest panel that is taken
	controllerNeed = 5.0 // V above the bank that a solar charger needs
)

var counted = regexp.MustCompile(`(?i)^([0-9]{1,2}) ?[x×*] ?(.+)$`)

// panels reads the power on the roof: "660 W", or "2 x 330 W".
func panels(text string) (count int, each float64, err error) {
	count = 0
	if m := counted.FindStringSubmatch(text); m != nil {
		count, _ = strconv.Atoi(m[1])
		text = m[2]
	}
	each, err = amount(quantity.Watts, text, 5, 20000)
	switch {
	case err != nil:
	case count == 0 && counted.MatchString(text), count > 50 || count > 0 && each > 2000:
		err = &Problem{Message: fmt.Sprintf("%d panels of %s are out of reach", count, strings.TrimSpace(text)), Expected: "at most 50 panels of at most 2000 W"}
	}
	return count, each, err
}

// lay lays the panels out so that a string passes the bank's highest voltage
// warm. bank is that voltage, V.
func lay(count int, watts, bank float64) array {
	a := array{each: watts, counted: count > 0}
	if count == 0 {
		count = max(1, int(math.Round(watts/200)))
		a.each = watts / float64(count)
	}
	a.open = smallOpen
	if a.each > smallPanel {
		a.open = largeOpen
	}
	need := max(1, int(math.Ceil((bank+controllerNeed)/(peakShare*a.open))))
	switch {
	case a.counted:
		a.series = divisor(count, need)
		a.parallel = count / a.series
	default:
		need = min(need, max(1, int(watts/leastPanel)))
		a.series, a.parallel = need, max(1, count/need)
		a.each = math.Round(10*watts/float64(a.series*a.parallel)) / 10
	}
	return a
}

// divisor is the smallest divisor of n that is at least want, or n.
func divisor(n, want int) int {
	for d := want; d < n; d++ {
		if n%d == 0 {
			return d
		}
	}
	return n
}
