package wire

import (
	"ampstead/figure"
	"ampstead/finding"
)

// Result is everything wire finds out about a rig.
type Result struct {
	TopV     float64 `json:"top_voltage_v"` // highest the bank is ever charged to: what every part must bear
	NominalV float64 `json:"nominal_voltage_v"`
	LowV     float64 `json:"low_voltage_v"` // lowest it is ever drawn down to

	ShortA       float64 `json:"short_circuit_a"`        // whole bank, full and warm, at its terminals
	StringShortA float64 `json:"string_short_circuit_a"` // what the fuse of one string meets; equals short_circuit_a with one string
	BankOhm      float64 `json:"short_circuit_ohm"`      // of the bank in that short, without cables

	Nodes        []Node       `json:"nodes"`         // everything on the one-line diagram
	Circuits     []Circuit    `json:"circuits"`      // every run between two of them, from the bank outwards
	Fuses        []Fuse       `json:"fuses"`         // given and proposed
	Coordination []Pair       `json:"coordination"`  // fuses in series
	Contactors   []Contactor  `json:"contactors"`    // each switch and its duty
	PreCharge    *PreCharge   `json:"pre_charge"`    // null when nothing with capacitors is fed
	Heater       *Heater      `json:"heater"`        // null without one
	Strings      []String     `json:"strings"`       // panel strings
	Arrays       []Array      `json:"arrays"`        // the strings of one charger together
	Supplies     []Supply     `json:"supplies"`      // converters and inverters
	Parts        []Part       `json:"parts"`         // what to buy
	Totals       []CableTotal `json:"cable_totals"`  // metres of conductor by size
	Steps        []Step       `json:"commissioning"` // what to measure before closing each point, in order
	Assumed      []string     `json:"assumed"`       // what the file does not say and was taken

	Findings []finding.Finding `json:"-"` // top-level key of every stage
	Uses     []figure.Use      `json:"-"` // every figure used, in order
}

// Kinds of node.
const (
	KindModules   = "modules"   // the modules of the bank, before they are joined
	KindBank      = "bank"      // the bank's terminals
	KindBus       = "bus"       // the bus bars
	KindCharger   = "charger"   // solar, mains or alternator
	KindPanels    = "panels"    // the strings of one kind on a charger
	KindConverter = "converter" // dc converter
	KindInverter  = "inverter"  // mains inverter
	KindHeater    = "heater"    // heater pad
	KindLoad      = "load"      // an appliance
	KindOther     = "device"    // anything else a cable leads to
)

// Node is one thing on the one-line diagram. A contactor is not a node: it stands
// in a circuit, as a fuse does.
type Node struct {
	Name   string `json:"name"`
	Kind   string `json:"kind"`
	Detail string `json:"detail"`         // its rating in words, "3000 W, 6000 W for seconds"
	Path   string `json:"path,omitempty"` // in the rig file
}

