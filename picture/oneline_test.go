package picture

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ampstead/finding"
	"ampstead/internal/golden"
	q "ampstead/quantity"
	"ampstead/rig"
	"ampstead/wire"

	"ampstead/examples"
	"ampstead/fit"
)

func wired(t testing.TB, name string) *wire.Result {
	t.Helper()
	text, err := examples.Read(name)
	if err != nil {
		t.Fatal(err)
	}
	file, err := rig.Parse(name, text)
	if err != nil {
		t.Fatal(err)
	}
	set, err := fit.Run(file.Rig)
	if err != nil {
		t.Fatal(err)
	}
	res, err := wire.Run(file.Rig, set, wire.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return res
}

// oneLineOf draws a result and says what is illegible in it.
func oneLineOf(res *wire.Result, o Options) string {
	c, height := oneLine(res, grown(res), o)
	return overlapping(c, height)
}

func TestOneLineOfExampleRigs(t *testing.T) {
	for name, unit := range map[string]q.System{"curlew-draft": q.Metric, "curlew": q.Metric, "dipper": q.US} {
		res := wired(t, name)
		for _, width := range []int{320, Phone, 600, 859, 860, Desk, 1600} {
			if said := oneLineOf(res, Options{Width: width, Units: unit}); said != "" {
				t.Errorf("%s at %d: %s", name, width, said)
			}
		}
		for _, width := range []int{Phone, Desk} {
			svg := OneLine(res, Options{Width: width, Units: unit})
			checkXML(t, svg)
			checkClasses(t, svg)
			if found := colour.FindString(svg); found != "" {
				t.Errorf("%s: colour or style %q in the drawing", name, found)
			}
			for _, c := range res.Circuits {
				if !strings.Contains(svg, c.Size) {
					t.Errorf("%s at %d: no size of %s", name, width, c.Name)
				}
			}
		}
	}
}

// smallVan is a rig with everything the diagram knows, two strings, a fault of each
// part, and something nested and something adrift.
func smallVan() *wire.Result {
	run := func(name, from, to, size string, fuse float64) wire.Circuit {
		return wire.Circuit{Name: name, Path: "cables." + name, From: from, To: to, Count: 1, LengthM: 1.25, Size: size, SmallestSize: "25 mm²",
			FuseName: name + " fuse", FuseA: fuse, FuseClass: "class T", InterruptA: 9300}
	}
	res := &wire.Result{ShortA: 19300, Nodes: []wire.Node{
		{Name: "modules", Kind: wire.KindModules, Detail: "2 in parallel, 12 groups in series each"},
		{Name: "bank", Kind: wire.KindBank, Detail: "12 groups of nmc532, 36.0 V to 50.4 V", Path: "bank"},
		{Name: "bus", Kind: wire.KindBus, Detail: "bus bars"},
		{Name: "roof", Kind: wire.KindCharger, Detail: "solar, 45 A", Path: "charge.roof"},
		{Name: "east", Kind: wire.KindPanels, Detail: "2 in series of 330 W", Path: "charge.roof.panels.0"},
		{Name: "west", Kind: wire.KindPanels, Detail: "2 in series of 330 W", Path: "charge.roof.panels.1"},
		{Name: "inverter", Kind: wire.KindInverter, Detail: "3000 W, 6000 W for seconds"},
	}}
	modules := run("modules to bank", "modules", "bank", "35 mm²", 125)
	modules.Count = 2
	main := run("main", "bank", "bus", "50 mm²", 150)
	main.SwitchName = "contactor"
	inverter := run("to inverter", "bus", "inverter", "16 mm²", 150)
	inverter.FuseShared, inverter.FuseName = true, "main fuse"
	east, west := run("east to roof", "east", "roof", "4 mm²", 0), run("west to roof", "west", "roof", "4 mm²", 15)
	west.Proposed, west.FuseProposed, west.LengthAssumed = true, true, true
	res.Circuits = []wire.Circuit{modules, main, run("to roof", "bus", "roof", "16 mm²", 60), inverter, east, west, run("lost", "shed", "lamp", "2.5 mm²", 5)}
	res.Fuses = []wire.Fuse{{Name: "main fuse", Path: "protection.fuses.main fuse", Circuit: "main", InterruptA: 2500}}
	res.Contactors = []wire.Contactor{{Name: "contactor", Path: "protection.contactors.contactor", Circuit: "main", ContinuousA: 250}}
	res.PreCharge = &wire.PreCharge{Contactor: "contactor", Ohm: 22}
	res.Findings = []finding.Finding{
		{ID: "interrupt-rating", Severity: finding.Stop, Where: "protection.fuses.main fuse.interrupt"},
		{ID: "cable-too-small", Severity: finding.Stop, Where: "cables.to inverter.size"},
		{ID: "string-too-high", Severity: finding.Stop, Where: "charge.roof.panels.0.series"},
		{ID: "no-pre-charge", Severity: finding.Care, Where: "protection.contactors.contactor.pre_charge"},
		{ID: "no-string-fuse", Severity: finding.Care, Where: "protection.fuses"},
		{ID: "fuse-coordination", Severity: finding.Note, Where: "cables.to roof"},
	}
	return res
}

func TestOneLineGolden(t *testing.T) {
	for _, width := range []int{Desk, Phone} {
		golden.Check(t, fmt.Sprintf("van-oneline-%d.svg", width), []byte(OneLine(smallVan(), Options{Width: width})))
	}
}

func TestOneLineMarksWhatBreaksARule(t *testing.T) {
	tree := grown(smallVan())
	got := map[string]string{}
	for _, l := range tree.all {
		for part, says := range map[string][]string{"cable": l.cableSays, "fuse": l.fuseSays, "switch": l.switchSays, "node": l.nodeSays} {
			if len(says) > 0 {
				got[l.node.Name+" "+part] = strings.Join(says, "; ")
			}
		}
	}
	want := map[string]string{"bus fuse": "interrupt rating", "inverter cable": "cable too small: 25 mm² needed", "east node": "string too high",
		"bus switch": "no pre-charge", "modules fuse": "no string fuse"}
	for k, v := range want {
		if got[k] != v {
			t.Errorf("%s says %q, want %q", k, got[k], v)
		}
	}
	if len(got) != len(want) {
		t.Errorf("marked %v", got)
	}
}

func TestOneLineTreeHoldsEveryCircuitOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		res := anyWire(t)
		count := map[*wire.Circuit]int{}
		for _, l := range grown(res).all {
			if l.run != nil {
				count[l.run]++
			}
		}
		for i := range res.Circuits {
			if n := count[&res.Circuits[i]]; n != 1 {
				t.Fatalf("circuit %s stands %d times", res.Circuits[i].Name, n)
			}
		}
	})
}

