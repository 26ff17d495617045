package completion

import (
	"strings"

	"github.com/alecthomas/kong"
)

// What a value can be, as the tag complete names it.
const (
	kindRig    = "rig"    // a folder that holds rig.yaml, or the file
	kindFile   = "file"   // any file
	kindFolder = "folder" // any folder
	kindNone   = "none"   // whatever a person types
)

// values lists what v may be.
func (p *place) values(v *kong.Value, typed string) Answer {
	if v.Enum != "" {
		return Answer{Candidates: enum(v)}
	}
	kind := kindOf(v)
	if source := p.sources[kind]; source != nil {
		return Answer{Candidates: source(p.given)}
	}
	if kind == kindNone {
		return Answer{}
	}
	return Answer{Paths: true, Candidates: paths(typed, kind)}
}

func enum(v *kong.Value) []Candidate {
	var list []Candidate
	for _, word := range v.EnumSlice() {
		if word != "" {
			list = append(list, Candidate{Word: word})
		}
	}
	return list
}

// kindOf reads the tag, or else the placeholder of a flag or the name of an argument.
func kindOf(v *kong.Value) string {
	if v.Tag.Has("complete") {
		return v.Tag.Get("complete")
	}
	name := v.Name
	if v.Flag != nil {
		name = strings.ToLower(v.Flag.PlaceHolder)
	}
	switch {
	case name == kindFolder, name == kindRig, name == kindFile:
		return name
	case v.Flag == nil && (strings.Contains(name, "log") || strings.Contains(name, kindFile)):
		return kindFile
	case v.Flag == nil && strings.Contains(name, kindRig):
		return kindRig
	}
	return kindNone
}
