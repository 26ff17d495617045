package conductor

import "math"

// point is one row of a table of two columns.
type point struct{ x, y float64 }

// between interpolates the table, rising in x, as a straight line on
// logarithmic scales: resistance and ampacity follow powers of the area. A row
// is met exactly; ok is false outside the table.
func between(table []point, x float64) (y float64, ok bool) {
	for i, p := range table {
		if x == p.x {
			return p.y, true
		}
		if i == 0 || x < table[i-1].x || x > p.x {
			continue
		}
		low := table[i-1]
		share := math.Log(x/low.x) / math.Log(p.x/low.x)
		return low.y * math.Pow(p.y/low.y, share), true
	}
	return 0, false
}

// columnFor returns the last column rated no higher than the insulation, so
// that an insulation between two columns counts as the lower. It is -1 below
// the first.
func columnFor(columns []float64, insulationC float64) int {
	const rounding = 1e-6 // a rating written in °F
	column := -1
	for i, c := range columns {
		if insulationC >= c-rounding {
			column = i
		}
	}
	return column
}
