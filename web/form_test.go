package web

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"

	"ampstead/examples"
	"ampstead/quantity"
	"ampstead/rig"
)

// act presses a button of an item as a browser without scripts does.
func (v *visitor) act(do string, pairs ...string) *http.Response {
	v.t.Helper()
	f := url.Values{"do": {do}, "seen": {stampOf([]byte(v.onDisk()))}}
	for i := 0; i < len(pairs); i += 2 {
		f.Set(pairs[i], pairs[i+1])
	}
	return v.post("/rig/item", f)
}

// liveAct is act as the form's module does it.
func (v *visitor) liveAct(do string, pairs ...string) (int, liveAnswer) {
	v.t.Helper()
	v.header["Accept"] = "application/json"
	defer delete(v.header, "Accept")
	status, body := v.read(v.act(do, pairs...))
	var a liveAnswer
	if err := json.Unmarshal([]byte(body), &a); err != nil {
		v.t.Fatalf("answer %d %q: %v", status, body, err)
	}
	return status, a
}

func (v *visitor) rig() *rig.Rig {
	v.t.Helper()
	f, err := rig.Open(v.file)
	if err != nil {
		v.t.Fatal(err)
	}
	return f.Rig
}

func TestFormIsClosedAndSmall(t *testing.T) {
	for _, name := range examples.Names() {
		v := visit(t, name)
		_, body := v.get("/rig")
		if strings.Contains(body, `name="v:`) {
			t.Errorf("%s: a value is shown though nothing was opened", name)
		}
		if len(body) > 100_000 {
			t.Errorf("%s: %d bytes, want at most 100 kB", name, len(body))
		}
		contains(t, name, body, `id="contents"`, `name="find"`, "Add a charger")
	}
}

func TestFormOpensWhatIsAskedFor(t *testing.T) {
	v := visit(t, "curlew-draft")
	for query, shown := range map[string][]string{
		"open=heater":                          {`name="v:heater.on"`},
		"open=heater&open=bank":                {`name="v:heater.on"`, `name="v:bank.series"`},
		"at=charge.roof+solar.settings.float":  {`name="v:charge.roof solar.settings.float"`},
		"at=bank.limits.max_voltage":           {`<details class="more" open>`, `name="v:bank.limits.max_voltage"`},
		"find=float":                           {`name="v:charge.mains charger.settings.float"`, "What goes with “float”"},
		"find=roof+equalise":                   {`name="v:charge.roof solar.settings.equalise"`},
		"find=zebra":                           {"Nothing here is called “zebra”"},
		"new=charge.roof+solar":                {"autofocus"},
		"open=nothing&at=..&find=&new=a.b.c.d": {"Add a charger"},
	} {
		status, body := v.get("/rig?" + query)
		if status != http.StatusOK {
			t.Errorf("%s: status %d", query, status)
		}
		contains(t, query, body, shown...)
	}
	if _, body := v.get("/rig?find=roof+equalise"); strings.Count(body, `class="field`) != 1 {
		t.Error("more was found than was looked for")
	}
}

// Every way into the form that a section without scripts needs is there: its own link,
// and every value of the file under one of them.
func TestEveryValueIsReachedWithoutScripts(t *testing.T) {
	v := visit(t, "curlew")
	_, body := v.get("/rig")
	shown := map[string]bool{}
	for _, m := range regexp.MustCompile(`href="/rig\?open=([^"#]+)#`).FindAllStringSubmatch(body, -1) {
		path, err := url.QueryUnescape(m[1])
		if err != nil {
			t.Fatal(err)
		}
		_, opened := v.get("/rig?open=" + url.QueryEscape(path))
		for _, f := range regexp.MustCompile(`name="v:([^"]+)"`).FindAllStringSubmatch(opened, -1) {
			shown[f[1]] = true
		}
	}
	file, err := rig.Open(v.file)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range rig.Fields(file) {
		if !shown[f.Path] {
			t.Errorf("%s is behind no link", f.Path)
		}
	}
}

