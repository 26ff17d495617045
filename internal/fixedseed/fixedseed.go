// Package fixedseed makes property tests draw the same values on every run. A
// test package imports it for its effect; -rapid.seed=0 on the command line
// draws anew.
//
// May import: the standard library and rapid. For tests.
package fixedseed

import (
	"flag"

	_ "pgregory.net/rapid" // registers the flag
)

func init() {
	if err := flag.Set("rapid.seed", "1"); err != nil {
		panic(err)
	}
}
