package conductor

import (
	"fmt"
	"math"

	"ampstead/figure"
	"ampstead/quantity"
)

// Where a conductor runs.
const (
	Open   = "open"   // outside engine spaces, 30 °C
	Engine = "engine" // inside an engine space, 50 °C
)

// Rating is how much current a conductor carries and on what that rests.
type Rating struct {
	Amperes float64
	Basis   string // table, column and corrections in words
	Weak    bool   // a figure in it is remembered or derived here, not read
}

// Ampacity returns the current in A that a copper conductor carries for long.
// See Rate, which also says what it rests on.
func Ampacity(size quantity.Size, insulationC float64, place string, bundle int) (float64, error) {
	r, err := Rate(size, insulationC, place, bundle)
	return r.Amperes, err
}

// Rate returns the current a copper conductor carries for long, with the basis.
//
// The table is 33 CFR 183.425 table 5, single conductors in open air of 30 °C,
// read in the column no higher than the insulation's rating. Gauges not in it
// are interpolated at their area. Metric sizes take the lower of that and of
// ISO 10133 annex A, which is remembered only. An engine space takes the factor
// of note 1, conductors lying together that of NFPA 70 table 310.15(C)(1); the
// regulation's own factors for bundles in circuits of 50 V and more (0.70 for 3,
// 0.60 to 6, 0.50 to 24) are lower: RateIn applies them.
//
// A conductor enclosed in a raceway, cable or wall takes NFPA 70 table 310.16
// instead.
//
// place is Open ("" means the same), Enclosed or Engine; bundle counts the
// current-carrying conductors lying together, 0 means 1. Errors:
// figure.ErrRange for a size outside the tables, insulation outside 60 to
// 200 °C or a negative bundle, and an error for another place.
func Rate(size quantity.Size, insulationC float64, place string, bundle int) (Rating, error) {
	column := columnFor(cfrColumns, insulationC)
	if column < 0 || insulationC > 200+1e-6 || math.IsNaN(insulationC) {
		return Rating{}, fmt.Errorf("insulation rated %g °C is not between 60 and 200 °C: %w", insulationC, figure.ErrRange)
	}
	r, err := inPlace(size, column, insulationC, place)
	if err != nil {
		return Rating{}, err
	}
	return inBundle(r, bundle)
}

// inPlace is the rating of a conductor by itself where it runs.
func inPlace(size quantity.Size, column int, insulationC float64, place string) (Rating, error) {
	if place == Enclosed {
		return enclosed(size, insulationC)
	}
	r, err := openAir(size, column, insulationC)
	if err != nil {
		return Rating{}, err
	}
	return inSpace(r, place, column)
}

// openAir is the rating of a conductor by itself in air of 30 °C.
func openAir(size quantity.Size, column int, insulationC float64) (Rating, error) {
	g, listed := row(size.Number)
	switch {
	case size.Gauge == quantity.MM2:
		return metricOpenAir(size, column, insulationC)
	case listed && size.Gauge == quantity.AWG:
		return Rating{Amperes: g.amperes[column], Basis: cfrBasis(column)}, nil
	}
	mm2, err := Area(size)
	if err != nil {
		return Rating{}, err
	}
	amperes, ok := between(cfrTables[column], mm2)
	if !ok {
		return Rating{}, noAmpacity(size)
	}
	return Rating{Amperes: amperes, Basis: cfrBasis(column) + ", interpolated at its area"}, nil
}

// metricOpenAir takes the lower of two tables. Beyond the ends of the
// regulation's, the rating of its last row still bounds what a conductor may
// carry: a thinner one no more, a thicker one counts as no thicker.
func metricOpenAir(size quantity.Size, column int, insulationC float64) (Rating, error) {
	isoColumn := columnFor(isoColumns, insulationC)
	iso, ok := between(isoTables[isoColumn], size.Number)
	if !ok {
		return Rating{}, noAmpacity(size)
	}
	cfr, cfrText := cfrNear(column, size.Number)
	isoText := fmt.Sprintf("ISO 10133 annex A, %g °C column, from memory", isoColumns[isoColumn])
	if cfr < iso {
		return Rating{Amperes: cfr, Basis: fmt.Sprintf("%s; below the %.4g A of %s", cfrText, iso, isoText)}, nil
	}
	return Rating{Amperes: iso, Basis: fmt.Sprintf("%s; not above the %.4g A of %s", isoText, cfr, cfrText), Weak: true}, nil
}

// cfrNear is the regulation's ampacity at an area, or of its last row when the
// area is beyond.
func cfrNear(column int, mm2 float64) (amperes float64, basis string) {
	table := cfrTables[column]
	first, last := table[0], table[len(table)-1]
	switch {
	case mm2 < first.x:
		return first.y, cfrBasis(column) + ", of the thicker 18 AWG"
	case mm2 > last.x:
		return last.y, cfrBasis(column) + ", of the thinner 4/0 AWG"
	}
	amperes, _ = between(table, mm2)
	return amperes, cfrBasis(column) + ", interpolated at its area"
}

func cfrBasis(column int) string {
	return fmt.Sprintf("33 CFR 183.425 table 5, %g °C column", cfrColumns[column])
}

func noAmpacity(size quantity.Size) error {
	return fmt.Errorf("no ampacity is tabulated for %v, only for 18 to 4/0 AWG, 16 to 4/0 SAE and 0.75 to 120 mm²: %w", size, figure.ErrRange)
}

// The tables by area, one for each column, laid out once.
var (
	cfrTables = byColumn(len(cfrColumns), func(column int) []point {
		table := make([]point, 0, len(gauges))
		for _, g := range gauges {
			table = append(table, point{awgArea(g.number), g.amperes[column]})
		}
		return table
	})
	isoTables = byColumn(len(isoColumns), func(column int) []point {
		table := make([]point, 0, len(isoAmperes))
		for _, r := range isoAmperes {
			table = append(table, point{r.mm2, r.amperes[column]})
		}
		return table
	})
	enclosedTables = byColumn(len(enclosedColumns), func(column int) []point {
		table := make([]point, 0, len(enclosedRows))
		for _, r := range enclosedRows {
			table = append(table, point{awgArea(r.number), r.amperes[column]})
		}
		return table
	})
)

func byColumn(columns int, lay func(column int) []point) [][]point {
	tables := make([][]point, columns)
	for k := range tables {
		tables[k] = lay(k)
	}
	return tables
}
