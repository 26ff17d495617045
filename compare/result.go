package compare

import (
	"encoding/json"

	"ampstead/finding"
	"ampstead/rig"
)

// Result is how one rig differs from another.
type Result struct {
	Was     Side          `json:"was"`
	Is      Side          `json:"is"`
	Changes []rig.Changed `json:"changes"`   // in the file, in its order
	Same    bool          `json:"same_text"` // the files are equal to the byte

	Stages   []string `json:"stages"`        // reckoned for both
	Missing  []Gap    `json:"not_reckoned"`  // what could not be, and why
	Findings Findings `json:"findings"`      // of the stages reckoned for both
	Rows     []Row    `json:"results"`       // by stage
	Notes    []string `json:"what_it_means"` // what the comparison rests on
}

// Side is one of the two.
type Side struct {
	Name string `json:"name"` // of the rig
	File string `json:"file"`
	Stop int    `json:"stop"` // findings of the stages reckoned for both
	Care int    `json:"care"`
	Note int    `json:"note"`
}

// Gap is a stage that could not be reckoned for one of the two.
type Gap struct {
	Stage    string `json:"stage"`
	Side     string `json:"side"` // "was" or "is"
	Path     string `json:"path"` // in that rig file
	Message  string `json:"message"`
	Expected string `json:"expected"`
	Example  string `json:"example"`
}

// Findings are those of the two, matched by rule and place.
type Findings struct {
	Gone    []finding.Finding `json:"gone"`
	New     []finding.Finding `json:"new"`
	Changed []Pair            `json:"changed"` // in severity
	Same    []Pair            `json:"same"`    // their numbers may differ
}

// Pair is one finding on both sides.
type Pair struct {
	Was finding.Finding `json:"was"`
	Is  finding.Finding `json:"is"`
}

// The stages.
const (
	Fit    = "fit"
	Wire   = "wire"
	Travel = "travel"
	Drill  = "drill"
)

// Better says which way of a result is the better one.
type Better string

// The ways.
const (
	More    Better = "more"
	Less    Better = "less"
	Neither Better = ""
)

// Turn says what became of a result.
type Turn string

// What may become of it. A difference that does not show in the digits a person
// reads is none.
const (
	Kept    Turn = "same"
	Gained  Turn = "better"
	Lost    Turn = "worse"
	Other   Turn = "other" // neither way is better
	Came    Turn = "new"   // one side has no such result
	Went    Turn = "gone"
	Missing Turn = "" // neither has
)

// Row is one result on both sides.
type Row struct {
	Stage  string `json:"stage"`
	Key    string `json:"key"`
	What   string `json:"what"`
	Unit   string `json:"unit"` // SI; "" for counts, shares and words
	Was    Value  `json:"was"`
	Is     Value  `json:"is"`
	Better Better `json:"better"`
	Turn   Turn   `json:"turn"`

	show format
}

// Value is a number, a word such as "off", or nothing.
type Value struct {
	Known  bool
	Number float64
	Word   string // in place of the number when not ""
}

// MarshalJSON writes a number, a string or null.
func (v Value) MarshalJSON() ([]byte, error) {
	switch {
	case !v.Known:
		return []byte("null"), nil
	case v.Word != "":
		return json.Marshal(v.Word)
	}
	return json.Marshal(v.Number)
}

// Differs reports whether a person would see a difference.
func (r Row) Differs() bool { return r.Turn != Kept && r.Turn != Missing }
