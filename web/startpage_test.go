package web

import (
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"ampstead/rig"
	"ampstead/start"
)

// heronAnswers answer every question, three of them with "I do not know".
func heronAnswers() url.Values {
	return url.Values{"name": {"Heron"}, "units": {"metric"}, "winter": {"LEAM"}, "summer": {"same"}, "coldest": {"cold"}, "battery": {"module-flat"},
		"groups": {"12"}, "capacity": {"?"}, "modules": {"2"}, "charge": {"solar, alternator"}, "panels": {"4 x 330 W"}, "chargers": {"?"},
		"inverter": {"3000 W"}, "loads": {"lights, fridge, sewing machine 90 W 2 h"}, "guards": {"meter"}, "fuse": {"?"}}
}

func startWith(form url.Values) string { return "/start?" + form.Encode() }

// The conversation goes on with the first question that has no answer, and ends
// with all of them.
func TestStartAsksOneAfterAnother(t *testing.T) {
	v, _ := visitWorkshop(t, "", "dipper")
	status, body := v.get("/start")
	if status != http.StatusOK {
		t.Fatal(status)
	}
	contains(t, "/start", body, "What do you call it?", "<b>1</b> of 16", "I do not know", "Nothing is stored before the end", "<svg")
	to := v.next("/start?ask=name&typed=Heron")
	if to != "/start?name=Heron" {
		t.Errorf("leads to %s", to)
	}
	_, body = v.get(to)
	contains(t, to, body, "Which units do you read?", "<b>2</b> of 16", `name="name" value="Heron"`, `href="/start?at=name&amp;name=Heron"`)
	if to = v.next(to + "&ask=units&answer=%3F"); to != "/start?name=Heron&units=%3F" {
		t.Errorf("leads to %s", to)
	}
	_, body = v.get(startWith(heronAnswers()))
	contains(t, "the end", body, "All answers", "<b>I do not know.</b>", "Taken as for lead-acid", "Write the rig file", "What to do next", "Connect nothing yet", "4 × 330 W, 1320 W in all")
}

// A place that is picked from several counts, not what was typed before.
func TestStartTakesThePlaceThatIsPicked(t *testing.T) {
	v, _ := visitWorkshop(t, "", "dipper")
	if to := v.next("/start?ask=winter&typed=Athens&answer=LGAV"); to != "/start?winter=Athens+Eleftherios+Venizelos+International+Airport%2C+Greece" {
		t.Errorf("leads to %s", to)
	}
	if to := v.next("/start?ask=loads&typed=press+800+W+1+h&answer=lights"); to != "/start?loads=lights%2C+press+800+W+1+h" {
		t.Errorf("leads to %s", to)
	}
}

// next follows an answer to the question after it.
func (v *visitor) next(path string) string {
	v.t.Helper()
	res := v.do(httptestGet(path))
	if res.StatusCode != http.StatusSeeOther {
		v.t.Fatalf("%s: status %d", path, res.StatusCode)
	}
	return res.Header.Get("Location")
}

func TestStartRefusesBesideTheField(t *testing.T) {
	v, _ := visitWorkshop(t, "", "dipper")
	for path, want := range map[string][]string{
		"/start?ask=capacity&typed=94":                      {"neither a charge nor an energy", `aria-invalid="true"`, `value="94"`},
		"/start?ask=winter&typed=Athens":                    {"several places are called", "Which of these?", `name="answer" value="LGAV"`},
		"/start?ask=battery&answer=lipo":                    {"none of the choices"},
		"/start?ask=charge":                                 {"there is no answer"},
		"/start?ask=loads&answer=lights&typed=press+9":      {"is not understood", `value="lights" checked`, `value="press 9"`},
		"/start?ask=name&typed=" + strings.Repeat("x", 300): {"is very long"},
	} {
		status, body := v.get(path)
		if status != http.StatusUnprocessableEntity {
			t.Errorf("%s: status %d", path, status)
		}
		contains(t, path, body, append(want, "I do not know")...)
	}
}

// What an address carries that is no answer is left out; nothing of it is shown
// as markup.
func TestStartBearsAnyAddress(t *testing.T) {
	v, _ := visitWorkshop(t, "", "dipper")
	for _, query := range []string{"at=nothing", "ask=nothing", "at=panels&charge=none", "groups=%00%ff", "name=%3Cscript%3Ealert(1)%3C/script%3E&at=all", "picture=1", "picture=1&ask=fuse&typed=%3Cb%3E", "at=all", "modules=1&modules=2"} {
		status, body := v.get("/start?" + query)
		if status != http.StatusOK || strings.Contains(body, "<script>alert") {
			t.Errorf("%s: status %d", query, status)
		}
	}
}

func TestStartPictureShowsAnAnswerBeforeItIsGiven(t *testing.T) {
	v, _ := visitWorkshop(t, "", "dipper")
	status, body := v.get("/start?picture=1&ask=groups&typed=14")
	if status != http.StatusOK || strings.Contains(body, "<html") {
		t.Errorf("status %d", status)
	}
	contains(t, "picture", body, "14 groups", "for-phone")
}