// Circuit is one run of two conductors, out and back, of equal length and size.
// Current flows at most CurrentA in it, for long.
type Circuit struct {
	Name     string `json:"name"`
	Path     string `json:"path,omitempty"` // in the rig file; empty when it is proposed here
	Proposed bool   `json:"proposed"`       // the file has no such cable
	From     string `json:"from"`           // name of a node, on the bank's side
	To       string `json:"to"`
	Count    int    `json:"count"` // equal runs side by side

	LengthM       float64 `json:"length_m"` // one way
	LengthAssumed bool    `json:"length_assumed"`
	CurrentA      float64 `json:"current_a"`       // largest for long
	CurrentBasis  string  `json:"current_basis"`   // "rating of roof solar", "peak of the year"
	DropCurrentA  float64 `json:"drop_current_a"`  // the drop is reckoned at: a simulated peak, or current_a
	SurgeA        float64 `json:"surge_a"`         // for seconds; equals current_a when nothing starts hard
	AtV           float64 `json:"at_voltage_v"`    // voltage the current was reckoned at
	OfV           float64 `json:"drop_of_v"`       // voltage the percents are of
	InsulationC   float64 `json:"insulation_c"`    // temperature rating
	LugsC         float64 `json:"lugs_c"`          // temperature rating of lugs and terminals
	AmbientC      float64 `json:"ambient_c"`       // hottest air around it
	Place         string  `json:"place"`           // open, enclosed or engine
	Bundle        int     `json:"bundle"`          // conductors lying together
	CopperC       float64 `json:"copper_c"`        // temperature at that current
	Size          string  `json:"size"`            // as in the file; proposed here when it has none
	AreaMM2       float64 `json:"area_mm2"`        // of one conductor
	AmpacityA     float64 `json:"ampacity_a"`      // with every correction
	AmpacityBasis string  `json:"ampacity_basis"`  // table, column, corrections
	AmpacityWeak  bool    `json:"ampacity_weak"`   // rests on a remembered or derived figure
	LoopOhm       float64 `json:"resistance_ohm"`  // out and back, at copper_c
	DropV         float64 `json:"drop_v"`          // of this run, exact
	DropPercent   float64 `json:"drop_percent"`    //
	TradeDropV    float64 `json:"trade_drop_v"`    // of this run, by the trade's formula
	WayPercent    float64 `json:"way_percent"`     // from the bank to the end of this run
	DropLimit     float64 `json:"drop_limit"`      // percent allowed on the way: 3 or 10
	SmallestSize  string  `json:"smallest_size"`   // smallest that satisfies every rule, "" when none does
	DecidedBy     string  `json:"decided_by"`      // the rule that asks for that size
	Rules         []Need  `json:"rules"`           // the smallest size each rule asks for
	ShortStartA   float64 `json:"short_circuit_a"` // prospective current where the run begins
	WithstandS    float64 `json:"withstand_s"`     // how long the conductor bears that

	FuseName     string  `json:"fuse,omitempty"`     // of the file; empty when it is proposed
	FuseProposed bool    `json:"fuse_proposed"`      // the file has none at its beginning
	FuseShared   bool    `json:"fuse_shared"`        // the fuse before it is small enough for this run too
	FuseA        float64 `json:"fuse_a"`             // 0 when none belongs here
	FuseClass    string  `json:"fuse_class"`         //
	FuseLowA     float64 `json:"fuse_least_a"`       // 1.25 times the current
	FuseHighA    float64 `json:"fuse_most_a"`        // what conductor and device bear
	InterruptA   float64 `json:"interrupt_needed_a"` // what its fuse must interrupt
	SwitchName   string  `json:"switch,omitempty"`   // contactor in this run

	How []figure.Use `json:"-"`
}

// Need is the smallest size that one rule asks for.
type Need struct {
	Rule string `json:"rule"` // "ampacity", "voltage drop", "protection by its fuse", ...
	Size string `json:"size"` // "" when even the largest is too small
	Why  string `json:"why"`
}

// Fuse is a fuse or breaker, given or proposed.
type Fuse struct {
	Name           string       `json:"name"`
	Path           string       `json:"path,omitempty"`
	Proposed       bool         `json:"proposed"`
	Circuit        string       `json:"circuit"` // name of the circuit it stands at the beginning of
	Count          int          `json:"count"`   // one in each string
	Class          string       `json:"class"`
	RatingA        float64      `json:"rating_a"`
	VoltageNeededV float64      `json:"voltage_needed_v"`
	VoltageV       float64      `json:"rated_voltage_v"` // 0 when the file does not say
	InterruptA     float64      `json:"interrupt_a"`     // 0 when the file does not say
	NeededA        float64      `json:"interrupt_needed_a"`
	LeastA         float64      `json:"least_a"`    // 1.25 times the continuous current
	MostA          float64      `json:"most_a"`     // what the conductor bears
	BestA          float64      `json:"standard_a"` // standard size between the two, 0 when there is none
	BestClass      string       `json:"standard_class"`
	DistanceM      float64      `json:"distance_m"` // -1 when the file does not say
	DistanceMostM  float64      `json:"distance_most_m"`
	How            []figure.Use `json:"-"`
}

