package life

// path is one bank's way through the years: item n is how it is n years from now
// and what a year from then on is like.
type path struct {
	share, ohms []float64
	years       []*year
	capacityAt  float64 // years to the end by capacity
	functionAt  float64
	capacityEnd bool // reached
	functionEnd bool
	worn        bool // followed no further, for too little is left
	bank        old  // as it was followed to
}

// walk follows a bank until both ends are reached, for so many years, or until
// too little is left.
func (d road) walk(b old, years int, endShare, endHours float64) *path {
	p := &path{}
	for n := 0; ; n++ {
		y := d.at(b.share())
		p.share, p.ohms, p.years = append(p.share, b.share()), append(p.ohms, b.ohms()), append(p.years, y)
		p.look(n, endShare, endHours)
		p.worn = b.share() <= leastShare
		if p.worn || n == years || p.capacityEnd && p.functionEnd {
			p.close(n, &b)
			return p
		}
		for _, one := range y.stress() {
			b.Add(one)
		}
	}
}

// look notes an end that was passed in the year before age n.
func (p *path) look(n int, share, hours float64) {
	if !p.capacityEnd && p.share[n] <= share {
		p.capacityAt, p.capacityEnd = between(n, func(k int) float64 { return -p.share[k] }, -share), true
	}
	if !p.functionEnd && p.years[n].least() > hours {
		p.functionAt, p.functionEnd = between(n, func(k int) float64 { return p.years[k].least() }, hours), true
	}
}

// between is when a rising value passed a limit in the year before age n.
func between(n int, of func(int) float64, limit float64) float64 {
	if n == 0 {
		return 0
	}
	before, after := of(n-1), of(n)
	return float64(n-1) + (limit-before)/(after-before)
}

// close sets the ends that were not reached to how far it was followed.
func (p *path) close(n int, b *old) {
	if !p.capacityEnd {
		p.capacityAt = float64(n)
	}
	if !p.functionEnd {
		p.functionAt = float64(n)
	}
	p.bank = *b
}

// extend goes on with capacity alone to n items, its last year repeating itself.
func (p *path) extend(n int) {
	b, y := p.bank, *p.years[len(p.years)-1]
	for len(p.share) < n {
		for _, one := range y.stress() {
			b.Add(one)
		}
		y.share = b.share()
		p.share, p.ohms = append(p.share, b.share()), append(p.ohms, b.ohms())
	}
}

// delivered is what the bank gave until its earlier end, Wh.
func (p *path) delivered() float64 {
	end, sum := min(p.capacityAt, p.functionAt), 0.0
	for n, y := range p.years {
		if left := end - float64(n); left > 0 {
			sum += min(1, left) * y.gaveWh()
		}
	}
	return sum
}
