package cell

import (
	"bufio"
	"embed"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"
)

//go:embed curves/*.csv
var curveFiles embed.FS

// library is built once, on first use.
var library = sync.OnceValue(build)

type shelf struct {
	names []string
	cells map[string]*Cell
}

// recipe is a cell with the name of the file its curve lies in.
type recipe struct {
	curve string
	cell  Cell
}

func build() shelf {
	s := shelf{cells: map[string]*Cell{}}
	for _, r := range slices.Concat(nickelCells(), ironCells(), acidCells()) {
		r.cell.Curve, r.cell.CurveNote = embedded(r.curve)
		s.cells[r.cell.Name] = &r.cell
		s.names = append(s.names, r.cell.Name)
	}
	return s
}

// Lookup returns the caller's own copy of a cell: of the library's by its name,
// or of one described by the name of a library cell and what differs from it, as
// With writes it: "nmc532 max=4.15 min=3.1 charge-above=5 curve=0:3.0,1:4.15",
// in V, °C and pairs of charge and voltage. Errors: an unknown name (the text
// lists the known ones), a word that is not understood, or *OwnError.
func Lookup(name string) (*Cell, error) {
	if c, ok := library().cells[name]; ok {
		return c.clone(), nil
	}
	words := strings.Fields(name)
	if len(words) == 0 {
		words = []string{name}
	}
	c, ok := library().cells[words[0]]
	if !ok {
		return nil, fmt.Errorf("no cell %q; known are %s", words[0], strings.Join(Names(), ", "))
	}
	ch, err := parseChange(words[1:])
	if err != nil {
		return nil, err
	}
	return ch.apply(c)
}

func (c *Cell) clone() *Cell {
	own := *c
	own.ChargeRates.Points = slices.Clone(c.ChargeRates.Points)
	own.DischargeRate.Points = slices.Clone(c.DischargeRate.Points)
	if c.Acid != nil {
		acid := *c.Acid
		own.Acid = &acid
	}
	return &own
}

// Names lists the library's cells: lithium first, lead-acid last.
func Names() []string { return slices.Clone(library().names) }

// embedded reads a curve that ships with the package and its first line, which
// says how it came about; a fault in one is a fault of the program, found by its
// tests.
func embedded(name string) (curve Curve, note string) {
	text, err := curveFiles.ReadFile("curves/" + name + ".csv")
	if err != nil {
		panic(err)
	}
	curve, err = parseCurve(string(text))
	if err != nil {
		panic(fmt.Sprintf("curve %s: %v", name, err))
	}
	note, _, _ = strings.Cut(strings.TrimPrefix(string(text), "# "), "\n")
	return curve, note
}

// parseCurve reads a comment line naming the source, a header, then
// soc_fraction,voltage_v.
func parseCurve(text string) (Curve, error) {
	var soc, volt []float64
	lines := bufio.NewScanner(strings.NewReader(text))
	for lines.Scan() {
		line := lines.Text()
		if strings.HasPrefix(line, "#") || line == "soc_fraction,voltage_v" {
			continue
		}
		s, v, err := parsePoint(line)
		if err != nil {
			return Curve{}, err
		}
		soc, volt = append(soc, s), append(volt, v)
	}
	return NewCurve(soc, volt)
}

func parsePoint(line string) (soc, volt float64, err error) {
	left, right, _ := strings.Cut(line, ",")
	if soc, err = strconv.ParseFloat(left, 64); err != nil {
		return 0, 0, err
	}
	volt, err = strconv.ParseFloat(right, 64)
	return soc, volt, err
}
