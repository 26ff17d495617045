package source

// Standing says how a fact reached this program.
type Standing string

// The standings, from firm to weak.
const (
	Read       Standing = "read in the source"
	SecondHand Standing = "second hand"
	Computed   Standing = "computed from the stated equation"
	Derived    Standing = "derived here"
	Practice   Standing = "common practice, no source"
	Memory     Standing = "from memory, unconfirmed"
)

// Source is one publication, data set or habit a fact rests on.
type Source struct {
	Key      string   // short and unique, "chen-2020"
	Text     string   // full citation as printed in the book
	Standing Standing // how it was read
}

// Weak reports whether a fact resting on s needs a warning beside it.
func (s Source) Weak() bool { return s.Standing == Memory || s.Standing == Practice }
