package keep

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ampstead/internal/golden"
)

// docs/keep.md is put together from the tables that the other tests write.
func TestKeepInDocs(t *testing.T) {
	part := func(name string) string {
		text, err := os.ReadFile(filepath.Join("testdata", name))
		if err != nil {
			t.Fatal(err)
		}
		return strings.TrimSpace(string(text))
	}
	text := fmt.Sprintf(page, told, toldBroken, leastTold, toldLoss, part("detection.md"), part("alarms.md"), part("capacity.md"))
	golden.Check(t, "../../docs/keep.md", []byte(text))
}

const page = `# What the logbook can tell, and how surely

Written by ` + "`go test ./keep -update`" + ` from the tables that the tests make; do not edit. The tables of
simulated logs take some minutes and are made anew with
` + "`AMPSTEAD_KEEP_TABLES=1 go test ./keep -run Table -update`" + `.

## How a drift is told from chance

Every reading is turned into the charge of each group: without the drop that the current makes, through the
cell's curve of rest voltage. What all groups share drops out: the middle of all groups is taken off, so that
the meter's gain, the temperature and the self-discharge of all cells do not count. What is left is each
group's offset in Ah. Its error comes from the meter's step and error, the hours of rest (2 mV between groups
after one hour, falling with 1/hours), the current, and the slope of the curve there. The errors of all groups
together are then moved towards what the scatter about straight lines shows.

A line is drawn through the offsets by weighted least squares; residuals beyond 1.345 sigma count by their size
and not by their square (Huber), so that a slip of the fingers moves it little. A break in it (another slope, a
jump, a loss of capacity) is taken in when it lowers the sum of squares by more than ln n for each number it
adds (Bayes's criterion) and stands out by its own error. A drift is told when it stands out of its error by
%.1f sigma, behind a break by %.1f, with %d readings at least; another capacity by %.0f, for a curve that is not
quite that of the cells looks like one. Levelling that is entered in the log is a jump of
known or unknown size at a known time.

## How soon a leak shows

Twelve groups of 168 Ah, nickel-manganese-cobalt, cycled between visits and read after a day of rest at 30 to 80 %%
of the charge by a meter of 1 mV steps with the error stated. Half a year without a leak, then one in the
fifth group. Days from its onset to the visit that tells it: the middle of ten logs, in brackets the slowest.
A group found below its limit counts as told.

%s

## False alarms

The same bank without any leak, twelve logs of four years for each entry: how often a drift or a jump was told
that was not there.

%s

## Capacity from partial cycles

Charge counted between two rests over the change of state of charge, twelve partial cycles of 20 to 60 %% of the
rated charge in random order, total least squares with both errors. Of iron-phosphate only rests outside the
plateau count. The error is against the published capacity of the same cell.

%s

What this says:

- With a curve of these very cells, measured on one of them or on a sound sister, partial cycles come within
  2 %%. With a library curve of another make they may be off by 20 %%. The error stated includes that doubt, and a
  capacity test entered in the log takes it away: partial cycles then tell the change since the test.
- The first line checks the arithmetic and the counting, not the curve, which was drawn from the same test.
- Cells that have aged far no longer follow the curve of a sound sister: three batteries below 90 %% are off by
  up to 11 %%.
- On the plateau of iron-phosphate a rest tells nothing, and keep says so instead of giving a number. The 102 Ah
  cell never rests in its record; its charges at one current were compared with its own first charge, whose
  voltage also rises as the resistance grows. Where a piece spans the plateau the middle is a few percent
  high.
- A record of a small cell cycled to its end at 1C was left out: its published capacity is what 1C gives down to
  2.7 V, resistance included, which is another thing than the charge between two rests.
`