func TestStartWritesANewFolder(t *testing.T) {
	v, folder := visitWorkshop(t, "", "dipper")
	form := heronAnswers()
	form.Set("write", "yes")
	for _, slug := range []string{"heron", "heron-2"} {
		res := v.post("/start", form)
		if to := res.Header.Get("Location"); res.StatusCode != http.StatusSeeOther || to != "/rigs/"+slug+"/" {
			t.Fatalf("status %d to %q", res.StatusCode, to)
		}
		text, err := os.ReadFile(filepath.Join(folder, slug, rig.FileName))
		if err != nil {
			t.Fatal(err)
		}
		contains(t, slug, string(text), "name: Heron", start.MarkUnknown+": capacity", "from: 2026-10-01")
		if status, body := v.get("/rigs/" + slug + "/"); status != http.StatusOK || !strings.Contains(body, "Heron") {
			t.Errorf("its home: status %d", status)
		}
	}
	if _, body := v.get("/rigs"); !strings.Contains(body, "/rigs/heron/") {
		t.Error("it is not among the rigs")
	}
}

// Wherever the name would lead, the folder lies right in the workshop.
func TestStartStaysInTheWorkshop(t *testing.T) {
	v, folder := visitWorkshop(t, "", "dipper")
	for _, name := range []string{"../../outside", "/etc/passwd", `..\..\x`, ".", "..", "CON", "Żółw", "dipper", "a\x00b", strings.Repeat("long ", 11)} {
		res := v.post("/start", url.Values{"name": {name}, "write": {"yes"}})
		to := res.Header.Get("Location")
		slug, _ := strings.CutSuffix(strings.TrimPrefix(to, "/rigs/"), "/")
		if res.StatusCode != http.StatusSeeOther || slug == "" || strings.ContainsAny(slug, `/\.`) {
			t.Errorf("%q: status %d to %q", name, res.StatusCode, to)
			continue
		}
		if _, err := rig.Open(filepath.Join(folder, slug)); err != nil {
			t.Errorf("%q: %v", name, err)
		}
	}
	if entries, err := os.ReadDir(filepath.Dir(folder)); err != nil || len(entries) != 1 {
		t.Errorf("around the workshop: %v, %v", entries, err)
	}
	if text, err := os.ReadFile(filepath.Join(folder, "dipper", rig.FileName)); err != nil || !strings.Contains(string(text), "# Dipper: a short van") {
		t.Error("the rig that was there has been touched")
	}
}

func TestStartWritesOnlyWhenItIsTold(t *testing.T) {
	v, folder := visitWorkshop(t, "", "dipper")
	if res := v.post("/start", heronAnswers()); res.StatusCode != http.StatusUnprocessableEntity {
		t.Errorf("status %d", res.StatusCode)
	}
	v.get(startWith(heronAnswers()))
	if list, err := os.ReadDir(folder); err != nil || len(list) != 1 {
		t.Errorf("%v, %v", list, err)
	}
}

func TestStartSaysWhyItCannotWrite(t *testing.T) {
	v, folder := visitWorkshop(t, "", "dipper")
	if err := os.Rename(folder, folder+"-gone"); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(folder + "-gone") })
	form := heronAnswers()
	form.Set("write", "yes")
	status, body := v.read(v.post("/start", form))
	if status != http.StatusInternalServerError {
		t.Errorf("status %d", status)
	}
	contains(t, "/start", body, "could not be written", `value="Heron"`)
}

func TestStartNeedsAWorkshop(t *testing.T) {
	v := visit(t, "dipper")
	status, body := v.get("/start")
	if status != http.StatusOK {
		t.Errorf("status %d", status)
	}
	contains(t, "/start", body, "ampstead serve FOLDER")
	before := v.tree()
	if res := v.post("/start", url.Values{"write": {"yes"}}); res.StatusCode != http.StatusNotFound || v.tree() != before {
		t.Errorf("status %d", res.StatusCode)
	}
}

// Every question can be left with "I do not know", one after another, to the end.
func TestStartIsNeverStuck(t *testing.T) {
	v, _ := visitWorkshop(t, "", "dipper")
	to, asked := "/start", []string{}
	for range 30 {
		_, body := v.get(to)
		if strings.Contains(body, "Write the rig file") {
			break
		}
		_, rest, ok := strings.Cut(body, `name="ask" value="`)
		if !ok || !strings.Contains(body, `name="answer" value="?"`) {
			t.Fatalf("%s cannot be left open", to)
		}
		key, _, _ := strings.Cut(rest, `"`)
		asked = append(asked, key)
		path, query, _ := strings.Cut(to, "?")
		to = v.next(path + "?" + strings.TrimPrefix(query+"&", "&") + "ask=" + key + "&answer=%3F")
	}
	if !slices.Equal(asked, start.Keys()) {
		t.Errorf("asked %v", asked)
	}
}
