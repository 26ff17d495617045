package table

import "math"

// Missing marks a node without a value.
const Missing = math.MinInt16

// Grid is a lattice of latitudes from south to north and longitudes all the way
// round, with several layers of values.
type Grid struct {
	South, West float64 // of the first node, degrees
	Step        float64 // degrees between nodes
	Rows, Cols  int
	Layers      []Layer
}

// Layer is one quantity at all nodes, row by row from the south.
type Layer struct {
	Unit   float64 // what a 1 stands for
	Values []int16
}

// NewLayer returns a layer without values.
func (g *Grid) NewLayer(unit float64) Layer {
	values := make([]int16, g.Rows*g.Cols)
	for i := range values {
		values[i] = Missing
	}
	return Layer{Unit: unit, Values: values}
}

// Node returns the index of the node at a position, or false when there is none.
func (g *Grid) Node(lat, lon float64) (int, bool) {
	row, col := (lat-g.South)/g.Step, (lon-g.West)/g.Step
	r, c := int(math.Round(row)), int(math.Round(col))
	if math.Abs(row-float64(r)) > 1e-6 || math.Abs(col-float64(c)) > 1e-6 || r < 0 || r >= g.Rows {
		return 0, false
	}
	return r*g.Cols + mod(c, g.Cols), true
}

// Corners are the four nodes around a point with their bilinear weights.
type Corners struct {
	node   [4]int
	weight [4]float64
}

// Around returns the corners around a point in degrees. Beyond the first and
// last row the row's own values hold.
func (g *Grid) Around(lat, lon float64) Corners {
	row := max(0, min(float64(g.Rows-1), (lat-g.South)/g.Step))
	col := (lon - g.West) / g.Step
	r, c := min(int(row), max(g.Rows-2, 0)), int(math.Floor(col))
	y, x := row-float64(r), col-float64(c)
	above := min(r+1, g.Rows-1)
	west, east := mod(c, g.Cols), mod(c+1, g.Cols)
	return Corners{
		node:   [4]int{r*g.Cols + west, r*g.Cols + east, above*g.Cols + west, above*g.Cols + east},
		weight: [4]float64{(1 - y) * (1 - x), (1 - y) * x, y * (1 - x), y * x},
	}
}

// At returns the value of a layer between the corners, leaving out those without
// one, and how much weight the others have: 0 when there is none.
func (l *Layer) At(c Corners) (value, weight float64) {
	for i, n := range c.node {
		if v := l.Values[n]; v != Missing && c.weight[i] > 0 {
			value += c.weight[i] * float64(v)
			weight += c.weight[i]
		}
	}
	if weight == 0 {
		return 0, 0
	}
	return value * l.Unit / weight, weight
}

func mod(a, n int) int { return (a%n + n) % n }