// Pair is two fuses in series, the inner one nearer to the bank.
type Pair struct {
	Proposed   bool    `json:"proposed"` // one of them is not in the file
	Inner      string  `json:"inner"`
	Outer      string  `json:"outer"`
	Ratio      float64 `json:"ratio"`        // inner over outer rating
	NeedsRatio float64 `json:"needs_ratio"`  // 0 when no published rule speaks of the two classes
	OuterFirst bool    `json:"clears_first"` // does the outer one clear alone
	Why        string  `json:"why"`
}

// Contactor is a switch and its duty.
type Contactor struct {
	Name        string       `json:"name"`
	Path        string       `json:"path"`
	Circuit     string       `json:"circuit"`
	CurrentA    float64      `json:"current_a"`    // for long, the larger direction
	ContinuousA float64      `json:"continuous_a"` // its rating, 0 when not given
	SurgeA      float64      `json:"surge_a"`
	BreakA      float64      `json:"break_a"`        // what it can interrupt, 0 when not given
	BreakNeedA  float64      `json:"break_needed_a"` // most it may be told to interrupt
	Discharge   float64      `json:"discharge_a"`
	Charge      float64      `json:"charge_a"`
	Polarised   bool         `json:"polarised"`
	CoilW       float64      `json:"coil_w"`
	CoilWhDay   float64      `json:"coil_wh_per_day"`
	How         []figure.Use `json:"-"`
}

// PreCharge is the resistor that fills the capacitors before the contactor closes.
type PreCharge struct {
	Contactor    string       `json:"contactor"`
	VoltageV     float64      `json:"voltage_v"`
	CapacitanceF float64      `json:"capacitance_f"`
	Assumed      bool         `json:"capacitance_assumed"`
	GivenOhm     float64      `json:"given_ohm"` // of the file, 0 when it has none
	Ohm          float64      `json:"resistance_ohm"`
	TimeS        float64      `json:"time_s"`
	Fraction     float64      `json:"fraction"`
	PeakA        float64      `json:"peak_a"`
	PeakW        float64      `json:"peak_w"`
	EnergyJ      float64      `json:"energy_j"`
	PulseRatingJ float64      `json:"pulse_rating_j"` // energy with margin
	StepV        float64      `json:"closing_step_v"` // difference left when the contactor closes
	InrushA      float64      `json:"closing_a"`      // and the current it drives
	WithoutA     float64      `json:"without_a"`      // inrush without pre-charge
	IdleHolds    bool         `json:"idle_holds"`     // an inverter left on keeps its capacitors below that fraction: switch it off first
	How          []figure.Use `json:"-"`
}

// Heater is the pad that warms the bank.
type Heater struct {
	Name        string       `json:"name"`
	PowerW      float64      `json:"power_w"`
	Supply      string       `json:"supply"`
	CurrentA    float64      `json:"current_a"`
	AreaCM2     float64      `json:"area_cm2"` // 0 when not known
	AreaAssumed bool         `json:"area_assumed"`
	DensityWCM2 float64      `json:"density_w_cm2"` // 0 when the area is not known
	MostWCM2    float64      `json:"density_most_w_cm2"`
	LeastCM2    float64      `json:"least_area_cm2"` // the area its power asks for
	FuseA       float64      `json:"fuse_a"`
	How         []figure.Use `json:"-"`
}

