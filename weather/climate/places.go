package climate

import (
	"bytes"
	"cmp"
	"compress/gzip"
	_ "embed"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"sync"

	"ampstead/weather"
)

//go:embed places.txt.gz
var packedPlaces []byte

// Place is a named weather station. Its elevation comes from coarse terrain.
type Place struct {
	Name                string
	Code                string // of the station
	Latitude, Longitude float64
	Elevation           float64 // m
}

// Climate returns the climate there.
func (p Place) Climate() (weather.Monthly, error) { return At(p.Latitude, p.Longitude, p.Elevation) }

// most is how many places Find returns.
const most = 20

// Find returns the places whose name holds every word of the query, nearest in
// name first, 20 at most. Case does not matter; a station's code finds it too.
func Find(query string) ([]Place, error) {
	list, err := places()
	if err != nil {
		return nil, err
	}
	want := fold(query)
	words := strings.Fields(want)
	if len(words) == 0 {
		return nil, nil
	}
	var found []match
	for _, p := range list {
		if rank := rankOf(p, want, words); rank > 0 {
			found = append(found, match{p, rank})
		}
	}
	slices.SortStableFunc(found, func(a, b match) int {
		return cmp.Or(cmp.Compare(a.rank, b.rank), cmp.Compare(len(a.place.Name), len(b.place.Name)))
	})
	out := make([]Place, 0, most)
	for _, m := range found[:min(len(found), most)] {
		out = append(out, m.place.Place)
	}
	return out, nil
}

type match struct {
	place named
	rank  int
}

// named is a place with its name as it is compared.
type named struct {
	Place
	folded string
}

// rankOf says how well a place fits: 1 best, 0 not at all.
func rankOf(p named, want string, words []string) int {
	rest, starts := strings.CutPrefix(p.folded, want)
	switch {
	case strings.EqualFold(p.Code, want) || starts && rest == "":
		return 1
	case starts && rest[0] == ' ':
		return 2
	case starts:
		return 3
	}
	rank := 4
	for _, w := range words {
		switch {
		case strings.Contains(" "+p.folded+" ", " "+w+" "):
		case strings.Contains(p.folded, w):
			rank = 5
		default:
			return 0
		}
	}
	return rank
}

// fold makes names comparable: lower case, and words only.
func fold(s string) string {
	words := strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return strings.ContainsRune(" ,/()-.'", r) })
	return strings.Join(words, " ")
}

var places = sync.OnceValues(func() ([]named, error) {
	z, err := gzip.NewReader(bytes.NewReader(packedPlaces))
	if err != nil {
		return nil, err
	}
	text, err := io.ReadAll(z)
	if err != nil {
		return nil, err
	}
	var list []named
	for line := range strings.Lines(string(text)) {
		p, err := readPlace(strings.TrimSuffix(line, "\n"))
		if err != nil {
			return nil, fmt.Errorf("built-in places: %w", err)
		}
		list = append(list, named{p, fold(p.Name)})
	}
	return list, nil
})

func readPlace(line string) (Place, error) {
	f := strings.Split(line, "\t")
	if len(f) != 5 {
		return Place{}, fmt.Errorf("%q has %d fields, not 5", line, len(f))
	}
	var v [3]float64
	for i := range v {
		x, err := strconv.ParseFloat(f[i+2], 64)
		if err != nil {
			return Place{}, err
		}
		v[i] = x
	}
	return Place{Name: f[0], Code: f[1], Latitude: v[0], Longitude: v[1], Elevation: v[2]}, nil
}
