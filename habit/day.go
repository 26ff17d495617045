package habit

import "math"

// minutes of a day.
const minutes = 24 * 60

// Start is an appliance that begins to run.
type Start struct {
	Minute int
	Feed   int
	Watts  float64 // more than it takes while it runs
}

// Day is what is asked for on one day. It is filled again day by day.
type Day struct {
	Watts  [][]float64 // by feed and minute
	Starts []Start     // by minute, where starting takes more than running
}

// NewDay makes room for the demand of some feeds.
func NewDay(feeds int) *Day {
	d := &Day{Watts: make([][]float64, feeds)}
	for k := range d.Watts {
		d.Watts[k] = make([]float64, minutes)
	}
	return d
}

// Fill works out a day. room is the temperature (°C) of the room by the hour, 24
// of them. Equal seeds and days give equal demand, whatever was filled before.
func (d *Day) Fill(list []Appliance, seed uint64, date Date, room []float64) {
	for k := range d.Watts {
		clear(d.Watts[k])
	}
	d.Starts = d.Starts[:0]
	for i := range list {
		a := &list[i]
		if a.Feed < 0 {
			continue
		}
		c := newChance(seed, date.Day, i)
		if !a.due(date, c.next()) {
			continue
		}
		if a.Steady {
			d.steady(a, room)
			continue
		}
		d.sessions(a, &c)
	}
}

// steady spreads an appliance over the day by its duty, as the mean of many short
// runs; the duty of what cools follows the room.
func (d *Day) steady(a *Appliance, room []float64) {
	watts := d.Watts[a.Feed]
	for h, roomC := range room {
		duty := a.Hours / 24
		if a.Cools {
			duty = math.Min(1, duty*Cooling(roomC))
		}
		w := duty * a.Watts
		for m := h * 60; m < h*60+60; m++ {
			watts[m] += w
		}
	}
	if a.Start > a.Watts {
		d.Starts = append(d.Starts, Start{Minute: 18 * 60, Feed: a.Feed, Watts: a.Start - a.Hours/24*a.Watts})
	}
}

// vary is by how much the time of use differs from day to day, either way; ours.
const vary = 0.3

// sessions places an appliance's hours in its part of the day: at a stretch, or
// in several, each somewhere in its own share of the time.
func (d *Day) sessions(a *Appliance, c *chance) {
	from, to := window(a.When)
	length := math.Min(a.Hours*60*(1+vary*(2*c.next()-1)), minutes)
	if length > to-from {
		middle := (from + to) / 2
		from, to = middle-length/2, middle+length/2
	}
	n := math.Max(1, math.Round(length/60/sessionHours))
	each, share := length/n, (to-from)/n
	for k := range int(n) {
		begin := from + float64(k)*share + c.next()*(share-each)
		d.run(a, begin, each)
	}
}

// run adds a stretch of use, in minutes; what passes midnight comes in the early
// hours of the same day.
func (d *Day) run(a *Appliance, begin, length float64) {
	watts := d.Watts[a.Feed]
	end := begin + length
	for m := math.Floor(begin); m < end; m++ {
		part := math.Min(m+1, end) - math.Max(m, begin)
		watts[wrap(int(m))] += part * a.Watts
	}
	if a.Start > a.Watts {
		d.Starts = append(d.Starts, Start{Minute: wrap(int(math.Floor(begin))), Feed: a.Feed, Watts: a.Start - a.Watts})
	}
}

func wrap(m int) int { return ((m % minutes) + minutes) % minutes }

// chance is a row of random numbers that depends on nothing but where it starts
// (SplitMix64; Steele, Lea & Flood 2014).
type chance struct{ state uint64 }

func newChance(seed uint64, day, appliance int) chance {
	c := chance{seed}
	c.state ^= c.mix() + uint64(day)*0xD1342543DE82EF95
	c.state ^= c.mix() + uint64(appliance)*0xAF251AF3B0F025B5
	return c
}

func (c *chance) mix() uint64 {
	c.state += 0x9E3779B97F4A7C15
	z := c.state
	z = (z ^ z>>30) * 0xBF58476D1CE4E5B9
	z = (z ^ z>>27) * 0x94D049BB133111EB
	return z ^ z>>31
}

// next is a number from 0 up to but not including 1.
func (c *chance) next() float64 { return float64(c.mix()>>11) / (1 << 53) }
