package benchlog

// Layout is how a file was understood.
type Layout struct {
	Line      string   `json:"line"`      // all in one line: "time in s, pack V, current A, discharge negative, 6 groups"
	Separator string   `json:"separator"` // "comma", "semicolon", "tab", "pipe", "space"
	Decimal   string   `json:"decimal"`   // "point" or "comma"
	Header    int      `json:"header_lines"`
	Columns   []Column `json:"columns"`
	Time      string   `json:"time"`       // "s", "min", "h", "clock", "date and clock", "row counter of N s"
	Sign      string   `json:"sign"`       // "charge positive", "discharge positive", or "no sign" where each stretch was told by itself
	SignHow   string   `json:"sign_basis"` // how it was told: "voltage falls while current is negative", "header", "given"
	Groups    int      `json:"groups"`
	Packing   string   `json:"packing,omitempty"` // "gzip", "bzip2", "zlib", "zip", or none
}

// Role is what a column holds.
type Role string

// The roles.
const (
	Time        Role = "time"
	Voltage     Role = "voltage"
	Current     Role = "current"
	GroupV      Role = "group"
	Temperature Role = "temperature"
	Charge      Role = "charge"    // a counter of amp-hours
	ChargeIn    Role = "charge in" // counters that count one way only
	ChargeOut   Role = "charge out"
	Energy      Role = "energy"
	Power       Role = "power"
	Cycle       Role = "cycle"
	Step        Role = "step"
	SoC         Role = "state of charge"
	Ignored     Role = "ignored"
)

// Column is one column of the file.
type Column struct {
	Name  string  `json:"name"` // as in the header, or "column 3"
	Role  Role    `json:"role"`
	Unit  string  `json:"unit"`            // as read: "mV", "V", "A", "°F", ...
	Scale float64 `json:"scale"`           // to SI (temperatures: before the offset of °F)
	Group int     `json:"group,omitempty"` // number of a group, from 1
}

// Row is one row in SI. Time is in seconds since the first row and never falls:
// a restart of the file's own time goes on from where it was, and Cycle counts
// up unless the file has a column for it. Absent values are NaN. Slices are
// reused by the next row.
type Row struct {
	Line     int
	Time     float64
	Volts    float64
	Amps     float64 // positive charging
	Groups   []float64
	TempsC   []float64
	ChargeAh float64 // the logger's own counter, as it stands; in less out where it has one for each
	EnergyWh float64
	Cycle    int // 0 when the file has none
}

// Unread is a row that could not be read.
type Unread struct {
	Line int    `json:"line"`
	Text string `json:"text"` // its beginning
	Why  string `json:"why"`
}

// Summary is what reading a file came to.
type Summary struct {
	Layout    Layout
	Rows      int      // read
	Unread    []Unread // the first twenty
	UnreadAll int
	Repeated  int         // rows that repeat the one before, dropped
	Gaps      []Gap       // stretches without rows, longest first, at most ten
	Steps     []ClockStep // where the clock went back or jumped
	Restarts  int
}

// Gap is a stretch without rows.
type Gap struct {
	Line    int     `json:"line"`
	Seconds float64 `json:"seconds"`
}

// ClockStep is where time went backwards without a restart.
type ClockStep struct {
	Line    int     `json:"line"`
	Seconds float64 `json:"seconds"`
}

// Options override what is recognised. The zero value recognises everything.
// They are saved in a rig folder as JSON.
type Options struct {
	Separator string            `json:"separator,omitempty"`
	Decimal   string            `json:"decimal,omitempty"`
	Columns   map[string]string `json:"columns,omitempty"` // column name or number → role, with an optional unit: "current mA", "group 3 mV"
	Time      string            `json:"time,omitempty"`    // unit, or how a date is written
	Sign      string            `json:"sign,omitempty"`    // "charge" or "discharge": what is positive
	Groups    int               `json:"groups,omitempty"`  // how many are expected
}
