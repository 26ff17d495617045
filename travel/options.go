package travel

import "ampstead/weather"

// Options say how a year is reckoned. The zero Options are one synthetic year by
// the minute.
type Options struct {
	Years    int            // weather years; 0 is one
	Seed     uint64         // of weather and habits
	StepS    float64        // 1 to 3600 s; 0 is one minute
	Weather  *weather.Hours // whole years from a file, or nil for synthetic years
	Limits   bool           // also try what more of each thing would bring
	Span     *SpanWish      // also return a stretch of the first year in full
	Workers  int            // years reckoned at once; 0 is one for each core
	Progress func(done, total int)
}

// SpanWish is a stretch of the year.
type SpanWish struct {
	From string // month and day, "01-15", or a date
	Days int    // 0 is seven, at most 31
}

// limitYears is how many weather years a change is tried over.
const limitYears = 3

// mostYears bounds a run; months of twenty years together have the mean of the
// climate.
const mostYears = 100
