package prove

import "math"

func damped(m [3][3]float64, by float64) [3][3]float64 {
	for k := range m {
		m[k][k] *= 1 + by
	}
	return m
}

// solve solves three equations by elimination with pivots; not ok when they do
// not determine the unknowns.
func solve(m [3][3]float64, right [3]float64) (x [3]float64, ok bool) {
	inverse, ok := invert(m)
	for i := range x {
		for j := range right {
			x[i] += inverse[i][j] * right[j]
		}
	}
	return x, ok
}

// invert inverts a symmetric matrix, scaled to a diagonal of ones first: its rows
// stand for quantities of very different size.
func invert(m [3][3]float64) (inverse [3][3]float64, ok bool) {
	var scale [3]float64
	for k := range m {
		if !(m[k][k] > 0) {
			return inverse, false
		}
		scale[k] = 1 / math.Sqrt(m[k][k])
	}
	for i := range m {
		for j := range m {
			m[i][j] *= scale[i] * scale[j]
		}
	}
	det := m[0][0]*(m[1][1]*m[2][2]-m[1][2]*m[2][1]) -
		m[0][1]*(m[1][0]*m[2][2]-m[1][2]*m[2][0]) +
		m[0][2]*(m[1][0]*m[2][1]-m[1][1]*m[2][0])
	if !(math.Abs(det) > 1e-13) {
		return inverse, false
	}
	for i := range m {
		for j := range m {
			a, b, c, d := (j+1)%3, (j+2)%3, (i+1)%3, (i+2)%3
			inverse[i][j] = (m[a][c]*m[b][d] - m[a][d]*m[b][c]) / det * scale[i] * scale[j]
		}
	}
	return inverse, true
}