// String is one string of panels.
type String struct {
	Charger      string       `json:"charger"`
	Name         string       `json:"name"`
	Path         string       `json:"path"`
	Series       int          `json:"series"`
	Parallel     int          `json:"parallel"`
	ColdestC     float64      `json:"coldest_c"`
	ColdestAt    string       `json:"coldest_at"` // name of the stay
	OpenV        float64      `json:"open_v"`     // at 25 °C
	TableV       float64      `json:"table_v"`    // coldest, by table
	CoefficientV float64      `json:"coefficient_v"`
	CoefGiven    bool         `json:"coefficient_given"`
	ColdV        float64      `json:"cold_v"`      // the higher of the two
	LimitV       float64      `json:"limit_v"`     // of the charger's input, 0 when not given
	Passes       bool         `json:"passes"`      // stays within the limit
	MostSeries   int          `json:"most_series"` // panels in series the limit allows
	HotV         float64      `json:"hot_v"`       // at peak power on a hot roof, 0 when not known
	NeedV        float64      `json:"need_v"`      // what the charger needs to fill the bank
	ShortA       float64      `json:"short_a"`     // one string, 0 when not known
	FuseA        float64      `json:"fuse_a"`      // in each string, 0 when none is needed
	How          []figure.Use `json:"-"`
}

// Array is all strings on one charger.
type Array struct {
	Charger  string       `json:"charger"`
	Path     string       `json:"path"`
	Strings  int          `json:"strings"` // in parallel
	ShortA   float64      `json:"short_a"`
	DesignA  float64      `json:"design_a"`    // 1.25 times that
	CableA   float64      `json:"conductor_a"` // and again 1.25 for conductor and fuse
	LimitA   float64      `json:"limit_a"`     // of the charger's input, 0 when not given
	Passes   bool         `json:"passes"`
	PowerW   float64      `json:"power_w"`
	OutputA  float64      `json:"output_a"`  // power at the bank's low voltage, times 1.25
	ChargerA float64      `json:"charger_a"` // what the charger gives at most
	How      []figure.Use `json:"-"`
}

// Supply is a converter or inverter against what is asked of it.
type Supply struct {
	Name          string  `json:"name"`
	Kind          string  `json:"kind"` // converter or inverter
	Path          string  `json:"path"`
	RatedW        float64 `json:"rated_w"`
	SurgeW        float64 `json:"surge_w"`         // equals rated_w when not given
	DemandW       float64 `json:"demand_w"`        // everything on it at once
	StartW        float64 `json:"start_w"`         // with the hardest start on top
	LargestW      float64 `json:"largest_w"`       // of the largest single load
	LargestStartW float64 `json:"largest_start_w"` // of the hardest start alone, 0 when none is given
	InputLowV     float64 `json:"input_low_v"`
	InputHighV    float64 `json:"input_high_v"`
	BearsTop      bool    `json:"bears_top"` // the input bears the top of the bank; fit checks its lower end and its cut-off
	InputA        float64 `json:"input_a"`   // at the lowest voltage it works at
	SurgeA        float64 `json:"surge_a"`
	Passes        bool    `json:"passes"`
}

// Part is a line of the parts list.
type Part struct {
	Item     string   `json:"item"`
	Spec     string   `json:"spec"`
	Quantity float64  `json:"quantity"`
	Unit     string   `json:"unit"` // "piece", "pair" or "m"
	For      []string `json:"for"`  // circuits or devices
	Have     bool     `json:"have"` // the file already has it and it stays
}

// CableTotal is all conductor of one size and insulation.
type CableTotal struct {
	Size        string   `json:"size"`
	InsulationC float64  `json:"insulation_c"`
	LengthM     float64  `json:"length_m"` // both conductors of every run
	OrderM      float64  `json:"order_m"`  // with a tenth to spare, in whole half metres
	Runs        int      `json:"runs"`
	For         []string `json:"for"` // circuits
}

// Step is one measurement before a point is closed. Low and High bound what a
// sound rig shows; a reading outside means: do not close, find out why. With
// AtLeast there is no upper bound, and High equals Low.
type Step struct {
	Before  string       `json:"before"` // what is closed afterwards, "main fuse in"
	Where   string       `json:"where"`  // between which points
	What    string       `json:"what"`   // what is measured and how
	Low     float64      `json:"low"`
	High    float64      `json:"high"`
	AtLeast bool         `json:"at_least"`
	Unit    string       `json:"unit"` // V, A or Ω
	Why     string       `json:"why"`
	How     []figure.Use `json:"-"`
}