func TestPartOfTheForm(t *testing.T) {
	v := visit(t, "curlew-draft")
	status, body := v.get("/rig/part?of=heater")
	var a liveAnswer
	if err := json.Unmarshal([]byte(body), &a); err != nil || status != http.StatusOK {
		t.Fatal(status, err)
	}
	contains(t, "part", a.Parts["s-heater-body"], `name="v:heater.on"`, "Save heater")
	if a.Stamp != stampOf([]byte(v.onDisk())) || len(a.Parts) != 1 {
		t.Errorf("stamp %q, %d parts", a.Stamp, len(a.Parts))
	}
	if status, _ := v.get("/rig/part?of=nobody"); status != http.StatusOK {
		t.Errorf("a part that is not there: %d", status)
	}
	if status, _ := visitText(t, "about: [").get("/rig/part"); status != http.StatusConflict {
		t.Errorf("a damaged file: %d", status)
	}
}

func TestAddWithoutScripts(t *testing.T) {
	v := visit(t, "curlew-draft")
	before := v.onDisk()
	res := v.act("add:charge", "new.kind", "mains", "new.name", "shore charger")
	to := res.Header.Get("Location")
	if res.StatusCode != http.StatusSeeOther || to != "/rig?did=added&new=charge.shore+charger" {
		t.Fatalf("%d to %q", res.StatusCode, to)
	}
	contains(t, "file", v.onDisk(), "  - name: shore charger\n    kind: mains\n    limit: 60 A   # CHECK: an example\n")
	_, body := v.get(to)
	contains(t, "form", body, "Added.", `id="s-charge.shore_charger" data-path="charge.shore charger" open`, "autofocus", "Still to be checked: an example.", "It is right so", "1 to check")

	if res = v.act("check:charge.shore charger.limit"); res.StatusCode != http.StatusSeeOther {
		t.Fatalf("check: %d", res.StatusCode)
	}
	if strings.Contains(v.onDisk(), "CHECK") {
		t.Error("the mark stayed")
	}
	res = v.act("remove:charge.shore charger")
	if to := res.Header.Get("Location"); to != "/rig?did=removed#g-charge" {
		t.Errorf("remove: %d to %q", res.StatusCode, to)
	}
	if v.onDisk() != before {
		t.Error("added and removed, the file is another one")
	}
}

func TestAddFromTheScript(t *testing.T) {
	v := visit(t, "curlew-draft")
	status, a := v.liveAct("add:protection.fuses", "new.name", "solar fuse", "open", "heater")
	if status != http.StatusOK || !a.Saved || a.Go != elementID("protection.fuses.solar fuse") {
		t.Fatalf("%d %+v", status, a)
	}
	contains(t, "sections", a.Parts["sections"], `id="s-protection.fuses.solar_fuse"`, `name="v:protection.fuses.solar fuse.rating"`, `name="v:heater.on"`)
	if a.Parts["panel"] == "" || a.Stamp != stampOf([]byte(v.onDisk())) {
		t.Error("no panel, or an old stamp")
	}
	// A changed value takes its mark away, and only the value.
	if status, a := v.live("protection.fuses.solar fuse.rating", "40 A", "200 A"); status != http.StatusOK {
		t.Fatalf("%d %+v", status, a)
	}
	contains(t, "file", v.onDisk(), "rating: 40 A\n")
}

