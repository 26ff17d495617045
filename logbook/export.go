package logbook

import (
	"context"
	"encoding/csv"
	"io"
	"strconv"
	"time"

	"ampstead/store"
)

// Whole is everything a logbook holds, every version of every reading.
type Whole struct {
	Rig      string          `json:"rig"`
	Readings []store.Reading `json:"readings"` // all versions
	Meters   []store.Meter   `json:"meters"`
	Done     []store.Done    `json:"done"`
}

// ReadWhole reads everything.
func ReadWhole(ctx context.Context, b *store.Book, rigName string) (*Whole, error) {
	l, err := Read(ctx, b)
	if err != nil {
		return nil, err
	}
	w := &Whole{Rig: rigName, Readings: []store.Reading{}, Meters: []store.Meter{}, Done: []store.Done{}}
	all, err := b.History(ctx)
	w.Readings = append(w.Readings, all...)
	w.Meters, w.Done = append(w.Meters, l.Meters...), append(w.Done, l.Done...)
	return w, err
}

// WriteTable writes the readings as a table that ReadTable reads: one line for
// each version, SI units, UTC.
func (w *Whole) WriteTable(out io.Writer) error {
	groups, temps := 0, 0
	for _, r := range w.Readings {
		groups, temps = max(groups, len(r.Groups)), max(temps, len(r.TempsC))
	}
	head := []string{"id", "version", "taken", "entered"}
	for i := range groups {
		head = append(head, "group_"+strconv.Itoa(i+1)+"_v")
	}
	head = append(head, "bank_v", "current_a")
	for i := range temps {
		head = append(head, "temperature_"+strconv.Itoa(i+1)+"_c")
	}
	head = append(head, "rested_h", "counter_ah", "meter", "note", "withdrawn")
	table := csv.NewWriter(out)
	if err := table.Write(head); err != nil {
		return err
	}
	for _, r := range w.Readings {
		if err := table.Write(rowOf(r, groups, temps)); err != nil {
			return err
		}
	}
	table.Flush()
	return table.Error()
}

func rowOf(r store.Reading, groups, temps int) []string {
	row := []string{r.ID, strconv.Itoa(r.Version), stamp(r.Taken), stamp(r.Entered)}
	for i := range groups {
		var v *float64
		if i < len(r.Groups) {
			v = r.Groups[i]
		}
		row = append(row, digits(v))
	}
	row = append(row, digits(r.BankV), digits(r.Amps))
	for i := range temps {
		var v *float64
		if i < len(r.TempsC) {
			v = &r.TempsC[i]
		}
		row = append(row, digits(v))
	}
	gone := ""
	if r.Gone {
		gone = "yes"
	}
	return append(row, digits(r.RestH), digits(r.CountAh), r.Meter, r.Note, gone)
}

func stamp(at time.Time) string { return at.UTC().Format("2006-01-02T15:04:05.999Z07:00") }

func digits(v *float64) string {
	if v == nil {
		return ""
	}
	return strconv.FormatFloat(*v, 'g', -1, 64)
}
