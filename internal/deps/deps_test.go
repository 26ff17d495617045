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
	"history":                {},
	"rig":                    {"history", "quantity"},
	"physics/cell":           {"figure", "quantity", "source"},
	"physics/balance":        {"figure", "quantity", "source", "physics/cell"},
	"physics/ageing":         {"figure", "quantity", "source", "physics/cell"},
	"physics/bank":           {"figure", "quantity", "source", "physics/cell"},
	"physics/conductor":      {"figure", "quantity", "source"},
	"physics/sun":            {"figure", "quantity", "source"},
	"physics/panel":          {"figure", "quantity", "source", "physics/sun"},
	"physics/convert":        {"figure", "quantity", "source"},
	"physics/tolerance":      {"figure", "quantity", "source", "physics/cell"},
	"physics/setpoint":       {"figure", "quantity", "source", "physics/cell", "physics/tolerance"},
	"working":                {"figure", "finding", "quantity", "source"},
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
	"handbook":               {"working", "figure", "physics/ageing", "physics/balance", "physics/bank", "physics/cell", "physics/conductor", "physics/tolerance", "physics/sun", "physics/panel", "physics/convert", "weather/climate", "physics/protect", "physics/measure", "physics/setpoint"},
	"circuit":                {"figure", "finding", "quantity", "rig", "working", "physics/cell", "physics/conductor"},
	"fit":                    {"figure", "finding", "quantity", "source", "rig", "working", "physics/cell", "physics/conductor", "physics/setpoint", "physics/tolerance", "circuit"},
	"wire":                   {"working", "circuit", "figure", "finding", "fit", "quantity", "rig", "source", "physics/cell", "physics/conductor", "physics/convert", "physics/panel", "physics/protect"},
	"compare":                {"drill", "finding", "fit", "quantity", "rig", "travel", "wire"},
	"habit":                  {"rig"},
	"start":                  {"rig", "fit", "wire", "finding", "quantity", "physics/cell", "weather", "weather/climate"},
	"assembly":               {"circuit", "rig", "fit", "device", "engine", "quantity", "physics/bank", "physics/cell", "physics/conductor", "physics/convert"},
	"travel":                 {"working", "assembly", "device", "engine", "finding", "fit", "habit", "quantity", "rig", "source", "physics/ageing", "physics/bank", "physics/cell", "physics/panel", "physics/sun", "weather", "weather/climate", "weather/synthetic"},
	"drill":                  {"working", "assembly", "circuit", "device", "engine", "figure", "finding", "fit", "habit", "quantity", "rig", "source", "physics/bank", "physics/cell", "physics/panel", "physics/sun", "weather", "weather/climate"},
	"benchlog":               {},
	"prove":                  {"working", "benchlog", "fit", "rig", "figure", "finding", "quantity", "source", "physics/bank", "physics/cell", "physics/balance", "physics/measure"},
	"shelf":                  {"benchlog", "fit", "prove", "quantity", "rig"},
	"picture":                {"fit", "drill", "look", "quantity", "physics/cell", "travel", "wire", "finding", "prove", "choose", "keep", "start"},
	"sheet":                  {"working", "handbook", "drill", "figure", "finding", "fit", "picture", "quantity", "rig", "source", "physics/cell", "travel", "wire", "prove", "choose", "life", "keep", "store"},
	"book":                   {"sheet", "look", "quantity"},
	"web":                    {"handbook", "working", "book", "drill", "figure", "finding", "fit", "look", "physics/conductor", "physics/cell", "quantity", "rig", "sheet", "travel", "wire", "benchlog", "prove", "shelf", "choose", "keep", "logbook", "store", "live", "picture", "secret", "disk", "start", "internal/lan", "internal/qr", "home", "compare", "history"},
	"cli":                    {"book", "drill", "examples", "figure", "finding", "fit", "handbook", "picture", "quantity", "rig", "sheet", "travel", "weather", "weather/hourly", "web", "wire", "benchlog", "prove", "shelf", "choose", "keep", "logbook", "store", "live", "internal/completion", "internal/manual", "physics/cell", "secret", "disk", "start", "internal/lan", "internal/qr", "home", "compare", "history"},
	"cmd/ampstead":           {"cli"},
	"home":                   {"choose", "drill", "finding", "fit", "keep", "prove", "quantity", "rig", "travel", "wire"},
	"store":                  {},
	"secret":                 {},
	"disk":                   {},
	"live":                   {"fit", "quantity", "rig", "store"},
	"life":                   {"figure", "fit", "physics/ageing", "physics/cell", "quantity", "rig", "travel"},
	"keep":                   {"working", "figure", "finding", "fit", "life", "physics/ageing", "physics/balance", "physics/bank", "physics/cell", "physics/measure", "quantity", "rig", "source", "store"},
	"logbook":                {"fit", "keep", "quantity", "rig", "store"},
	"choose":                 {"working", "figure", "finding", "fit", "life", "physics/ageing", "physics/cell", "quantity", "rig", "source", "travel", "wire"},
	"internal/drillsample":   {"drill", "finding"},
	"internal/choosesample":  {"choose", "finding"},
	"internal/keepsample":    {"finding", "keep"},
	"internal/near":          {},
	"internal/shots":         {"cli"},
	"internal/worked":        {"finding", "quantity"},
	"internal/unexplained":   {},
	"internal/example":       {"examples", "rig"},
	"internal/completion":    {},
	"internal/icons":         {},
	"internal/lan":           {},
	"internal/qr":            {},
	"internal/manual":        {},
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
