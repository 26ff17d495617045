package prove

import "math"

// Samples kept of one run.
const (
	headSeconds = 60.0 // kept as logged, as far as headMost goes
	headMost    = 250  // samples of the first seconds
	headRaw     = 100  // of them never thinned
	bodyMost    = 300  // samples between
	tailMost    = 40   // last samples, kept as logged
)

// run is a stretch of one current, with its samples thinned as they come.
type run struct {
	island, cycle int
	from, to      float64 // s, of its own rows
	rows          int
	level         float64 // sum of the currents of levelRows of its rows: a ramp into it is left out
	levelRows     int
	points        []sample
	based         bool // points[0] is the row before it
	off           sumOff

	head    int      // samples of the first seconds, base included
	nearest float64  // s between samples of the head
	stride  float64  // s between samples behind it
	ring    []sample // the last rows
	next    int      // oldest of them
}

// mean is the mean current, A.
func (r *run) mean() float64 { return r.level / float64(r.levelRows) }

// own returns the samples without the base.
func (r *run) own() []sample {
	if r.based {
		return r.points[1:]
	}
	return r.points
}

// add takes a row.
func (r *run) add(row *reading) {
	r.rows++
	r.level += row.a
	r.levelRows++
	r.to = row.t
	r.off.see(row)
	r.remember(row)
	switch n := len(r.points); {
	case r.rows == 1:
		r.points = append(r.points, row.copy())
		r.head = len(r.points)
	case row.t-r.from <= headSeconds:
		r.addHead(row)
	case row.t-r.points[n-1].t >= r.stride:
		r.points = append(r.points, row.copy())
		r.thinBody()
	}
}

func (r *run) addHead(row *reading) {
	if row.t-r.points[len(r.points)-1].t < r.nearest {
		return
	}
	r.points = append(r.points, row.copy())
	if len(r.points) > headMost {
		r.points = append(r.points[:headRaw], everyOther(r.points[headRaw:])...)
		r.nearest = max(2*r.nearest, 2*headSeconds/headMost)
	}
	r.head = len(r.points)
}

// thinBody drops every other sample behind the head when there are too many.
func (r *run) thinBody() {
	body := r.points[r.head:]
	if len(body) <= bodyMost {
		return
	}
	span := body[len(body)-1].t - body[0].t
	r.points = append(r.points[:r.head], everyOther(body)...)
	r.stride = span / (bodyMost / 2)
}

func everyOther(list []sample) []sample {
	half := list[:0]
	for k := 0; k < len(list); k += 2 {
		half = append(half, list[k])
	}
	return half
}

// remember keeps a row in the ring of the last ones, whose memory is reused.
func (r *run) remember(row *reading) {
	if len(r.ring) < tailMost {
		r.ring = append(r.ring, row.copy())
		return
	}
	s := &r.ring[r.next]
	groups := append(s.groups[:0], row.groups...)
	*s = row.sample
	s.groups = groups
	r.next = (r.next + 1) % tailMost
}

// close appends the last rows as they were logged.
func (r *run) close() {
	tail := append(append([]sample{}, r.ring[r.next:]...), r.ring[:r.next]...)
	r.ring = nil
	if len(tail) == 0 {
		return
	}
	n := len(r.points)
	for n > 0 && r.points[n-1].t >= tail[0].t && !(r.based && n == 1) {
		n--
	}
	r.points = append(r.points[:n], tail...)
}

// thinAll thins every run to a share of samples and returns how many are left.
func thinAll(runs []run, share int) int {
	total := 0
	for k := range runs {
		runs[k].points = thin(runs[k].points, max(share, 8))
		total += len(runs[k].points)
	}
	return total
}

// thin keeps most samples: a third from the beginning, a sixth from the end,
// the rest evenly between.
func thin(list []sample, most int) []sample {
	if len(list) <= most {
		return list
	}
	head, tail := most/3, most/6
	body := list[head : len(list)-tail]
	kept := append(make([]sample, 0, most), list[:head]...)
	for k := range most - head - tail {
		kept = append(kept, body[k*len(body)/(most-head-tail)])
	}
	return append(kept, list[len(list)-tail:]...)
}

// join joins neighbours that differ by less than least in their mean current,
// or that are both quiet.
func join(runs []run, quiet, least float64) []run {
	kept := runs[:0]
	for _, r := range runs {
		if n := len(kept); n > 0 && kept[n-1].alike(&r, quiet, least) {
			kept[n-1].absorb(&r)
			continue
		}
		kept = append(kept, r)
	}
	return kept
}

func (r *run) alike(next *run, quiet, least float64) bool {
	if r.island != next.island {
		return false
	}
	a, b := r.mean(), next.mean()
	if math.Abs(a) < quiet && math.Abs(b) < quiet {
		return true
	}
	return math.Abs(a-b) < least && (math.Abs(a) < quiet) == (math.Abs(b) < quiet) || math.Abs(a-b) < least/8
}

// absorb appends the run that follows.
func (r *run) absorb(next *run) {
	r.to, r.rows, r.off = next.to, r.rows+next.rows, r.off.and(next.off)
	r.level, r.levelRows = r.level+next.level, r.levelRows+next.levelRows
	r.points = thin(append(r.points, next.own()...), headMost+bodyMost+tailMost)
}
