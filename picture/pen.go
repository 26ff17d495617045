package picture

import "math"

// pen draws long outlines in short text: every point is written as the way from
// the last, in whole tenths of a pixel so that nothing adds up.
type pen struct {
	trace
	x, y int64 // where it stands, tenths
}

func (p *pen) lift(x, y float64) *pen {
	p.x, p.y = tenths(x), tenths(y)
	p.move(x, y)
	return p
}

func (p *pen) draw(x, y float64) *pen {
	nx, ny := tenths(x), tenths(y)
	if nx == p.x && ny == p.y {
		return p
	}
	p.d = appendTenth(append(p.d, 'l'), float64(nx-p.x)/10)
	if ny >= p.y {
		p.d = append(p.d, ' ')
	}
	p.d = appendTenth(p.d, float64(ny-p.y)/10)
	p.x, p.y = nx, ny
	return p
}

func tenths(v float64) int64 {
	if math.IsNaN(v) || math.Abs(v) > 1e6 {
		return 0
	}
	return int64(math.Round(v * 10))
}

// strand is a value that ranges between low and high along the way, one pair for
// each column of at least leastColumn px.
type strand struct {
	x         []float64 // px, middle of the column
	low, high []float64
}

const leastColumn = 2.0

// gather joins n values into columns: each takes the lowest low and the highest
// high of what falls into it.
func gather(n int, x linear, low, high func(i int) float64) strand {
	return gatherBy(leastColumn, n, x, low, high)
}

// gatherBy is the same with columns of another least width.
func gatherBy(least float64, n int, x linear, low, high func(i int) float64) strand {
	each := (x.p1 - x.p0) / math.Max(1, float64(n))
	join := max(1, int(math.Ceil(least/math.Max(each, 1e-6))))
	var s strand
	for from := 0; from < n; from += join {
		to := min(n, from+join)
		l, h := math.Inf(1), math.Inf(-1)
		for i := from; i < to; i++ {
			l, h = math.Min(l, low(i)), math.Max(h, high(i))
		}
		s.x = append(s.x, x.p0+each*float64(from+to)/2)
		s.low, s.high = append(s.low, l), append(s.high, h)
	}
	return s
}

// area fills between low and high.
func (s strand) area(b band) *trace {
	p := &pen{}
	if len(s.x) == 0 {
		return &p.trace
	}
	p.lift(s.x[0], b.y(s.high[0]))
	for i := 1; i < len(s.x); i++ {
		p.draw(s.x[i], b.y(s.high[i]))
	}
	for i := len(s.x) - 1; i >= 0; i-- {
		p.draw(s.x[i], b.y(s.low[i]))
	}
	return p.close()
}

// edge follows the values that pick names.
func (s strand) edge(b band, values []float64) *trace {
	p := &pen{}
	for i, x := range s.x {
		if i == 0 {
			p.lift(x, b.y(values[i]))
			continue
		}
		p.draw(x, b.y(values[i]))
	}
	return &p.trace
}

// course follows a quick value: down and up within each column, so that no short
// peak is lost.
func (s strand) course(b band) *trace {
	p := &pen{}
	for i, x := range s.x {
		first, second := s.low[i], s.high[i]
		if i > 0 && math.Abs(s.high[i-1]-s.high[i]) < math.Abs(s.high[i-1]-s.low[i]) {
			first, second = second, first
		}
		if i == 0 {
			p.lift(x, b.y(first))
		} else {
			p.draw(x, b.y(first))
		}
		p.draw(x, b.y(second))
	}
	return &p.trace
}

// extent is the lowest and the highest value.
func (s strand) extent() (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for i := range s.x {
		low, high = math.Min(low, s.low[i]), math.Max(high, s.high[i])
	}
	return low, high
}

// floor fills between the highest values and the foot of the panel.
func (s strand) floor(b band) *trace {
	p := &pen{}
	if len(s.x) == 0 {
		return &p.trace
	}
	p.lift(s.x[0], b.bottom)
	for i, x := range s.x {
		p.draw(x, b.y(s.high[i]))
	}
	p.draw(s.x[len(s.x)-1], b.bottom)
	return p.close()
}
