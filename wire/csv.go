package wire

import (
	"bytes"
	"encoding/csv"
	"strconv"
	"strings"
)

// ScheduleCSV is the schedule of conductors and their protection as a table to
// print or to open in a spreadsheet. Units stand in the heading.
func ScheduleCSV(res *Result) []byte {
	rows := [][]string{{"circuit", "from", "to", "runs", "length_m", "current_a", "size", "area_mm2", "ampacity_a", "drop_v", "drop_percent", "way_percent",
		"smallest_size", "decided_by", "fuse", "fuse_a", "fuse_class", "interrupt_needed_a", "proposed"}}
	for _, c := range res.Circuits {
		rows = append(rows, []string{c.Name, c.From, c.To, strconv.Itoa(c.Count), fixed(c.LengthM, 2), fixed(c.CurrentA, 1), c.Size, fixed(c.AreaMM2, 2),
			fixed(c.AmpacityA, 1), fixed(c.DropV, 3), fixed(c.DropPercent, 2), fixed(c.WayPercent, 2), c.SmallestSize, c.DecidedBy, c.FuseName,
			fixed(c.FuseA, 0), c.FuseClass, fixed(c.InterruptA, 0), yes(c.Proposed)})
	}
	return table(rows)
}

// PartsCSV is the parts list as a table.
func PartsCSV(res *Result) []byte {
	rows := [][]string{{"item", "specification", "quantity", "unit", "for", "have"}}
	for _, p := range res.Parts {
		rows = append(rows, []string{p.Item, p.Spec, strconv.FormatFloat(p.Quantity, 'f', -1, 64), p.Unit, strings.Join(p.For, "; "), yes(p.Have)})
	}
	return table(rows)
}

func table(rows [][]string) []byte {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	for _, row := range rows {
		for k := range row {
			row[k] = plainly(row[k])
		}
		w.Write(row) // a buffer takes everything
	}
	w.Flush()
	return b.Bytes()
}

// plainly keeps a spreadsheet from taking a name for a formula.
func plainly(cell string) string {
	if cell != "" && strings.ContainsRune("=+-@\t\r", rune(cell[0])) {
		return "'" + cell
	}
	return cell
}

func fixed(v float64, decimals int) string { return strconv.FormatFloat(v, 'f', decimals, 64) }

func yes(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}
