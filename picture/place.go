package picture

import "math"

// spread moves intervals apart along one line. want[i] is where interval i of
// the given size would like to start; they keep their order, keep gap between
// them and stay within [from, to] when they fit at all (else they run over to).
// The sum of squared moves is the least possible: the order-keeping fit by
// pooling neighbours that push against each other.
func spread(want, size []float64, gap, from, to float64) []float64 {
	type pool struct {
		sum float64
		n   int
	}
	pools := make([]pool, 0, len(want))
	offset := 0.0
	for i, w := range want {
		p := pool{w - offset, 1}
		for len(pools) > 0 {
			last := pools[len(pools)-1]
			if last.sum/float64(last.n) <= p.sum/float64(p.n) {
				break
			}
			p = pool{last.sum + p.sum, last.n + p.n}
			pools = pools[:len(pools)-1]
		}
		pools = append(pools, p)
		offset += size[i] + gap
	}
	slack := to - (offset - gap) // latest start of the whole train
	starts := make([]float64, 0, len(want))
	offset = 0
	for _, p := range pools {
		at := math.Max(from, math.Min(p.sum/float64(p.n), slack))
		for range p.n {
			starts = append(starts, at+offset)
			offset += size[len(starts)-1] + gap
		}
	}
	return starts
}

// total is the room intervals need with gaps between them.
func total(size []float64, gap float64) float64 {
	sum := 0.0
	for i, s := range size {
		sum += s
		if i > 0 {
			sum += gap
		}
	}
	return sum
}

// columns puts intervals side by side where they overlap: it returns the column
// of each, counted from zero, first free one taken.
func columns(low, high []float64, gap float64) []int {
	type taken struct{ low, high float64 }
	var used [][]taken
	result := make([]int, len(low))
	for i := range low {
		col := 0
		for ; col < len(used); col++ {
			free := true
			for _, t := range used[col] {
				free = free && (low[i] >= t.high+gap || high[i]+gap <= t.low)
			}
			if free {
				break
			}
		}
		if col == len(used) {
			used = append(used, nil)
		}
		used[col] = append(used[col], taken{low[i], high[i]})
		result[i] = col
	}
	return result
}