// Whatever the page offers to add can be added, with and without scripts, and what is
// said to lack something is not offered.
func TestEverythingThatIsOfferedCanBeAdded(t *testing.T) {
	for _, name := range []string{"curlew-draft", "dipper"} {
		text, err := examples.Read(name)
		if err != nil {
			t.Fatal(err)
		}
		v := visit(t, name)
		file, err := rig.Open(v.file)
		if err != nil {
			t.Fatal(err)
		}
		for _, a := range rig.FormOf(file).Additions {
			v.write(string(text))
			res := v.act("add:" + a.Path)
			if a.Lacks == "" && res.StatusCode != http.StatusSeeOther {
				_, body := v.read(res)
				t.Errorf("%s: add %s: %d %.200s", name, a.Path, res.StatusCode, body)
			}
			if res.StatusCode == http.StatusSeeOther {
				if status, body := v.get(res.Header.Get("Location")); status != http.StatusOK || !strings.Contains(body, "Added.") {
					t.Errorf("%s: after adding %s: %d", name, a.Path, status)
				}
			}
		}
	}
}

func TestRefusedAdditionKeepsWhatWasTyped(t *testing.T) {
	v := visit(t, "curlew-draft")
	before := v.onDisk()
	status, body := v.read(v.act("add:charge", "new.kind", "mains", "new.name", "roof solar"))
	if status != http.StatusUnprocessableEntity {
		t.Errorf("status %d", status)
	}
	contains(t, "form", body, `value="roof solar"`, "is taken", `<details class="add" id="a-charge" open>`, `value="mains" checked`)
	status, a := v.liveAct("add:charge", "new.name", "a.b")
	if status != http.StatusUnprocessableEntity || a.Saved || !strings.Contains(a.Say, "dot") || !strings.Contains(a.Parts["sections"], `value="a.b"`) {
		t.Errorf("%d %q", status, a.Say)
	}
	if v.onDisk() != before {
		t.Error("the file changed")
	}
}

func TestRemoveSaysWhatHoldsItAndTakesItsCable(t *testing.T) {
	v := visit(t, "curlew-draft")
	_, body := v.get("/rig?open=inverters.mains+inverter")
	contains(t, "form", body, "cannot be removed while these name it", ">glue pot</a>", `href="/rig?at=loads.glue%20pot.on#loads.glue_pot.on"`)
	if strings.Contains(body, `value="remove:inverters.mains inverter"`) {
		t.Error("a button removes what cannot be removed")
	}
	before := v.onDisk()
	status, body := v.read(v.act("remove:inverters.mains inverter"))
	if status != http.StatusUnprocessableEntity || v.onDisk() != before {
		t.Errorf("status %d", status)
	}
	contains(t, "refusal", body, "still names it")
	_, body = v.get("/rig?open=charge.roof+solar")
	contains(t, "form", body, "bus to solar goes with it", `value="remove:charge.roof solar"`, `value="copy:charge.roof solar.panels.left side"`)
	if res := v.act("remove:charge.roof solar"); res.StatusCode != http.StatusSeeOther {
		t.Fatalf("status %d", res.StatusCode)
	}
	if got := v.rig(); len(got.Charge) != 2 || len(got.Cables) != 5 {
		t.Errorf("%d chargers, %d cables", len(got.Charge), len(got.Cables))
	}
}

func TestCopyFromThePage(t *testing.T) {
	v := visit(t, "curlew-draft")
	res := v.act("copy:loads.lights")
	if to := res.Header.Get("Location"); to != "/rig?did=copied&new=loads.lights+2" {
		t.Fatalf("%d to %q", res.StatusCode, to)
	}
	status, a := v.liveAct("copy:charge.roof solar.panels.left side", "open", "charge.roof solar")
	if status != http.StatusOK || a.Go != elementID("charge.roof solar.panels.left side 2") {
		t.Fatalf("%d %+v", status, a.Go)
	}
	contains(t, "sections", a.Parts["sections"], `id="p-`+a.Go+`"`)
}

