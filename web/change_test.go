package web

import (
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "ampstead/internal/fixedseed" // property tests draw the same every run
)

const equalise = "charge.roof solar.settings.equalise"

func TestLiveChangeMendsAFindingAndKeepsEveryOtherByte(t *testing.T) {
	v := visit(t, "curlew-draft")
	before := v.onDisk()
	status, a := v.live(equalise, "off", "62.0 V")
	if status != http.StatusOK || !a.Saved {
		t.Fatalf("status %d, %+v", status, a)
	}
	if want := strings.Replace(before, "equalise: 62.0 V", "equalise: off", 1); v.onDisk() != want {
		t.Error("more than the one value changed on disk")
	}
	id := elementID(equalise)
	if now := a.Fields[id]; now.Was != "off" || now.Value != "off" || now.Message != "" {
		t.Errorf("field %+v", now)
	}
	notes, sent := a.Parts[id+"-notes"]
	if !sent || strings.Contains(notes, "tag stop") {
		t.Errorf("notes sent %v: %q", sent, notes)
	}
	if a.Parts["panel"] == "" || a.Say != "Saved. The last edit: 1 finding gone." {
		t.Errorf("say %q, panel %q", a.Say, a.Parts["panel"])
	}
	if _, whole := a.Parts["sections"]; whole {
		t.Error("all sections were sent for one value")
	}
}

func TestLiveWrongValueStandsBesideTheFieldAndChangesNothing(t *testing.T) {
	v := visit(t, "curlew-draft")
	before := v.onDisk()
	for value, say := range map[string]string{
		"57.6":          "unit",
		"57.6 A":        "current",
		"9999 V":        "",
		"warm":          "",
		"5 V\nbank: {}": "",
		"5 V # no":      "",
		"\x00":          "",
	} {
		status, a := v.live("charge.roof solar.settings.absorption", value, "57.6 V")
		message := a.Fields[elementID("charge.roof solar.settings.absorption")].Message
		if status != http.StatusUnprocessableEntity || a.Saved || !strings.Contains(message, say) || message == "" {
			t.Errorf("%q: status %d, message %q", value, status, message)
		}
	}
	if v.onDisk() != before {
		t.Error("the file changed")
	}
}

func TestPathThatIsNotInTheFile(t *testing.T) {
	v := visit(t, "curlew-draft")
	before := v.onDisk()
	for _, path := range []string{"charge.nobody.limit", "bank.wheels", "", "..", "charge[", "about.name.x", "../../etc/passwd"} {
		if status, a := v.live(path, "5 A", ""); status == http.StatusOK || a.Saved {
			t.Errorf("%q: status %d", path, status)
		}
	}
	if v.onDisk() != before {
		t.Error("the file changed")
	}
}

func TestConflictShowsTheNewValueAndASecondSaveMeansIt(t *testing.T) {
	v := visit(t, "curlew-draft")
	v.get("/rig")
	byHand := strings.Replace(v.onDisk(), "equalise: 62.0 V", "equalise: 61.0 V", 1)
	v.write(byHand)
	status, a := v.live(equalise, "off", "62.0 V")
	now := a.Fields[elementID(equalise)]
	if status != http.StatusConflict || !strings.Contains(now.Message, "61.0 V") || now.Was != "61.0 V" || now.Value != "off" {
		t.Fatalf("status %d, %+v", status, now)
	}
	if v.onDisk() != byHand {
		t.Error("the file changed")
	}
	if status, a := v.live(equalise, now.Value, now.Was); status != http.StatusOK {
		t.Errorf("second save: %d %+v", status, a)
	}
}

func TestChangeElsewhereByHandIsNoConflict(t *testing.T) {
	v := visit(t, "curlew-draft")
	v.write(strings.Replace(v.onDisk(), "mass: 52 kg", "mass: 54 kg", 1))
	if status, _ := v.live(equalise, "off", "62.0 V"); status != http.StatusOK {
		t.Fatalf("status %d", status)
	}
	contains(t, "file", v.onDisk(), "mass: 54 kg", "equalise: off")
}

func TestNewNameSendsAllSections(t *testing.T) {
	v := visit(t, "curlew-draft")
	status, a := v.live("protection.meters.cell meter.name", "group meter", "cell meter")
	if status != http.StatusOK {
		t.Fatalf("status %d %+v", status, a)
	}
	contains(t, "sections", a.Parts["sections"], "group meter")
}

// form is a section as a browser without JavaScript posts it.
func form(section string, triples ...string) url.Values {
	f := url.Values{"section": {section}}
	for i := 0; i < len(triples); i += 3 {
		f.Set("w:"+triples[i], triples[i+1])
		f.Set("v:"+triples[i], triples[i+2])
	}
	return f
}

func TestPlainSaveRedirectsToItsSection(t *testing.T) {
	v := visit(t, "curlew-draft")
	res := v.post("/rig/set", form("charge.roof solar", equalise, "62.0 V", "off", "charge.roof solar.settings.float", "54.0 V", "none",
		"charge.roof solar.limit", "45 A", "45 A"))
	if res.StatusCode != http.StatusSeeOther || res.Header.Get("Location") != "/rig?open=charge.roof+solar&saved=2#s-charge.roof_solar" {
		t.Fatalf("%d to %q", res.StatusCode, res.Header.Get("Location"))
	}
	contains(t, "file", v.onDisk(), "equalise: off", "float: none", "# left as it came")
}

