package sheet_test

import (
	"bytes"
	"fmt"
	"os"
	"strings"
	"testing"

	"ampstead/fit"
	"ampstead/internal/choosesample"
	"ampstead/internal/drillsample"
	"ampstead/internal/example"
	"ampstead/internal/keepsample"
	"ampstead/internal/unexplained"
	q "ampstead/quantity"
	"ampstead/sheet"
	"ampstead/wire"
)

// bounds are how many numbers of each stage's parts may stand without opening to
// how they came about. They only go down. What is left are findings of the samples
// of choose and keep, which carry no workings; internal/worked asks for those of
// the stages themselves.
var bounds = map[string]int{"fit": 0, "wire": 0, "travel": 0, "drill": 0, "choose": 2, "keep": 1, "prove": 0}

// stageOf sorts a part to the stage it shows.
func stageOf(part string) string {
	stage, _, _ := strings.Cut(part, "-")
	if _, known := bounds[stage]; known {
		return stage
	}
	return "fit"
}

// full is a model of an example rig with something in every part.
func full(t *testing.T, name string) *sheet.Model {
	t.Helper()
	file := example.File(t, name)
	res, err := fit.Run(file.Rig)
	if err != nil {
		t.Fatal(err)
	}
	wired, err := wire.Run(file.Rig, res, wire.Options{})
	if err != nil {
		t.Fatal(err)
	}
	m := sheet.New(file, res, q.Metric).WithWire(wired).WithTravel(trip()).WithDrill(drillsample.Result(), *drillsample.Strip()).WithRun(drillsample.Strip())
	return m.WithChoice(choosesample.Result()).WithLog(keepsample.Result(12, 20), nil).WithProof("log.csv", proofOf(t))
}

func TestEveryNumberOpens(t *testing.T) {
	left := map[string]map[string]bool{}
	for _, name := range []string{"curlew", "curlew-draft", "dipper"} {
		m := full(t, name)
		for _, part := range sheet.Parts {
			var out bytes.Buffer
			if err := sheet.Templates().ExecuteTemplate(&out, part, m); err != nil {
				t.Fatal(err)
			}
			list, err := unexplained.Numbers(fmt.Sprintf(`<section id=%q>%s</section>`, part, out.String()), "12 V converter", "2 % low", "2 % high")
			if err != nil {
				t.Fatalf("%s: %v", part, err)
			}
			for _, n := range list {
				stage := stageOf(part)
				if left[stage] == nil {
					left[stage] = map[string]bool{}
				}
				left[stage][part+": "+n.Text] = true
			}
		}
	}
	for stage, most := range bounds {
		if len(left[stage]) <= most {
			continue
		}
		t.Errorf("%s: %d numbers do not open, %d may", stage, len(left[stage]), most)
		for text := range left[stage] {
			if os.Getenv("UNEXPLAINED") != "" {
				t.Log(stage, text)
			}
		}
	}
}