// A new name goes wherever the thing is named, and the open sections follow it.
func TestRenameTakesReferencesAlong(t *testing.T) {
	v := visit(t, "curlew-draft")
	v.header["Accept"] = "application/json"
	res := v.post("/rig/set", url.Values{"path": {"inverters.mains inverter.name"}, "value": {"big inverter"}, "was": {"mains inverter"},
		"seen": {stampOf([]byte(v.onDisk()))}, "open": {"inverters.mains inverter"}})
	delete(v.header, "Accept")
	var a liveAnswer
	_, body := v.read(res)
	if err := json.Unmarshal([]byte(body), &a); err != nil || !a.Saved {
		t.Fatal(err, body)
	}
	if text := v.onDisk(); strings.Contains(text, "mains inverter") || strings.Count(text, "big inverter") != 5 {
		t.Errorf("names: %d", strings.Count(text, "big inverter"))
	}
	contains(t, "sections", a.Parts["sections"], `name="v:inverters.big inverter.power"`)
	if a.Renames["inverters.mains inverter"] != "inverters.big inverter" {
		t.Errorf("%v", a.Renames)
	}
	res = v.post("/rig/set", form("inverters.big inverter", "inverters.big inverter.name", "big inverter", "mains inverter", "inverters.big inverter.idle", "18 W", "17 W"))
	if to := res.Header.Get("Location"); to != "/rig?open=inverters.mains+inverter&saved=2#s-inverters.mains_inverter" {
		t.Errorf("%d to %q", res.StatusCode, to)
	}
	if status, a := v.live("inverters.mains inverter.name", "roof solar", "mains inverter"); status != http.StatusUnprocessableEntity {
		t.Errorf("a name that is taken: %d %+v", status, a)
	}
}

// What was typed in a section is saved with the button of an item in it.
func TestItemButtonSavesTheSectionToo(t *testing.T) {
	v := visit(t, "curlew-draft")
	res := v.act("copy:charge.roof solar.panels.left side", "section", "charge.roof solar", "v:charge.roof solar.limit", "50 A", "w:charge.roof solar.limit", "45 A",
		"v:charge.roof solar.name", "sun charger", "w:charge.roof solar.name", "roof solar")
	if to := res.Header.Get("Location"); to != "/rig?did=copied&new=charge.sun+charger.panels.left+side+2" {
		t.Fatalf("%d to %q", res.StatusCode, to)
	}
	contains(t, "file", v.onDisk(), "limit: 50 A", "name: sun charger", "to: sun charger", "left side 2")
	before := v.onDisk()
	status, body := v.read(v.act("remove:charge.sun charger.panels.left side 2", "section", "charge.sun charger", "v:charge.sun charger.limit", "lots", "w:charge.sun charger.limit", "50 A"))
	if status != http.StatusUnprocessableEntity || v.onDisk() != before {
		t.Errorf("status %d", status)
	}
	contains(t, "form", body, `value="lots"`)
}

func TestItemOfAnotherFileIsNotRemoved(t *testing.T) {
	v := visit(t, "curlew-draft")
	seen := stampOf([]byte(v.onDisk()))
	changed := strings.Replace(v.onDisk(), "mass: 52 kg", "mass: 54 kg", 1)
	v.write(changed)
	for _, do := range []string{"remove:charge.roof solar", "copy:loads.lights", "check:bank.mass"} {
		status, body := v.read(v.post("/rig/item", url.Values{"do": {do}, "seen": {seen}}))
		if status != http.StatusConflict {
			t.Errorf("%s: status %d", do, status)
		}
		contains(t, do, body, "changed meanwhile by someone else", "Nothing was saved")
	}
	if v.onDisk() != changed {
		t.Error("the file changed")
	}
	if res := v.post("/rig/item", url.Values{"do": {"add:loads"}, "seen": {seen}}); res.StatusCode != http.StatusSeeOther {
		t.Errorf("adding disturbs nobody: %d", res.StatusCode)
	}
}

