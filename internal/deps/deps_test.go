package deps

import (
	"encoding/json"
	"io"
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// allowed is the written list: each package and the packages of this module it
// may import. Anything absent is forbidden. ARCHITECTURE.md prints the same.
var allowed = map[string][]string{
	"quantity":               {},
	"source":                 {},
	"finding":                {},
	"look":                   {},
	"examples":               {},
	"figure":                 {"quantity", "source"},
	"rig":                    {"quantity"},
	"physics/cell":           {"figure", "quantity", "source"},
	"physics/balance":        {"figure", "quantity", "source", "physics/cell"},
	"physics/ageing":         {"figure", "quantity", "source", "physics/cell"},
	"physics/bank":           {"figure", "quantity", "source", "physics/cell"},
	"physics/conductor":      {"figure", "quantity", "source"},
	"physics/sun":            {"figure", "quantity", "source"},
	"physics/panel":          {"figure", "quantity", "source", "physics/sun"},
	"physics/convert":        {"figure", "quantity", "source"},
	"physics/tolerance":      {"figure", "quantity", "source", "physics/cell"},
	"physics/protect":        {"figure", "quantity", "source"},
	"physics/measure":        {"figure", "quantity", "source"},
	"weather":                {"source", "physics/sun"},
	"weather/climate":        {"figure", "quantity", "source", "weather", "weather/climate/table", "physics/sun"},
	"weather/climate/table":  {},
	"weather/climate/derive": {"weather/climate/table"},
	"weather/hourly":         {"source", "weather", "physics/sun"},
	"weather/synthetic":      {"source", "weather", "physics/sun"},
	"device":                 {},
	"engine":                 {"device", "physics/bank"},
	"handbook":               {"figure", "physics/ageing", "physics/balance", "physics/bank", "physics/cell", "physics/conductor", "physics/tolerance", "physics/sun", "physics/panel", "physics/convert", "weather/climate", "physics/protect", "physics/measure"},
	"circuit":                {"figure", "finding", "quantity", "rig", "physics/cell", "physics/conductor"},
	"fit":                    {"figure", "finding", "quantity", "source", "rig", "physics/cell", "physics/conductor", "physics/tolerance", "circuit"},
	"wire":                   {"circuit", "figure", "finding", "fit", "quantity", "rig", "source", "physics/cell", "physics/conductor", "physics/convert", "physics/panel", "physics/protect"},
	"habit":                  {"rig"},
	"assembly":               {"circuit", "rig", "fit", "device", "engine", "quantity", "physics/bank", "physics/cell", "physics/conductor", "physics/convert"},
	"travel":                 {"assembly", "device", "engine", "finding", "fit", "habit", "quantity", "rig", "source", "physics/ageing", "physics/bank", "physics/cell", "physics/panel", "physics/sun", "weather", "weather/climate", "weather/synthetic"},
	"drill":                  {"assembly", "circuit", "device", "engine", "figure", "finding", "fit", "habit", "quantity", "rig", "source", "physics/bank", "physics/cell", "physics/panel", "physics/sun", "weather", "weather/climate"},
	"benchlog":               {},
	"prove":                  {"benchlog", "fit", "rig", "figure", "finding", "quantity", "source", "physics/bank", "physics/cell", "physics/balance", "physics/measure"},
	"shelf":                  {"benchlog", "fit", "prove", "quantity", "rig"},
	"picture":                {"fit", "drill", "look", "quantity", "physics/cell", "travel", "wire", "finding", "prove", "choose", "keep"},
	"sheet":                  {"drill", "figure", "finding", "fit", "picture", "quantity", "rig", "source", "physics/cell", "travel", "wire", "prove", "choose", "life", "keep", "store"},
	"book":                   {"sheet", "look", "quantity"},
	"web":                    {"book", "drill", "figure", "finding", "fit", "look", "quantity", "rig", "sheet", "travel", "wire", "benchlog", "prove", "shelf", "choose", "keep", "logbook", "store", "live", "picture"},
	"cli":                    {"book", "drill", "examples", "figure", "finding", "fit", "handbook", "picture", "quantity", "rig", "sheet", "travel", "weather", "weather/hourly", "web", "wire", "benchlog", "prove", "shelf", "choose", "keep", "logbook", "store", "live"},
	"cmd/ampstead":           {"cli"},
	"store":                  {},
	"live":                   {"fit", "quantity", "rig", "store"},
	"life":                   {"figure", "fit", "physics/ageing", "physics/cell", "quantity", "rig", "travel"},
	"keep":                   {"figure", "finding", "fit", "life", "physics/ageing", "physics/balance", "physics/bank", "physics/cell", "physics/measure", "quantity", "rig", "source", "store"},
	"logbook":                {"fit", "keep", "quantity", "rig", "store"},
	"choose":                 {"figure", "finding", "fit", "life", "physics/ageing", "physics/cell", "quantity", "rig", "source", "travel", "wire"},
	"internal/drillsample":   {"drill", "finding"},
	"internal/choosesample":  {"choose", "finding"},
	"internal/keepsample":    {"finding", "keep"},
	"internal/near":          {},
	"internal/example":       {"examples", "rig"},
	"internal/golden":        {},
	"internal/figuretest":    {"figure"},
	"internal/shared":        {},
	"internal/fixedseed":     {},
	"internal/deps":          {},
}

// impure are the standard packages that laws of physics have no business with.
var impure = []string{"os", "os/exec", "net", "net/http", "database/sql", "log", "log/slog", "math/rand", "math/rand/v2", "time", "io/ioutil"}

type listed struct {
	ImportPath string
	Imports    []string
	Doc        string
}

func packages(t *testing.T) []listed {
	t.Helper()
	cmd := exec.Command("go", "list", "-json=ImportPath,Imports,Doc", "ampstead/...")
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	var list []listed
	for d := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p listed
		if err := d.Decode(&p); err == io.EOF {
			return list
		} else if err != nil {
			t.Fatal(err)
		}
		list = append(list, p)
	}
}

func TestImportsFollowTheList(t *testing.T) {
	seen := map[string]bool{}
	for _, p := range packages(t) {
		name := strings.TrimPrefix(p.ImportPath, "ampstead/")
		seen[name] = true
		may, ok := allowed[name]
		if !ok {
			t.Errorf("package %s is not in the list", name)
			continue
		}
		for _, path := range p.Imports {
			own, isOwn := strings.CutPrefix(path, "ampstead/")
			if isOwn && !slices.Contains(may, own) {
				t.Errorf("%s imports %s, which the list does not allow", name, own)
			}
		}
	}
	for name := range allowed {
		if !seen[name] {
			t.Errorf("%s is in the list but not in the module", name)
		}
	}
}

func TestPhysicsIsPure(t *testing.T) {
	for _, p := range packages(t) {
		if !strings.Contains(p.ImportPath, "/physics/") {
			continue
		}
		for _, path := range p.Imports {
			if slices.Contains(impure, path) {
				t.Errorf("%s imports %s", p.ImportPath, path)
			}
		}
	}
}

func TestEveryPackageSaysWhatItIsFor(t *testing.T) {
	for _, p := range packages(t) {
		if p.Doc == "" {
			t.Errorf("%s has no package comment", p.ImportPath)
		}
	}
}
