package quantity

import "fmt"

// Error is a text that is not a quantity of the wanted dimension.
type Error struct {
	Text string // as written
	Why  string // what is wrong with it, after the text: "has no unit"
	Want string // what was expected, with an example: `a voltage such as "28.8 V"`
}

// Error shows at most the first 60 characters of what was written.
func (e *Error) Error() string {
	return fmt.Sprintf("%.60q %s; expected %s", e.Text, e.Why, e.Want)
}
