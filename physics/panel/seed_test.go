package panel

import "flag"

// Property tests draw the same values on every run; -rapid.seed=0 draws anew.
func init() {
	if err := flag.Set("rapid.seed", "1"); err != nil {
		panic(err)
	}
}