func TestOneLineLabelsNeverOverlap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		res := anyWire(t)
		o := Options{Width: rapid.IntRange(300, 1400).Draw(t, "width"), Units: q.System(rapid.IntRange(0, 1).Draw(t, "units"))}
		if said := oneLineOf(res, o); said != "" {
			t.Fatal(said)
		}
	})
}

// anyWire draws a result whose circuits may lead anywhere: in rings, twice, from
// nowhere, with names as odd as a rig file allows.
func anyWire(t *rapid.T) *wire.Result {
	kinds := []string{wire.KindModules, wire.KindBank, wire.KindBus, wire.KindCharger, wire.KindPanels, wire.KindConverter, wire.KindLoad, wire.KindOther}
	res := &wire.Result{ShortA: rapid.Float64Range(0, 1e5).Draw(t, "short")}
	names := []string{}
	for i := range rapid.IntRange(0, 9).Draw(t, "nodes") {
		name := anyName(t) + strings.Repeat("'", i)
		kind := rapid.SampledFrom(kinds).Draw(t, "kind")
		if i < 3 && rapid.Bool().Draw(t, "usual") {
			kind = kinds[i]
		}
		names = append(names, name)
		res.Nodes = append(res.Nodes, wire.Node{Name: name, Kind: kind, Detail: anyName(t), Path: "node." + name})
	}
	names = append(names, "unlisted", "")
	for i := range rapid.IntRange(0, 14).Draw(t, "circuits") {
		c := wire.Circuit{Name: fmt.Sprint("run ", i), Path: rapid.SampledFrom([]string{"", fmt.Sprint("cables.", i)}).Draw(t, "path"),
			From: rapid.SampledFrom(names).Draw(t, "from"), To: rapid.SampledFrom(names).Draw(t, "to"), Count: rapid.IntRange(0, 6).Draw(t, "count"),
			Size: rapid.SampledFrom([]string{"", "4/0 AWG", "1.5 mm²", "240 mm²"}).Draw(t, "size"), LengthM: rapid.Float64Range(0, 500).Draw(t, "length"),
			FuseA: rapid.SampledFrom([]float64{0, 7.5, 300}).Draw(t, "fuse"), FuseName: anyName(t), FuseClass: anyName(t), InterruptA: rapid.Float64Range(0, 1e5).Draw(t, "interrupt")}
		c.Proposed, c.FuseProposed, c.FuseShared, c.LengthAssumed = rapid.Bool().Draw(t, "proposed"), rapid.Bool().Draw(t, "fuse proposed"), rapid.Bool().Draw(t, "shared"), rapid.Bool().Draw(t, "assumed")
		if rapid.Bool().Draw(t, "switched") {
			c.SwitchName = anyName(t)
			res.Contactors = append(res.Contactors, wire.Contactor{Name: c.SwitchName, Path: "switch." + c.Name, ContinuousA: 250})
			res.PreCharge = &wire.PreCharge{Contactor: c.SwitchName, Ohm: 22}
		}
		res.Circuits = append(res.Circuits, c)
		res.Fuses = append(res.Fuses, wire.Fuse{Name: c.FuseName, Path: "fuse." + c.Name, Circuit: c.Name, InterruptA: rapid.Float64Range(0, 1e5).Draw(t, "rating")})
		for _, where := range []string{c.Path, "fuse." + c.Name, "switch." + c.Name, "node." + c.To} {
			if rapid.Bool().Draw(t, "broken") {
				res.Findings = append(res.Findings, finding.Finding{ID: "cable-too-small", Severity: finding.Stop, Where: where + ".size"})
			}
		}
	}
	return res
}

func TestOneLineOfNothing(t *testing.T) {
	svg := OneLine(&wire.Result{}, Options{Standalone: true})
	checkXML(t, svg)
	if !strings.Contains(svg, "No circuit can be drawn yet.") {
		t.Error("nothing says that there is nothing")
	}
}

func BenchmarkOneLine(b *testing.B) {
	res := wired(b, "curlew-draft")
	for b.Loop() {
		OneLine(res, Options{})
	}
}