func TestMisshapenItems(t *testing.T) {
	v := visit(t, "curlew-draft")
	before := v.onDisk()
	for do, want := range map[string]int{
		"": 400, "add:": 400, "fly:charge": 400, "add": 400, "remove:bank": 422, "remove:bank.series": 422, "remove:nobody": 422, "copy:heater": 422,
		"add:about": 422, "add:bank.series": 422, "add:..": 422, "copy:charge.nobody": 422, "check:nowhere": 422, "remove:about": 422,
	} {
		if res := v.act(do); res.StatusCode != want {
			t.Errorf("%q: status %d, want %d", do, res.StatusCode, want)
		}
	}
	if v.onDisk() != before {
		t.Error("the file changed")
	}
	damaged := visitText(t, "about: [")
	if status, body := damaged.read(damaged.act("add:charge")); status != http.StatusOK || !strings.Contains(body, `name="text"`) {
		t.Errorf("damaged: %d", status)
	}
}

// What a page may not change, it cannot add, copy or rename into being either.
func TestItemsKeepOffWhatAPageMayNotChange(t *testing.T) {
	v := visit(t, "curlew-draft")
	before := v.onDisk()
	for _, extra := range [][]string{
		{"new.command", "/bin/sh"}, {"new.password_file", "/etc/shadow"}, {"new.password_variable", "HOME"},
	} {
		status, body := v.read(v.act("add:live", extra...))
		if status != http.StatusUnprocessableEntity {
			t.Errorf("%v: status %d", extra, status)
		}
		contains(t, extra[0], body, "changed in the file itself")
		if status, a := v.liveAct("add:live", extra...); status != http.StatusUnprocessableEntity || !strings.Contains(a.Say, "changed in the file itself") {
			t.Errorf("%v live: %d %q", extra, status, a.Say)
		}
	}
	if v.onDisk() != before {
		t.Error("the file changed")
	}
	if res := v.act("add:live"); res.StatusCode != http.StatusSeeOther {
		t.Fatalf("live without secrets: %d", res.StatusCode)
	}
	before = v.onDisk()
	status, _ := v.read(v.act("add:live.topics", "v:live.command", "/bin/sh", "w:live.command", ""))
	if status != http.StatusUnprocessableEntity || v.onDisk() != before {
		t.Errorf("beside another change: %d", status)
	}
	secret := visitText(t, before[:strings.Index(before, "\nlive:")]+"\nlive:\n  broker: mqtt://127.0.0.1:1883\n  password_file: secret.txt\n  topics:\n    - {topic: a, gives: current}\n")
	whole := secret.onDisk()
	if status, _ := secret.read(secret.act("copy:live.topics.0", "v:live.broker", "mqtt://10.0.0.9:1883", "w:live.broker", "mqtt://127.0.0.1:1883")); status != http.StatusUnprocessableEntity || secret.onDisk() != whole {
		t.Errorf("a secret sent elsewhere: %d", status)
	}
}

// The last edit says what it did to the findings, on the page and in the live answer.
func TestSinceTheLastEdit(t *testing.T) {
	v := visit(t, "curlew-draft")
	_, a := v.live(equalise, "off", "62.0 V")
	if !strings.Contains(a.Say, "gone") || !strings.Contains(a.Parts["panel"], "<del>") {
		t.Errorf("%q", a.Say)
	}
	_, body := v.get("/rig")
	contains(t, "form", body, "The last edit: ", "<del>")
	v.live("about.note", "x", "retired mobile library, home and bindery of two bookbinders")
	_, body = v.get("/rig")
	contains(t, "form", body, "The last edit changed no finding.", "short circuit of the bank", "worst drop, to ", "main fuse interrupts")
}

