package drill

import "ampstead/finding"

// Result is everything drill finds out about a rig.
type Result struct {
	Scenes    []Scene           `json:"scenes"`
	Faults    []Fault           `json:"faults"`
	Guards    []Guard           `json:"guards"`        // what is there to act, and what it shares with others
	Without   []Outcome         `json:"without_fault"` // each scene with nothing wrong
	Single    []Outcome         `json:"single"`        // every fault in every scene
	Pairs     Pairs             `json:"pairs"`
	Tolerant  bool              `json:"single_fault_tolerant"` // no single fault reached harm in any scene
	Uncovered []Uncovered       `json:"uncovered"`             // single faults, then pairs, that reach harm
	Additions []Addition        `json:"additions"`             // what would cover them, most first
	Margins   []Margin          `json:"margins"`               // how far each set-point can drift
	Rehearsal []Rehearsal       `json:"rehearsal"`             // what can be tried for real without harm
	Seconds   float64           `json:"seconds"`               // the whole drill took
	Assumed   []string          `json:"assumed"`               // what the file does not say and was taken
	Findings  []finding.Finding `json:"-"`
	Figures   []string          `json:"-"` // names of the figures behind the models
}

// Scene is a moment of use: state, weather and demand.
type Scene struct {
	Name   string  `json:"name"`  // "frozen dawn"
	About  string  `json:"about"` // one sentence: what is going on
	Where  string  `json:"where"` // stay of the route it is taken from, or ""
	SoC    float64 `json:"soc"`   // bank at the start
	BankC  float64 `json:"bank_temp_c"`
	AirC   float64 `json:"air_c"`
	Hours  float64 `json:"hours"`
	Sun    bool    `json:"sun"`
	Mains  bool    `json:"mains"`
	Drives bool    `json:"driving"`
	Home   bool    `json:"somebody_home"` // someone is there to hear an alarm
}

// Fault is one thing that can go wrong, made from what the rig has.
type Fault struct {
	Name   string `json:"name"`   // "roof solar: stuck at full output"
	Device string `json:"device"` // the part of the rig, or "group 4"
	Kind   string `json:"kind"`   // "stuck source", "welded contact", ...
	How    string `json:"how"`    // how it is simulated, one sentence
	Tells  bool   `json:"tells"`  // it shows itself at once (a light goes out), before it does harm
}

// Guard is a protective function. Two functions count as two layers only when
// they share neither sensor, logic nor switch.
type Guard struct {
	Name     string   `json:"name"`  // "cell meter: high alarm"
	Layer    string   `json:"layer"` // of fit's ladder: "alarm high", or "frost", "heat"
	Device   string   `json:"device"`
	Sensor   string   `json:"sensor"`
	Logic    string   `json:"logic"`
	Switch   string   `json:"switch"` // "" when it only warns
	SharesBy []string `json:"shares"` // with which other guards and what, in words
}

// Verdict is how a run ended.
type Verdict string

// The verdicts, worst first.
const (
	Harm     Verdict = "harm"     // a cell left its safe window, or was charged in frost
	Near     Verdict = "near"     // it stayed inside by less than the tolerance of the last layer
	Caught   Verdict = "caught"   // a layer acted in time
	Nuisance Verdict = "nuisance" // no cell was in danger, but power was lost needlessly
	None     Verdict = "none"     // nothing had to act, and nothing was lost
)

// Outcome is what happened in one run.
type Outcome struct {
	Fault      string  `json:"fault"`
	Second     string  `json:"second,omitempty"` // the other fault of a pair
	Scene      string  `json:"scene"`
	Outcome    Verdict `json:"outcome"`
	Harm       string  `json:"harm,omitempty"` // which limit: "cell high", "cell low", "frost charge", "cell hot", "current"
	FirstLayer string  `json:"first_layer"`    // the first that acted, "" when none
	FirstAt    float64 `json:"first_after_s"`
	Acts       []Act   `json:"acts"`         // every layer that acted, in order
	WorstV     float64 `json:"worst_cell_v"` // of the cell that came nearest to harm
	MarginMV   float64 `json:"margin_mv"`    // to harm; negative beyond it
	Side       string  `json:"side"`         // "high" or "low": which way it was nearest
	HighV      float64 `json:"highest_cell_v"`
	LowV       float64 `json:"lowest_cell_v"`
	HotC       float64 `json:"hottest_c"`
	ColdC      float64 `json:"coldest_c"`
	FrostAh    float64 `json:"frost_charge_ah"`  // charged at or below the cell's frost limit
	PeakShare  float64 `json:"worst_cell_share"` // current of the hardest-driven cell over an equal share; 1 when all carry alike
	HarmAt     float64 `json:"harm_after_s"`     // -1 when no harm
	AlarmAt    float64 `json:"alarm_after_s"`    // first alarm or sign a person would notice; -1 when none
	ReactS     float64 `json:"time_to_react_s"`  // from that sign to harm; -1 when one of them did not come
	LostPower  bool    `json:"lost_power"`       // loads went without, or a source or the heater was kept off, although no cell was in danger
	Silent     bool    `json:"silent"`           // nothing told the person before it mattered, or ever
	GapWh      float64 `json:"energy_gap_wh"`    // of the energy books of this run
}

