package drill

// mostSamples is how many points a strip is drawn with.
const mostSamples = 600

// note takes a sample after a step.
func (s *Strip) note(t *turn) {
	x := t.e.Sense()
	sum := 0.0
	for _, v := range t.a.Bank.SoCs() {
		sum += v
	}
	s.Time, s.HighV, s.LowV = append(s.Time, x.Time), append(s.HighV, x.HighV), append(s.LowV, x.LowV)
	s.BankA, s.BusV = append(s.BankA, x.BankA), append(s.BusV, x.BusV)
	s.ColdC, s.HotC = append(s.ColdC, x.ColdC), append(s.HotC, x.HotC)
	s.SoC = append(s.SoC, sum/float64(t.a.Bank.Groups()))
}

// thin leaves at most about mostSamples: of every so many in a row the first, and
// those with the highest and the lowest cell, so that no peak is lost.
func (s *Strip) thin() {
	n := len(s.Time)
	if n <= mostSamples {
		return
	}
	each := (3*n + mostSamples - 1) / mostSamples
	kept := 0
	keep := func(k int) {
		for _, list := range s.lists() {
			list[kept] = list[k]
		}
		kept++
	}
	for from := 0; from < n; from += each {
		for _, k := range s.tips(from, min(from+each, n)) {
			keep(k)
		}
	}
	for _, list := range []*[]float64{&s.Time, &s.HighV, &s.LowV, &s.BankA, &s.BusV, &s.ColdC, &s.HotC, &s.SoC} {
		*list = (*list)[:kept]
	}
}

func (s *Strip) lists() [8][]float64 {
	return [8][]float64{s.Time, s.HighV, s.LowV, s.BankA, s.BusV, s.ColdC, s.HotC, s.SoC}
}

// tips are the first sample of a stretch and those with its highest and lowest
// cell, in order and each once; of the last stretch also the last.
func (s *Strip) tips(from, to int) []int {
	high, low := from, from
	for k := from; k < to; k++ {
		if s.HighV[k] > s.HighV[high] {
			high = k
		}
		if s.LowV[k] < s.LowV[low] {
			low = k
		}
	}
	list := []int{from}
	for _, k := range []int{min(high, low), max(high, low)} {
		if k != list[len(list)-1] {
			list = append(list, k)
		}
	}
	if to == len(s.Time) && list[len(list)-1] != to-1 {
		list = append(list, to-1)
	}
	return list
}