func TestPlainSaveThatIsWrongKeepsWhatWasTyped(t *testing.T) {
	v := visit(t, "curlew-draft")
	before := v.onDisk()
	res := v.post("/rig/set", form("charge.roof solar", equalise, "62.0 V", "off", "charge.roof solar.limit", "45 A", "forty <amps>"))
	status, body := v.read(res)
	if status != http.StatusUnprocessableEntity {
		t.Errorf("status %d", status)
	}
	contains(t, "form", body, `value="forty &lt;amps&gt;"`, `value="off"`, `aria-invalid="true"`, "Nothing was saved")
	if v.onDisk() != before {
		t.Error("the file changed: one wrong value must hold back the whole section")
	}
}

func TestPlainConflictSaysSo(t *testing.T) {
	v := visit(t, "curlew-draft")
	v.write(strings.Replace(v.onDisk(), "equalise: 62.0 V", "equalise: 61.0 V", 1))
	status, body := v.read(v.post("/rig/set", form("", equalise, "62.0 V", "off")))
	if status != http.StatusConflict {
		t.Errorf("status %d", status)
	}
	contains(t, "form", body, "Someone changed this meanwhile to 61.0 V", `name="w:`+equalise+`" value="61.0 V"`)
}

func TestTwoValuesThatAreOnlyRightTogether(t *testing.T) {
	v := visit(t, "curlew-draft")
	res := v.post("/rig/set", form("heater", "heater.on", "2 °C", "8 °C", "heater.off", "6 °C", "12 °C"))
	if res.StatusCode != http.StatusSeeOther {
		_, body := v.read(res)
		t.Fatalf("status %d: %s", res.StatusCode, body)
	}
	contains(t, "file", v.onDisk(), "on: 8 °C", "off: 12 °C")
}

func TestTakeTheRecommendedValue(t *testing.T) {
	v := visit(t, "curlew-draft")
	f := form("charge.roof solar", equalise, "62.0 V", "62.0 V")
	f.Set("take", equalise)
	if res := v.post("/rig/set", f); res.StatusCode != http.StatusSeeOther {
		t.Fatalf("status %d", res.StatusCode)
	}
	contains(t, "file", v.onDisk(), "equalise: off")
}

func TestMisshapenForms(t *testing.T) {
	v := visit(t, "curlew-draft")
	before := v.onDisk()
	many := url.Values{}
	for range mostEdits + 1 {
		many.Add("path", "about.note")
		many.Add("value", "x")
	}
	for name, f := range map[string]url.Values{
		"empty": {}, "no value": {"path": {"about.name"}}, "one value for two": {"path": {"a", "b"}, "value": {"x"}},
		"was short": {"path": {"a", "b"}, "value": {"x", "y"}, "was": {"z"}}, "too many": many,
	} {
		if res := v.post("/rig/set", f); res.StatusCode != http.StatusBadRequest {
			t.Errorf("%s: status %d", name, res.StatusCode)
		}
	}
	if v.onDisk() != before {
		t.Error("the file changed")
	}
}

func TestSetWhileTheFileIsDamaged(t *testing.T) {
	v := visitText(t, "about: [")
	status, a := v.live("about.name", "x", "")
	if status != http.StatusUnprocessableEntity || !strings.Contains(a.Say, "cannot be read") {
		t.Errorf("status %d, %q", status, a.Say)
	}
	status, body := v.read(v.post("/rig/set", form("", "about.name", "", "x")))
	if status != http.StatusOK || !strings.Contains(body, `name="text"`) {
		t.Errorf("plain: status %d", status)
	}
}

func TestFileThatCannotBeWrittenStaysWhole(t *testing.T) {
	if os.Geteuid() == 0 {
		// Root writes through any mode; a folder in the way stops even root.
		t.Log("running as root: the read-only half is left to other users")
	}
	v := visit(t, "curlew-draft")
	before := v.onDisk()
	dir := filepath.Dir(v.file)
	if err := os.Chmod(dir, 0o555); err != nil {
		t.Fatal(err)
	}
	defer os.Chmod(dir, 0o755) //nolint:errcheck // the folder goes away with the test
	res := v.post("/rig/set", form("", equalise, "62.0 V", "off"))
	if res.StatusCode == http.StatusInternalServerError && v.onDisk() != before {
		t.Error("the file changed though saving failed")
	}
	if res.StatusCode == http.StatusInternalServerError {
		if _, body := v.read(res); strings.Contains(body, dir) {
			t.Errorf("the answer names the folder: %s", body)
		}
	}
}

func TestElementIDsDoNotMeet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.String().Draw(t, "a"), rapid.String().Draw(t, "b")
		if a != b && elementID(a) == elementID(b) {
			t.Fatalf("%q and %q share %q", a, b, elementID(a))
		}
		if strings.ContainsAny(elementID(a), " \t\n\"'<>&#%") {
			t.Fatalf("%q has id %q", a, elementID(a))
		}
	})
}
