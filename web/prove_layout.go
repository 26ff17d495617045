package web

import (
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"ampstead/benchlog"
)

// wayKeys are the parts of an address that say how a log is to be read.
var wayKeys = []string{"separator", "decimal", "time", "sign", "groups"}

// mostColumns is how many columns of a log can be set by hand.
const mostColumns = 300

// readWay takes from a form or an address how a log is to be read. Columns come
// as "3=current mA", or as role and unit of each that is shown.
func readWay(from url.Values) url.Values {
	way := url.Values{}
	for _, key := range wayKeys {
		if v := strings.TrimSpace(from.Get(key)); v != "" {
			way.Set(key, v)
		}
	}
	columns := map[string]string{}
	var order []string
	put := func(column, role string) {
		if _, known := columns[column]; !known && len(order) < mostColumns {
			order = append(order, column)
		}
		columns[column] = role
	}
	for _, text := range from["column"] {
		for _, one := range strings.Split(text, ",") {
			if column, role, ok := strings.Cut(one, "="); ok {
				put(strings.TrimSpace(column), strings.TrimSpace(role))
			}
		}
	}
	for n := 1; n <= mostColumns; n++ {
		k := strconv.Itoa(n)
		role, shown := from["role."+k]
		if !shown {
			continue
		}
		text := strings.TrimSpace(role[0] + " " + strings.TrimSpace(from.Get("unit."+k)))
		if text != from.Get("was."+k) {
			put(k, text)
		}
	}
	for _, column := range order {
		way.Add("column", column+"="+columns[column])
	}
	return way
}

// layoutOf turns it into the options of the reader.
func layoutOf(way url.Values) benchlog.Options {
	groups, _ := strconv.Atoi(way.Get("groups")) // no number: as the log says
	o := benchlog.Options{Separator: way.Get("separator"), Decimal: way.Get("decimal"), Time: way.Get("time"), Sign: way.Get("sign"), Groups: max(0, groups)}
	for _, text := range way["column"] {
		column, role, _ := strings.Cut(text, "=")
		if o.Columns == nil {
			o.Columns = map[string]string{}
		}
		o.Columns[column] = role
	}
	return o
}

// columnRow is a column of the log in the form.
type columnRow struct {
	Number int
	Name   string
	Role   string // "group 3" for a group
	Unit   string
	Was    string
}

func columnRows(l benchlog.Layout) []columnRow {
	var list []columnRow
	for i, c := range l.Columns {
		if i == mostColumns {
			break
		}
		row := columnRow{Number: i + 1, Name: c.Name, Role: string(c.Role), Unit: c.Unit}
		if c.Role == benchlog.GroupV {
			row.Role += " " + strconv.Itoa(c.Group)
		}
		row.Was = strings.TrimSpace(row.Role + " " + row.Unit)
		list = append(list, row)
	}
	return list
}

// roleChoices are what a column may hold, with as many groups as there are
// columns.
func roleChoices(l benchlog.Layout) []string {
	list := []string{string(benchlog.Time), string(benchlog.Voltage), string(benchlog.Current)}
	for n := range min(len(l.Columns), mostColumns) {
		list = append(list, string(benchlog.GroupV)+" "+strconv.Itoa(n+1))
	}
	for _, r := range []benchlog.Role{benchlog.Temperature, benchlog.Charge, benchlog.ChargeIn, benchlog.ChargeOut, benchlog.Energy, benchlog.Power, benchlog.Cycle, benchlog.Step, benchlog.Ignored} {
		list = append(list, string(r))
	}
	return list
}

// keepLayout keeps with the rig how its logs are to be read, or forgets it.
func (s *site) keepLayout(w http.ResponseWriter, r *http.Request) {
	if !readForm(w, r) {
		return
	}
	way := readWay(r.PostForm)
	layout := layoutOf(way)
	if r.PostForm.Get("do") == "forget" {
		layout = benchlog.Options{}
	}
	if err := s.shelf().SetLayout(layout); err != nil {
		s.unsaved(w, r, "The layout could not be kept; nothing was written", err)
		return
	}
	to := url.Values{"done": {"layout"}}
	for _, key := range []string{"test", "log"} {
		if v := r.PostForm.Get(key); v != "" {
			to.Set(key, v)
		}
	}
	http.Redirect(w, r, s.at("/prove?"+to.Encode()+"#layout"), http.StatusSeeOther)
}

// choice is a list of words with the one that is chosen.
type choice struct {
	Chosen string
	List   []string
}

func choiceOf(chosen string, list ...string) choice { return choice{chosen, list} }
