package prove

import "math"

// chartMost is how many instants a chart has at most.
const chartMost = 2000

// chart thins the log for drawing. The ends of every segment are kept as long as
// they fit; between them instants are shared out by how many were kept.
func (s *study) chart() Chart {
	total := 0
	for k := range s.segs {
		total += len(s.segs[k].own())
	}
	room := max(chartMost-2*len(s.segs), 0)
	share := math.Min(float64(room)/math.Max(float64(total), 1), 1)
	c := Chart{Groups: make([][]float64, s.groups)}
	skip := max(1, (2*len(s.segs)+chartMost-1)/chartMost)
	for k := 0; k < len(s.segs); k += skip {
		own := s.segs[k].own()
		c.add(own[0])
		inner := int(share * float64(len(own)-2))
		for i := range inner {
			c.add(own[1+i*(len(own)-2)/inner])
		}
		if len(own) > 1 {
			c.add(own[len(own)-1])
		}
	}
	return c
}

func (c *Chart) add(p sample) {
	c.Time, c.Volts, c.Amps, c.Ah = append(c.Time, p.t), append(c.Volts, p.v), append(c.Amps, p.a), append(c.Ah, p.ah)
	c.TempC = append(c.TempC, p.tempC)
	for k := range c.Groups {
		c.Groups[k] = append(c.Groups[k], p.groups[k])
	}
}