func TestValueStandsInTheReadersUnit(t *testing.T) {
	size := rig.Field{Kind: "conductor size", Written: "2 AWG"}
	for _, c := range []struct {
		field rig.Field
		units quantity.System
		want  string
	}{
		{rig.Field{Written: "120 °F", Dimension: quantity.Celsius}, quantity.Metric, "48.89 °C"},
		{rig.Field{Written: "120 °F", Dimension: quantity.Celsius}, quantity.US, ""},
		{rig.Field{Written: "18 ft", Dimension: quantity.Metres}, quantity.Metric, "5.486 m"},
		{rig.Field{Written: "5.5 m", Dimension: quantity.Metres}, quantity.Metric, ""},
		{rig.Field{Written: "5.5 m", Dimension: quantity.Metres}, quantity.US, "18.04 ft"},
		{rig.Field{Written: "90 min", Dimension: quantity.Seconds}, quantity.US, ""},
		{rig.Field{Written: "off", Dimension: quantity.Volts}, quantity.Metric, ""},
		{rig.Field{Written: "", Dimension: quantity.Metres}, quantity.Metric, ""},
		{size, quantity.Metric, "33.6 mm²"}, {size, quantity.US, ""},
		{rig.Field{Kind: "conductor size", Written: "16 mm2"}, quantity.Metric, ""},
	} {
		if got := aside(c.field, c.units); got != c.want {
			t.Errorf("%q: %q, want %q", c.field.Written, got, c.want)
		}
	}
	v := visit(t, "curlew")
	if status, a := v.live("bank.mass", "115 lb", "52 kg"); status != http.StatusOK || !strings.Contains(a.Parts["bank.mass-notes"], "= 52.16 kg") {
		t.Errorf("%d %q", status, a.Parts["bank.mass-notes"])
	}
	contains(t, "file", v.onDisk(), "mass: 115 lb")
}

func TestEveryGroupHasItsBrief(t *testing.T) {
	v := visit(t, "curlew")
	file, err := rig.Open(v.file)
	if err != nil {
		t.Fatal(err)
	}
	now := readingOf(file)
	for _, g := range now.form().Groups {
		brief, ok := briefs[g.Path]
		if !ok {
			t.Errorf("%s has none", g.Path)
		}
		for _, key := range regexp.MustCompile(`\{([^}=]+)=?\}`).FindAllStringSubmatch(brief, -1) {
			if !slices.ContainsFunc(schemaPaths, func(p string) bool { return p == g.Path+"."+key[1] }) {
				t.Errorf("%s: there is no %s", g.Path, key[1])
			}
		}
	}
	for _, g := range now.groups(sought{}) {
		for _, s := range g.Sections {
			if s.Brief == "" {
				t.Errorf("%s says nothing of itself", s.Path)
			}
		}
	}
}

// schemaPaths are the paths of all keys of a rig file, lists without their items.
var schemaPaths = func() []string {
	var list []string
	var schema struct {
		Properties map[string]json.RawMessage `json:"properties"`
		Defs       map[string]json.RawMessage `json:"$defs"`
	}
	if err := json.Unmarshal(rig.Schema(), &schema); err != nil {
		panic(err)
	}
	var walk func(at string, raw json.RawMessage)
	walk = func(at string, raw json.RawMessage) {
		list = append(list, at)
		if m := regexp.MustCompile(`"#/\$defs/([^"]+)"`).FindSubmatch(raw); m != nil {
			var def struct {
				Properties map[string]json.RawMessage `json:"properties"`
			}
			if err := json.Unmarshal(schema.Defs[string(m[1])], &def); err == nil {
				for key, inner := range def.Properties {
					walk(at+"."+key, inner)
				}
			}
		}
	}
	for key, inner := range schema.Properties {
		walk(key, inner)
	}
	return list
}()

func BenchmarkAddItem(b *testing.B) {
	v := visit(b, "curlew-draft")
	text := v.onDisk()
	for b.Loop() {
		b.StopTimer()
		v.write(text)
		f := url.Values{"do": {"add:charge"}, "new.kind": {"mains"}}
		r := httptest.NewRequest(http.MethodPost, "/rig/item", strings.NewReader(f.Encode()))
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r.Header.Set("Accept", "application/json")
		b.StartTimer()
		if res := v.do(r); res.StatusCode != http.StatusOK {
			b.Fatal(res.Status)
		}
	}
}

func BenchmarkFormPage(b *testing.B) {
	v := visit(b, "curlew")
	v.measure(b, "/rig")
}
