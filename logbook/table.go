package logbook

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"time"

	q "ampstead/quantity"
	"ampstead/store"
)

// TableError is a place in a table that cannot be read.
type TableError struct {
	Line, Column               int // from 1; 0 when it is of the whole
	Message, Expected, Example string
}

func (e *TableError) Error() string {
	text := e.Message
	if e.Line > 0 {
		text = fmt.Sprintf("line %d, column %d: %s", e.Line, e.Column, text)
	}
	if e.Expected != "" {
		text += "; expected " + e.Expected
	}
	if e.Example != "" {
		text += "; example: " + e.Example
	}
	return text
}

// mostTable is the largest table that is read, bytes: ten thousand visits are
// two megabytes.
const mostTable = 64 << 20

const tableHead = "taken;group 1;group 2;bank;note"

// ReadTable reads readings from a table with a head line: comma, semicolon or tab
// between the columns, decimal point or comma. Each is one version; those of one
// ID follow each other. A reading without an ID gets one from its content. Errors:
// *TableError.
func ReadTable(in io.Reader, zone *time.Location) ([]store.Reading, error) {
	text, err := io.ReadAll(io.LimitReader(in, mostTable+1))
	if err != nil {
		return nil, err
	}
	if len(text) > mostTable {
		return nil, &TableError{Message: "the table is larger than 64 MB", Expected: "one row a visit"}
	}
	text = bytes.TrimPrefix(text, []byte("\xef\xbb\xbf"))
	rows := csv.NewReader(bytes.NewReader(text))
	rows.Comma, rows.FieldsPerRecord, rows.TrimLeadingSpace, rows.LazyQuotes = separator(text), -1, true, true
	head, err := rows.Read()
	if errors.Is(err, io.EOF) {
		return nil, &TableError{Message: "the table is empty", Expected: "a head line and a row for each reading", Example: tableHead}
	}
	if err != nil {
		return nil, tableFault(rows, err)
	}
	columns, err := readHead(head)
	if err != nil {
		return nil, err
	}
	var list []store.Reading
	for {
		row, err := rows.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, tableFault(rows, err)
		}
		if blank(row) {
			continue
		}
		line, _ := rows.FieldPos(0)
		r, err := columns.read(row, line, zone)
		if err != nil {
			return nil, err
		}
		list = append(list, r)
	}
	if len(list) == 0 {
		return nil, &TableError{Message: "the table has a head line and no reading", Expected: "a row for each reading"}
	}
	return list, nil
}

func tableFault(rows *csv.Reader, err error) error {
	var at *csv.ParseError
	if errors.As(err, &at) {
		return &TableError{Line: at.Line, Column: 1, Message: at.Err.Error(), Expected: "a table with one row for each reading", Example: tableHead}
	}
	return err
}

func blank(row []string) bool { return strings.TrimSpace(strings.Join(row, "")) == "" }

// separator is the one that parts the head line most often.
func separator(text []byte) rune {
	head, _ := bufio.NewReader(bytes.NewReader(text)).ReadString('\n')
	best := ','
	for _, s := range []rune{';', '\t'} {
		if strings.Count(head, string(s)) > strings.Count(head, string(best)) {
			best = s
		}
	}
	return best
}

// role is what a column holds.
type role struct {
	key   string // "group", "temperature" or the name of one value
	n     int    // of the group
	times float64
}

type columns []role

var (
	groupHead = regexp.MustCompile(`^(?:group|cell|g|c)_*([0-9]{1,3})(?:_*(mv|v))?$`)
	unitTail  = regexp.MustCompile(`_(v|mv|a|c|h|ah)$`)
	oddSigns  = regexp.MustCompile(`[^a-z0-9]+`)
)

// heads are the names of columns, without their unit.
var heads = map[string]string{
	"taken": "taken", "time": "taken", "date": "taken", "when": "taken",
	"bank": "bank", "pack": "bank", "total": "bank", "current": "current", "amps": "current",
	"temperature": "temperature", "temp": "temperature", "rested": "rested", "rest": "rested", "counter": "counter", "count": "counter",
	"meter": "meter", "note": "note", "notes": "note", "id": "id", "version": "version", "entered": "entered", "withdrawn": "withdrawn",
}

