package setpoint

import (
	"fmt"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// Span is what may stay as it is set, and what is set otherwise, in s.
type Span struct{ Least, Most, Else float64 }

// Times that are habits, s.
var (
	HighDelay     = Span{1, 2, 2}          // of a voltage relay: at the top there is no time to lose
	LowDelay      = Span{10, 30, 10}       // long enough for a motor to start
	AbsorbLithium = Span{1800, 3600, 3600} // the longest at the charge voltage
	AbsorbAcid    = Span{7200, 14400, 7200}
)

// spans are the times by what they are for.
var spans = map[string]Span{"relay high": HighDelay, "relay low": LowDelay, "absorption lithium": AbsorbLithium, "absorption lead-acid": AbsorbAcid}

// SettingTime is "setting-time".
var SettingTime = &figure.Figure{
	Name:    "setting-time",
	Answers: "How long may a relay wait, or a charger hold its charge voltage?",
	Inputs:  []figure.Input{{Name: "of", Doc: "relay high, relay low, absorption lithium or absorption lead-acid", Example: "relay high"}},
	Outputs: []figure.Output{
		{Key: "least_s", Dim: quantity.Seconds, Doc: "what is set today stays from here"},
		{Key: "most_s", Dim: quantity.Seconds, Doc: "to here"},
		{Key: "else_s", Dim: quantity.Seconds, Doc: "set otherwise"},
	},
	Equation: "a time of today between least and most is kept; anything else becomes else. " +
		"relay high: 1 to 2 s, else 2 s. relay low: 10 to 30 s, else 10 s. absorption lithium: 30 to 60 min, else 60 min. absorption lead-acid: 2 to 4 h, else 2 h",
	Source: source.SettingHabit,
	Range:  "what a cell does meanwhile is counted in its layer (delay-drift)",
	Compute: func(a figure.Args) (figure.Results, error) {
		s, ok := spans[a.Text("of")]
		if !ok {
			return nil, fmt.Errorf("of %q: expected relay high, relay low, absorption lithium or absorption lead-acid", a.Text("of"))
		}
		return figure.Results{"least_s": s.Least, "most_s": s.Most, "else_s": s.Else}, nil
	},
	Checks: []figure.Check{habit("else_s", 2, "of=relay high"), habit("least_s", 10, "of=relay low"), habit("most_s", 3600, "of=absorption lithium")},
}

func habit(out string, want float64, in ...string) figure.Check {
	return figure.Check{Source: source.SettingHabit, Note: "as the rule says", In: in, Output: out, Expected: want, Tolerance: 1e-9}
}