// Act is one layer that acted.
type Act struct {
	At     float64 `json:"after_s"`
	Layer  string  `json:"layer"`
	Device string  `json:"device"`
	Did    string  `json:"did"` // "stopped roof solar", "opened main contactor", "sounded"
}

// Pairs sums up all pairs of faults.
type Pairs struct {
	Runs     int     `json:"runs"`
	Faults   int     `json:"pairs"` // pairs of faults, each in every scene
	Harm     int     `json:"harm"`  // runs
	Near     int     `json:"near"`
	Caught   int     `json:"caught"`
	Nuisance int     `json:"nuisance"`
	Groups   []Group `json:"groups"` // those that reach harm, by common cause
}

// Group is the pairs that reach harm for one reason.
type Group struct {
	Cause    string      `json:"cause"`  // "the only thing that stops charging in frost has failed"
	Common   string      `json:"common"` // the fault or device they share
	Harm     string      `json:"harm"`
	Pairs    [][2]string `json:"pairs"`
	Scenes   []string    `json:"scenes"`
	Silent   bool        `json:"silent"` // one of the two goes unnoticed until the other comes
	Worst    Outcome     `json:"worst"`
	Addition string      `json:"addition"` // the least that covers it, tried; "" when none of those tried does
}

// Uncovered is one or two faults that reach harm.
type Uncovered struct {
	Faults   []string `json:"faults"`
	Scenes   []string `json:"scenes"`
	Harm     string   `json:"harm"`
	Silent   bool     `json:"silent"`
	Addition string   `json:"addition"`
}

// Addition is a change that was tried by running the same faults with it.
type Addition struct {
	Name    string   `json:"name"`   // "a second frost switch on the chargers' stop line"
	About   string   `json:"about"`  // what it must not share with what is there
	Covers  int      `json:"covers"` // runs that reached harm and no longer do
	Of      int      `json:"of"`     // runs that reach harm without it
	Causes  []string `json:"covers_causes"`
	Creates int      `json:"creates"`     // runs that reach harm only with it: its own faults are drilled too
	Loss    int      `json:"loses_power"` // runs in which it takes power needlessly
}

// Margin is how far one set-point can drift before an outcome changes.
type Margin struct {
	Device  string  `json:"device"`
	Setting string  `json:"setting"`
	Path    string  `json:"path"` // in the rig file
	Value   float64 `json:"value"`
	Unit    string  `json:"unit"` // SI
	Down    float64 `json:"down"` // drift downwards that changes nothing; the next step tried does
	Up      float64 `json:"up"`
	DownTo  string  `json:"down_changes"` // what changes then: "dead cell meter in full sun: caught becomes near"; "" when nothing within the range tried
	UpTo    string  `json:"up_changes"`
	Range   float64 `json:"range"`     // drift tried either way
	Tol     float64 `json:"tolerance"` // of the device, same unit
}

// Rehearsal is a test that can be done for real at commissioning without harm.
type Rehearsal struct {
	Name   string   `json:"name"`
	Tests  string   `json:"tests"` // which guard
	Before []string `json:"before"`
	Steps  []string `json:"steps"`
	Expect string   `json:"expect"`
	Stop   string   `json:"stop"`  // when to break off
	After  []string `json:"after"` // set back, with the values
}

// Strip is the trace of one run, thinned for drawing.
type Strip struct {
	Fault  string    `json:"fault"`
	Second string    `json:"second,omitempty"`
	Scene  string    `json:"scene"`
	Out    Outcome   `json:"outcome"`
	Time   []float64 `json:"time_s"`
	HighV  []float64 `json:"highest_cell_v"`
	LowV   []float64 `json:"lowest_cell_v"`
	BankA  []float64 `json:"bank_a"`
	BusV   []float64 `json:"bus_v"`
	ColdC  []float64 `json:"coldest_c"`
	HotC   []float64 `json:"hottest_c"`
	SoC    []float64 `json:"soc"`
	HarmLo float64   `json:"harm_low_v"` // the limits behind
	HarmHi float64   `json:"harm_high_v"`
	FrostC float64   `json:"frost_limit_c"`
	HotMax float64   `json:"heat_limit_c"`
}

// Options say how far to drill.
type Options struct {
	NoPairs     bool // single faults only
	NoAdditions bool
	NoMargins   bool
	Workers     int                   // 0: as many as there are processors
	Progress    func(done, total int) // may be nil; called from one goroutine at a time
}