func readHead(head []string) (columns, error) {
	var list columns
	taken, value := false, false
	for i, name := range head {
		r, ok := roleOf(name)
		if !ok {
			return nil, &TableError{Line: 1, Column: i + 1, Message: fmt.Sprintf("the column %q is not known", strings.TrimSpace(name)),
				Expected: "taken, group 1 to group n, bank, current, temperature, rested, counter, meter or note", Example: tableHead}
		}
		taken, value = taken || r.key == "taken", value || r.key == "group" || r.key == "bank"
		list = append(list, r)
	}
	if !taken || !value {
		return nil, &TableError{Line: 1, Column: 1, Message: "the table lacks a column taken, or any voltage", Expected: "both", Example: tableHead}
	}
	return list, nil
}

func roleOf(name string) (role, bool) {
	plain := strings.Trim(oddSigns.ReplaceAllString(strings.ToLower(name), "_"), "_")
	if m := groupHead.FindStringSubmatch(plain); m != nil {
		n, _ := strconv.Atoi(m[1]) // three digits at most
		r := role{"group", n, 1}
		if m[2] == "mv" {
			r.times = 1e-3
		}
		return r, n > 0
	}
	times := 1.0
	if strings.HasSuffix(plain, "_mv") {
		times = 1e-3
	}
	plain = unitTail.ReplaceAllString(plain, "")
	plain = strings.TrimRight(strings.TrimSuffix(plain, "_voltage"), "_0123456789") // temperature_1
	key, ok := heads[plain]
	return role{key, 0, times}, ok || plain == "" && name == ""
}

// read makes a reading of a row.
func (c columns) read(row []string, line int, zone *time.Location) (store.Reading, error) {
	out := store.Reading{Version: 1}
	for i, text := range row {
		text = strings.TrimSpace(text)
		if i >= len(c) && text != "" {
			return out, &TableError{Line: line, Column: i + 1, Message: fmt.Sprintf("%q stands beyond the last column", text), Expected: "as many values as the head line has"}
		}
		if i >= len(c) || text == "" {
			continue
		}
		if err := c[i].put(&out, text, zone); err != nil {
			return out, &TableError{Line: line, Column: i + 1, Message: err.Error()}
		}
	}
	if out.Taken.IsZero() {
		return out, &TableError{Line: line, Column: 1, Message: "this reading has no time", Expected: "a time in the column taken", Example: "2026-11-20 17:30"}
	}
	if out.ID == "" {
		out.ID = ContentID(out)
	}
	return out, nil
}

func (c role) put(r *store.Reading, text string, zone *time.Location) error {
	switch c.key {
	case "taken", "entered":
		at, ok := readInstant(text, zone)
		if !ok {
			return fmt.Errorf("%q is no time; expected one such as 2026-11-20 17:30", text)
		}
		if c.key == "entered" {
			r.Entered = at
		} else {
			r.Taken = at
		}
	case "id":
		r.ID = text
	case "meter":
		r.Meter = text
	case "note":
		r.Note = text
	case "withdrawn":
		r.Gone = text == "yes" || text == "true"
	case "version":
		n, err := strconv.Atoi(text)
		if err != nil || n < 1 {
			return fmt.Errorf("%q is no version; expected 1 or more", text)
		}
		r.Version = n
	default:
		return c.putNumber(r, text)
	}
	return nil
}

// dimensionOf are the quantities of the number columns.
var dimensionOf = map[string]*q.Dimension{"group": q.Volts, "bank": q.Volts, "current": q.Amperes, "temperature": q.Celsius, "rested": q.Hours, "counter": q.AmpereHours}

func (c role) putNumber(r *store.Reading, text string) error {
	d := dimensionOf[c.key]
	if d == nil {
		return errors.New("a value stands in a column without a name")
	}
	v, _, err := value(d, text, d.Base)
	if err != nil {
		return err
	}
	v *= c.times
	switch c.key {
	case "group":
		for len(r.Groups) < c.n {
			r.Groups = append(r.Groups, nil)
		}
		r.Groups[c.n-1] = &v
	case "bank":
		r.BankV = &v
	case "current":
		r.Amps = &v
	case "temperature":
		r.TempsC = append(r.TempsC, v)
	case "rested":
		r.RestH = &v
	case "counter":
		r.CountAh = &v
	}
	return nil
}
