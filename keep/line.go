package keep

import "math"

// mostColumns bounds a fit: level, slope, charge, a break of two, the events kept.
const mostColumns = 5 + eventsKept

const (
	huber     = 1.345 // beyond so many sigma a residual counts by its size, not its square
	reweights = 4
	roughly   = 2 // while a break is looked for
)

type row [mostColumns]float64

// prior is what is known of a column beforehand.
type prior struct {
	value, err float64 // err 0: nothing
}

// problem is a straight-line fit by weighted least squares, robust after Huber:
// with columns of a row for each point.
type problem struct {
	p      int
	y      []float64
	sigma  []float64
	row    func(k int) row
	priors [mostColumns]prior
}

// answer is a fit: what each column is worth, how those err, and the loss, which
// is chi squared with residuals beyond huber counted by their size.
type answer struct {
	beta row
	cov  [mostColumns]row
	loss float64
	ok   bool
}

// space is room for a fit, to be used again.
type space struct {
	rows    []row
	weights []float64
}

// solve fits with so many rounds of weights. Not ok: the points do not tell the
// columns apart.
func (q *problem) solve(room *space, rounds int) answer {
	rows, weights := room.rows[:len(q.y)], room.weights[:len(q.y)]
	for k := range rows {
		rows[k], weights[k] = q.row(k), 1
	}
	var a answer
	for range rounds {
		a = q.once(rows, weights)
		if !a.ok {
			return a
		}
		a.loss = q.reweigh(rows, weights, a.beta)
	}
	return a
}

// once solves the normal equations.
func (q *problem) once(rows []row, weights []float64) answer {
	var m [mostColumns]row
	var v row
	for k := range rows {
		r, w := &rows[k], weights[k]/(q.sigma[k]*q.sigma[k])
		for i := range q.p {
			wr := w * r[i]
			v[i] += wr * q.y[k]
			for j := 0; j <= i; j++ {
				m[i][j] += wr * r[j]
			}
		}
	}
	for i, known := range q.priors[:q.p] {
		if known.err > 0 {
			w := 1 / (known.err * known.err)
			m[i][i] += w
			v[i] += w * known.value
		}
	}
	cov, ok := inverse(m, q.p)
	a := answer{cov: cov, ok: ok}
	for i := range q.p {
		for j := range q.p {
			a.beta[i] += cov[i][j] * v[j]
		}
	}
	return a
}

// reweigh sets Huber's weights and returns the loss.
func (q *problem) reweigh(rows []row, weights []float64, beta row) (loss float64) {
	for k := range rows {
		z := math.Abs(q.residual(k, &rows[k], &beta))
		weights[k] = 1
		if z <= huber {
			loss += z * z
			continue
		}
		weights[k] = huber / z
		loss += huber * (2*z - huber)
	}
	return loss
}

// residual is in sigma.
func (q *problem) residual(k int, r, beta *row) float64 {
	fit := 0.0
	for i := range q.p {
		fit += beta[i] * r[i]
	}
	return (q.y[k] - fit) / q.sigma[k]
}

// inverse inverts a symmetric matrix given by its lower half, after Cholesky. Not
// ok: it is singular, or so nearly that no digit would be right.
func inverse(m [mostColumns]row, p int) (inv [mostColumns]row, ok bool) {
	var l [mostColumns]row
	for i := range p {
		for j := 0; j <= i; j++ {
			sum := m[i][j]
			for k := range j {
				sum -= l[i][k] * l[j][k]
			}
			if i != j {
				l[i][j] = sum / l[j][j]
				continue
			}
			if !(sum > 1e-10*m[i][i]) {
				return inv, false
			}
			l[i][i] = math.Sqrt(sum)
		}
	}
	for c := range p {
		inv[c] = column(&l, p, c)
	}
	return inv, true
}

// column solves for one column of the inverse.
func column(l *[mostColumns]row, p, c int) (x row) {
	x[c] = 1
	for i := range p {
		for k := range i {
			x[i] -= l[i][k] * x[k]
		}
		x[i] /= l[i][i]
	}
	for i := p - 1; i >= 0; i-- {
		for k := i + 1; k < p; k++ {
			x[i] -= l[k][i] * x[k]
		}
		x[i] /= l[i][i]
	}
	return x
}
