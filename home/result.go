package home

import (
	"time"

	"ampstead/finding"
)

// Result is where a rig stands.
type Result struct {
	Name   string   `json:"-"`
	Note   string   `json:"note,omitempty"`    // the owner's own words about it
	Bank   string   `json:"bank"`              // one sentence: what it is
	Today  []Act    `json:"today"`             // at most five, most urgent first
	Stages []Stage  `json:"stages"`            // the seven, in the order of the job
	Unsaid []string `json:"not_asked_yet"`     // stages that have found nothing because they were not reckoned
	Before []Act    `json:"before_connecting"` // what remains to be done by hand however few findings there are

	Findings []Found `json:"-"` // of all stages, most urgent first; what two found alike stands there once
	Damage   *Damage `json:"damage,omitempty"`
}

// Standing says in one word how a stage stands.
type Standing string

// The standings.
const (
	Stop    Standing = "stop"    // it found what forbids connecting
	Mend    Standing = "mend"    // it found what is worth mending
	Due     Standing = "due"     // it waits for the person, by a date
	Open    Standing = "open"    // it was not done yet
	Running Standing = "running" // it is being reckoned
	Lacking Standing = "lacking" // it cannot be reckoned: something is missing
	Done    Standing = "done"    // it was done, and nothing of it is open
)

// Words says a standing to a person.
func (s Standing) Words() string {
	switch s {
	case Stop:
		return "to stop for"
	case Mend:
		return "worth mending"
	case Due:
		return "due"
	case Open:
		return "not done yet"
	case Running:
		return "being reckoned"
	case Lacking:
		return "something is missing"
	}
	return "nothing open"
}

// Stage is one of the seven.
type Stage struct {
	Name     string    `json:"stage"`
	Question string    `json:"question"`
	State    string    `json:"state"` // a phrase, without a capital or a full stop
	Standing Standing  `json:"standing"`
	Next     Act       `json:"next"`
	At       time.Time `json:"reckoned,omitzero"` // when; zero when it is not known, or comes with the file
}

// Act is one thing to do.
type Act struct {
	Do    string `json:"do"`              // a sentence
	Why   string `json:"why,omitempty"`   // a sentence
	Stage string `json:"stage,omitempty"` // where it is done: a stage, "rig" or "book"
	Part  string `json:"part,omitempty"`  // the part of that stage's page
	Path  string `json:"path,omitempty"`  // or a place in the rig file

	urgency urgency
}

// Found is a finding with the stages that found it.
type Found struct {
	finding.Finding
	Head string   // the first of it, short enough for one line or two
	By   []string // stages
}

// Damage is the first mistake of a file that cannot be reckoned with.
type Damage struct {
	Line    int    `json:"line"` // 0 when not known
	Path    string `json:"path,omitempty"`
	Message string `json:"message"`
	Hint    string `json:"hint,omitempty"`
	More    int    `json:"more"` // further mistakes
}

// Count is how many findings there are of a severity.
func (r *Result) Count(s finding.Severity) int {
	n := 0
	for _, f := range r.Findings {
		if f.Severity == s {
			n++
		}
	}
	return n
}

// Stage returns the stage of a name; one that is none of the seven is empty.
func (r *Result) Stage(name string) Stage {
	for _, s := range r.Stages {
		if s.Name == name {
			return s
		}
	}
	return Stage{}
}

// Reckoning reports whether a stage is being reckoned.
func (r *Result) Reckoning() bool {
	for _, s := range r.Stages {
		if s.Standing == Running {
			return true
		}
	}
	return false
}
