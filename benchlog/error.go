package benchlog

import (
	"fmt"
	"strings"
)

// Error is a file, or an option, that cannot be understood at all. Line and
// Column count from 1 and are 0 where they do not apply; Column counts fields.
type Error struct {
	File     string `json:"file"`
	Line     int    `json:"line"`
	Column   int    `json:"column"`
	Message  string `json:"message"`  // what is wrong
	Expected string `json:"expected"` // what belongs there
	Example  string `json:"example"`  // something a person could write
}

// Error writes the problem on one line, place first.
func (e *Error) Error() string {
	var b strings.Builder
	b.WriteString(e.File)
	for _, n := range []int{e.Line, e.Column} {
		if n > 0 {
			fmt.Fprintf(&b, ":%d", n)
		}
	}
	fmt.Fprintf(&b, ": %s", e.Message)
	if e.Expected != "" {
		fmt.Fprintf(&b, "; expected %s", e.Expected)
	}
	if e.Example != "" {
		fmt.Fprintf(&b, ", for example %s", e.Example)
	}
	return b.String()
}
