package compare

// progress turns that of several runs into one.
type progress struct {
	tell  func(done, total int)
	parts int
	begun int
}

// hundred is what each run counts for.
const hundred = 100

func newProgress(o Options) *progress {
	p := &progress{tell: o.Progress}
	for _, wanted := range []bool{o.Travel, o.Drill} {
		if wanted {
			p.parts += 2
		}
	}
	return p
}

// part is the progress of the next run.
func (p *progress) part() func(done, total int) {
	before := p.begun * hundred
	p.begun++
	return func(done, total int) {
		if p.tell != nil && total > 0 {
			p.tell((before+hundred*min(done, total)/total)/p.parts, hundred)
		}
	}
}
