package picture

import (
	"fmt"
	"maps"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ampstead/internal/golden"
	"ampstead/start"
)

// told are answers at several stages of the conversation.
func told() map[string]start.Sketch {
	heron := start.Answers{"name": "Heron", "units": "metric", "winter": "LEAM", "summer": "ENBR", "coldest": "cold", "battery": "module-flat",
		"groups": "12", "capacity": "94 Ah", "modules": "2", "charge": "solar, alternator, mains", "panels": "4 x 330 W", "chargers": "lead-acid",
		"inverter": "3000 W", "loads": "lights, fridge, pump, laptop, kettle, workshop, sewing machine 90 W 2 h", "guards": "meter, relay, frost", "fuse": "150 A"}
	half := start.Answers{}
	for _, key := range []string{"name", "units", "winter", "summer", "coldest", "battery"} {
		half[key] = heron[key]
	}
	unknown := start.Answers{}
	for _, key := range start.Keys() {
		unknown[key] = start.Unknown
	}
	bare := maps.Clone(heron)
	for _, key := range []string{"charge", "inverter", "loads", "guards", "fuse"} {
		bare[key] = start.None
	}
	return map[string]start.Sketch{
		"empty": start.Draw(start.Answers{}, "name"), "half": start.Draw(half, "groups"), "full": start.Draw(heron, ""),
		"unknown": start.Draw(unknown, ""), "bare": start.Draw(bare, "fuse"),
	}
}

func TestStartGolden(t *testing.T) {
	for name, s := range told() {
		for _, width := range []int{340, 700} {
			golden.Check(t, fmt.Sprintf("start-%s-%d.svg", name, width), []byte(Start(&s, Options{Width: width})))
		}
	}
}

func TestStartMarkup(t *testing.T) {
	for name, s := range told() {
		svg := Start(&s, Options{Width: 340})
		if found := colour.FindString(svg); found != "" {
			t.Errorf("%s: colour or style %q in the drawing", name, found)
		}
		checkXML(t, svg)
		checkClasses(t, svg)
		if !strings.Contains(svg, `role="img" aria-labelledby="`) || !strings.Contains(svg, "</desc>") || len(svg) > 16<<10 {
			t.Errorf("%s: no name for those who do not see it, or %d bytes", name, len(svg))
		}
	}
}

// What is answered is drawn, what is not is faint, what is asked is in the accent.
func TestStartGrows(t *testing.T) {
	all := told()
	empty, half, full, unknown, bare := all["empty"], all["half"], all["full"], all["unknown"], all["bare"]
	for _, c := range []struct {
		s    start.Sketch
		has  []string
		lack []string
	}{
		{empty, []string{"Your rig", `class="unset"`}, []string{"fine", "dash"}},
		{half, []string{"Heron", "car module, flat cells", `class="strong"`, "near Bergen"}, []string{"12 groups", "inverter"}},
		{full, []string{"12 groups, 43.8 V", "94 Ah × 2", "1320 W of panels", "150 A fuse", "alternator charger", "mains hook-up", "watched by cell meter"}, []string{`"strong"`, `"dash"`}},
		{unknown, []string{"200 W of panels?", `class="dash"`, "all year"}, []string{`"strong"`, "watched by"}},
		{bare, []string{"12 groups, 43.8 V"}, []string{"panels", "inverter", "alternator", "hook-up"}},
	} {
		svg := Start(&c.s, Options{Width: 700})
		_, drawing, _ := strings.Cut(svg, "</desc>")
		for _, want := range c.has {
			if !strings.Contains(drawing, want) {
				t.Errorf("%s lacks %q", c.s.Name.Text, want)
			}
		}
		for _, no := range c.lack {
			if strings.Contains(drawing, no) {
				t.Errorf("%s has %q", c.s.Name.Text, no)
			}
		}
	}
}

// No two texts touch, whatever is said in the picture and however wide it is.
func TestStartLabelsNeverOverlap(t *testing.T) {
	texts := []string{"", "x", "12 groups, 43.8 V", "near Aeroparque Bs. As. Aerodrome, Argentina", strings.Repeat("Ж", 60), strings.Repeat("lights, pump, ", 12), "down to -13 °C?"}
	rapid.Check(t, func(t *rapid.T) {
		part := func(name string) start.Part {
			bit := func(what string) bool { return rapid.Bool().Draw(t, name+" "+what) }
			return start.Part{Given: bit("given"), Open: bit("open"), Asked: bit("asked"), None: bit("none"), Text: rapid.SampledFrom(texts).Draw(t, name)}
		}
		s := start.Sketch{Name: part("name"), Winter: part("winter"), Summer: part("summer"), WinterCold: rapid.SampledFrom(texts).Draw(t, "cold"), SummerCold: "nights to 4 °C",
			OnePlace: rapid.Bool().Draw(t, "one"), Battery: part("battery"), Groups: part("groups"), Capacity: part("capacity"), Kept: part("kept"),
			Series: rapid.IntRange(0, 200).Draw(t, "series"), Modules: rapid.IntRange(0, 20).Draw(t, "modules"), Cold: true,
			Solar: part("solar"), Alternator: part("alternator"), Mains: part("mains"), Panels: rapid.IntRange(0, 50).Draw(t, "panels"),
			Inverter: part("inverter"), Loads: part("loads"), Guards: part("guards"), Meter: part("meter"), Relay: part("relay"), Pad: part("pad"), Fuse: part("fuse")}
		c, height := startSketch(&s, Options{Width: rapid.IntRange(300, 1200).Draw(t, "width")})
		if said := overlapping(c, height); said != "" {
			t.Fatal(said)
		}
	})
}
