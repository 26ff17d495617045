package history

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"regexp"
	"strconv"
	"time"
)

// Kind says how a version came about.
type Kind string

// The kinds.
const (
	Begin   Kind = "begin"   // the first that was kept
	Edit    Kind = "edit"    // saved by Ampstead
	Undo    Kind = "undo"    // the version before an edit, put back
	Redo    Kind = "redo"    // an edit that was undone, done again
	Back    Kind = "back"    // some version, put back
	Outside Kind = "outside" // found in the file: another program wrote it
)

// returns reports whether a version of this kind puts another one back.
func (k Kind) returns() bool { return k == Undo || k == Redo || k == Back }

// Version is one kept content of a rig file.
type Version struct {
	Number int       // rises by at least one from version to version
	Time   time.Time // when it was kept, UTC, to the second
	Kind   Kind
	Of     int    // number of the version it puts back; 0 for other kinds
	Name   string // of its file in the folder

	sum string // of its text
}

// Strange is a file in the folder that is no version, or no longer the one it was.
// It is left alone.
type Strange struct {
	Name string
	Why  string
}

// mostNumber bounds what counts as a number: nine digits, which an int of 32 bits holds.
const mostNumber = 999_999_999

const stampLayout = "2006-01-02T15-04-05Z"

var namePattern = regexp.MustCompile(`^(\d{6,9})_(\d{4}-\d\d-\d\dT\d\d-\d\d-\d\dZ)_(?:(begin|edit|outside)|(undo|redo|back)-(\d{1,9}))_([0-9a-f]{12})\.yaml$`)

// newVersion names a version.
func newVersion(number int, text []byte, mark Mark, now time.Time) Version {
	v := Version{Number: number, Time: now.UTC().Truncate(time.Second), Kind: mark.Kind, sum: sumOf(text)}
	kind := string(mark.Kind)
	if mark.Kind.returns() {
		v.Of = mark.Of
		kind = fmt.Sprintf("%s-%d", mark.Kind, mark.Of)
	}
	v.Name = fmt.Sprintf("%06d_%s_%s_%s.yaml", number, v.Time.Format(stampLayout), kind, v.sum)
	return v
}

// parseName reads the name of a version's file.
func parseName(name string) (Version, bool) {
	m := namePattern.FindStringSubmatch(name)
	if m == nil {
		return Version{}, false
	}
	at, err := time.Parse(stampLayout, m[2])
	number, err2 := strconv.Atoi(m[1])
	if err != nil || err2 != nil || number < 1 {
		return Version{}, false
	}
	v := Version{Number: number, Time: at, Kind: Kind(m[3] + m[4]), Name: name, sum: m[6]}
	if m[5] != "" {
		if v.Of, err = strconv.Atoi(m[5]); err != nil || v.Of < 1 || v.Of >= number {
			return Version{}, false
		}
	}
	return v, true
}

func sumOf(text []byte) string {
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:6])
}
