package choose

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"

	"ampstead/fit"
	"ampstead/life"
	"ampstead/rig"
)

// stateVersion changes when designs or what is found of them mean something else.
const stateVersion = 1

// state is a search as it is saved: what it is of, and every design tried. The
// way of the search follows from its seed, so that going on means to walk it
// again and take from here what is known.
type state struct {
	Version int      `json:"version"`
	Rig     string   `json:"rig"`   // of the rig file's content
	Asked   string   `json:"asked"` // the options that change the way
	Tried   []stored `json:"tried"`
}

// stored is one design: genes, then hours, charge, energy, years low to high.
type stored struct {
	Genes  genes      `json:"g"`
	Found  [6]float64 `json:"f"`
	Failed bool       `json:"x,omitempty"`
}

func (s *searcher) state() []byte {
	st := state{Version: stateVersion, Rig: s.key, Asked: asked(s.o), Tried: make([]stored, 0, len(s.list))}
	done := map[genes]bool{}
	for _, p := range s.list {
		done[p.genes] = true
		st.Tried = append(st.Tried, storedOf(p.genes, p.outcome))
	}
	for g, f := range s.known {
		if !done[g] {
			st.Tried = append(st.Tried, storedOf(g, f))
		}
	}
	text, err := json.Marshal(st)
	if err != nil {
		panic(err) // nothing in it can fail to be written
	}
	return text
}

func storedOf(g genes, f outcome) stored {
	return stored{g, [6]float64{f.Hours, f.SoCMin, f.UsableWh, f.Years.Low, f.Years.Middle, f.Years.High}, f.Failed}
}

// resume takes what an interrupted search left.
func (s *searcher) resume(text []byte) error {
	if len(text) == 0 {
		return nil
	}
	var st state
	if err := json.Unmarshal(text, &st); err != nil || st.Version == 0 {
		return refused("it is no saved search, or it is damaged")
	}
	switch {
	case st.Version != stateVersion:
		return refused(fmt.Sprintf("it was saved by another version of the program (%d, this is %d)", st.Version, stateVersion))
	case st.Rig != s.key:
		return refused("it is of another rig file, or the file has changed since")
	case st.Asked != asked(s.o):
		return refused(fmt.Sprintf("it was made with %s; now it is %s", st.Asked, asked(s.o)))
	}
	for _, t := range st.Tried {
		f := t.Found
		s.known[t.Genes] = outcome{Hours: f[0], SoCMin: f[1], UsableWh: f[2], Years: life.Band{Low: f[3], Middle: f[4], High: f[5]}, Failed: t.Failed}
	}
	return nil
}

func refused(why string) error {
	return &fit.InputError{Path: "resume", Message: "this search cannot be gone on with: " + why,
		Expected: "the state that a search of this rig file with the same options left, or none"}
}

// keyOf stands for everything in the rig file that a search depends on.
func keyOf(r *rig.Rig) string {
	h := sha256.New()
	for _, c := range rig.Diff(&rig.Rig{}, r) {
		fmt.Fprintf(h, "%s\x00%s\n", c.Path, c.Value)
	}
	return hex.EncodeToString(h.Sum(nil)[:16])
}

// asked are the options that change the way of a search.
func asked(o Options) string {
	return fmt.Sprintf("%d designs, seed %d, budget %g, mass %g, %g hours, %g years", o.Designs, o.Seed, o.Budget, o.Mass, o.ShortHours, o.Life)
}

func cancelled(err error) bool {
	return errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded)
}
