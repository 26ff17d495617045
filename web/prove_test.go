package web

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"ampstead/benchlog"
	"ampstead/physics/cell"
	"ampstead/prove"
)

const wren = "about: {name: Wren}\nbank: # the best of three\n  cell: nmc532\n  series: 3\n  cell_capacity: 94 Ah\n"

// benchLog is the log of three groups of 90 Ah discharged at 20 A, the second one
// 3 Ah behind.
func benchLog() string {
	kind, err := cell.Lookup("nmc532")
	if err != nil {
		return err.Error()
	}
	var b strings.Builder
	b.WriteString("time_s,voltage_v,current_a,group1_v,group2_v,group3_v\n")
	row := func(t, drawn, amps float64) (lowest float64) {
		sum, groups := 0.0, ""
		lowest = 9
		for _, behind := range []float64{0, 3, 0.5} {
			v := kind.Curve.Voltage(1-(drawn+behind)/90) + 0.001*amps
			sum, lowest = sum+v, min(lowest, v)
			groups += fmt.Sprintf(",%.3f", v)
		}
		fmt.Fprintf(&b, "%.0f,%.3f,%.1f%s\n", t, sum, amps, groups)
		return lowest
	}
	for t := 0.0; t <= 600; t += 60 {
		row(t, 0, 0)
	}
	t := 601.0
	for row(t, (t-600)/180, -20) > 3 {
		t += 30
	}
	for rest := 1.0; rest < 1800; rest += 60 {
		row(t+rest, (t-600)/180, 0)
	}
	return b.String()
}

// bench stands in for the reading of logs: it counts them, keeps the way they
// were to be read, and can hold them back.
type bench struct {
	mu   sync.Mutex
	ways []benchlog.Options
	hold gate
	fail error
}

func (f *bench) prove(ctx context.Context, name string, log io.Reader, layout benchlog.Options, o prove.Options) (*prove.Result, error) {
	f.mu.Lock()
	f.ways = append(f.ways, layout)
	f.mu.Unlock()
	if _, err := io.Copy(io.Discard, log); err != nil {
		return nil, err
	}
	if err := f.hold.pass(ctx); err != nil {
		return nil, err
	}
	if f.fail != nil {
		return nil, f.fail
	}
	return &prove.Result{Series: 3, Grade: "accept", CapacityAh: 82.5, CapacityErr: 0.4, CapacityHow: "discharge to the limit", Layout: benchlog.Layout{Line: "as told",
		Columns: []benchlog.Column{{Name: "a <b>", Role: benchlog.Time, Unit: "s"}, {Name: "b", Role: benchlog.GroupV, Unit: "mV", Group: 2}}}}, nil
}

func visitBench(t testing.TB, f *bench, change ...func(*Config)) *visitor {
	return visitText(t, wren, append(change, func(c *Config) {
		if f != nil {
			c.prover = f.prove
		}
	})...)
}

// sendFile sends a file as a browser's form does.
func (v *visitor) sendFile(name, text string) *http.Response {
	v.t.Helper()
	var body bytes.Buffer
	form := multipart.NewWriter(&body)
	part, err := form.CreateFormFile("log", name)
	if err != nil {
		v.t.Fatal(err)
	}
	io.WriteString(part, text)
	form.Close()
	r := httptest.NewRequest(http.MethodPost, "/prove", &body)
	r.Header.Set("Content-Type", form.FormDataContentType())
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	return v.do(r)
}

func (v *visitor) kept() []string {
	list, _ := filepath.Glob(filepath.Join(filepath.Dir(v.file), "bench", "*"))
	for i := range list {
		list[i] = filepath.Base(list[i])
	}
	return list
}

func TestProvePageWithoutALog(t *testing.T) {
	_, body := visitBench(t, nil).get("/prove")
	contains(t, "prove", body, `enctype="multipart/form-data"`, "up to 512 MB", "No log is kept with this rig yet", `action="/prove/plan"`)
}

// From sending to the rig, with the true reading of logs and no script.
func TestLogFromSendingToTheRig(t *testing.T) {
	v := visitBench(t, nil)
	res := v.sendFile("../My test.csv", benchLog())
	to := res.Header.Get("Location")
	if res.StatusCode != http.StatusSeeOther || !strings.HasPrefix(to, "/prove?test=") {
		t.Fatalf("status %d, to %q", res.StatusCode, to)
	}
	_, body := v.get(to)
	contains(t, "result", body, "Group 2 ends the discharge", "My-test.csv</b> was read as", "discharge-1040-title", `action="/prove/keep"`, "bank.measured.capacity", "not given")
	if len(v.kept()) > 0 {
		t.Fatalf("kept without being asked: %v", v.kept())
	}
	test := strings.TrimPrefix(to, "/prove?test=")
	res = v.post("/prove/keep", url.Values{"test": {test}})
	if to = res.Header.Get("Location"); to != "/prove?done=kept&log=My-test.csv" {
		t.Fatalf("kept: status %d, to %q", res.StatusCode, to)
	}
	if got := v.kept(); !slices.Equal(got, []string{"My-test.csv"}) {
		t.Fatalf("kept %v", got)
	}
	_, body = v.get(to)
	contains(t, "kept", body, "Kept with the rig", "shown here")
	_, body = v.get("/prove")
	contains(t, "newest", body, "Group 2 ends the discharge", `href="/prove?log=My-test.csv"`)

	res = v.post("/prove/write", url.Values{"log": {"My-test.csv"}, "path": {"bank.measured.date", "bank.measured.capacity", "bank.measured.groups.0.capacity", "bank.measured.groups.1.capacity", "bank.measured.groups.2.capacity"},
		"value": {"2026-11-20", "82 Ah", "90 Ah", "85 Ah", "90 Ah"}, "was": {"", "", "", "", ""}})
	if res.StatusCode != http.StatusSeeOther {
		_, said := v.read(res)
		t.Fatalf("write: status %d: %.400s", res.StatusCode, said)
	}
	contains(t, "file", v.onDisk(), "capacity: 82 Ah", "# the best of three", "      - capacity: 85 Ah")
	_, body = v.get(res.Header.Get("Location"))
	contains(t, "written", body, "Written into the rig: 5 values")
}

func TestWriteRefuses(t *testing.T) {
	v := visitBench(t, &bench{})
	for _, c := range []struct {
		path, value, was string
		status           int
	}{
		{"bank.series", "14", "3", http.StatusBadRequest}, {"about.name", "x", "Wren", http.StatusBadRequest}, {"bank.measured.capacity", "warm", "", http.StatusConflict},
		{"bank.measured.capacity", "80 Ah", "70 Ah", http.StatusConflict},
	} {
		res := v.post("/prove/write", url.Values{"path": {c.path}, "value": {c.value}, "was": {c.was}})
		if _, body := v.read(res); res.StatusCode != c.status || c.status == http.StatusConflict && !strings.Contains(body, "Nothing was written.") {
			t.Errorf("%+v: status %d", c, res.StatusCode)
		}
	}
	if v.onDisk() != wren {
		t.Error("the file changed")
	}
}

func TestLogTooLarge(t *testing.T) {
	v := visitBench(t, &bench{}, func(c *Config) { c.mostLog = 4096 })
	res := v.sendFile("big.csv", strings.Repeat("1,2,3\n", 2000))
	_, body := v.read(res)
	if res.StatusCode != http.StatusRequestEntityTooLarge {
		t.Fatalf("status %d", res.StatusCode)
	}
	contains(t, "too large", body, "larger than 4 kB", "ampstead prove reads logs of any size")
	p := v.handler.(*pages).hall.front.proofs
	if left, _ := os.ReadDir(p.folder); len(left) > 0 || len(p.uploads) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

func TestNoLogCame(t *testing.T) {
	v := visitBench(t, &bench{})
	if res := v.sendFile("", "x"); res.StatusCode != http.StatusBadRequest {
		t.Errorf("an empty choice: status %d", res.StatusCode)
	}
	if res := v.post("/prove", url.Values{"log": {"x"}}); res.StatusCode != http.StatusBadRequest {
		t.Errorf("a plain form: status %d", res.StatusCode)
	}
	for _, path := range []string{"/prove?test=none", "/prove?log=none.csv", "/prove?log=../rig.yaml", "/prove?log=%2Fetc%2Fpasswd"} {
		if status, body := v.get(path); status != http.StatusNotFound || !strings.Contains(body, "not here") {
			t.Errorf("%s: status %d", path, status)
		}
	}
	if res := v.post("/prove/keep", url.Values{"test": {"none"}}); res.StatusCode != http.StatusGone {
		t.Errorf("keeping nothing: status %d", res.StatusCode)
	}
}

func TestProvePostsFromElsewhereAreRefused(t *testing.T) {
	v := visitBench(t, &bench{})
	v.header = map[string]string{"Sec-Fetch-Site": "cross-site", "Origin": "https://example.org"}
	for _, path := range []string{"/prove", "/prove/keep", "/prove/layout", "/prove/write"} {
		if res := v.post(path, url.Values{"path": {"bank.measured.capacity"}, "value": {"1 Ah"}, "sign": {"charge"}}); res.StatusCode != http.StatusForbidden {
			t.Errorf("%s: status %d", path, res.StatusCode)
		}
	}
	if v.onDisk() != wren || len(v.kept()) > 0 {
		t.Error("something changed")
	}
}

func TestReadWay(t *testing.T) {
	way := readWay(url.Values{"role.1": {"time"}, "unit.1": {"s"}, "was.1": {"time s"}, "role.2": {"group 3"}, "unit.2": {" V "}, "was.2": {"group 2 mV"},
		"column": {"4=current mA,5=ignored", "2=power"}, "sign": {" discharge "}, "test": {"x"}, "decimal": {""}, "role.x": {"time"}, "groups": {"6"}})
	if got := way.Encode(); got != "column=4%3Dcurrent+mA&column=5%3Dignored&column=2%3Dgroup+3+V&groups=6&sign=discharge" {
		t.Errorf("%s", got)
	}
	o := layoutOf(way)
	if o.Sign != "discharge" || o.Groups != 6 || o.Columns["4"] != "current mA" || o.Columns["2"] != "group 3 V" || len(o.Columns) != 3 {
		t.Errorf("%+v", o)
	}
	if layoutOf(url.Values{"groups": {"many"}}).Groups != 0 {
		t.Error("many groups")
	}
}

func TestLayoutIsReadKeptAndForgotten(t *testing.T) {
	f := &bench{}
	v := visitBench(t, f)
	to := v.sendFile("a.csv", "1\n").Header.Get("Location")
	_, body := v.get(to)
	contains(t, "form", body, "a &lt;b&gt;", `<option selected>group 2</option>`, `name="was.2" value="group 2 mV"`)
	v.get(to + "&role.2=group+1&unit.2=V&was.2=group+2+mV&sign=discharge")
	if last := f.ways[len(f.ways)-1]; last.Sign != "discharge" || last.Columns["2"] != "group 1 V" {
		t.Errorf("read %+v", last)
	}
	v.post("/prove/layout", url.Values{"do": {"keep"}, "sign": {"discharge"}, "column": {"2=group 1 V"}})
	v.get(to)
	if last := f.ways[len(f.ways)-1]; last.Sign != "discharge" || last.Columns["2"] != "group 1 V" || !slices.Contains(v.kept(), "layout.json") {
		t.Errorf("read %+v", last)
	}
	_, body = v.get(to)
	contains(t, "kept", body, `value="forget"`)
	v.post("/prove/layout", url.Values{"do": {"forget"}})
	n := len(f.ways)
	_, body = v.get(to)
	if strings.Contains(body, `value="forget"`) || len(f.ways) != n {
		t.Error("not forgotten, or read anew though it was read so before")
	}
}

func TestLogThatCannotBeUnderstood(t *testing.T) {
	v := visitBench(t, &bench{fail: &benchlog.Error{Line: 7, Message: "no <column> holds a voltage", Expected: "a column of volts", Example: "12.4 V"}})
	_, body := v.get(v.sendFile("a.csv", "x").Header.Get("Location"))
	contains(t, "trouble", body, "cannot be understood, line 7: no &lt;column&gt; holds a voltage", "Expected: a column of volts", `<details class="layout" open>`, `name="column"`)
}

func TestReadingShowsProgress(t *testing.T) {
	f := &bench{hold: make(chan struct{})}
	v := visitBench(t, f)
	to := v.sendFile("a.csv", "x").Header.Get("Location")
	_, body := v.get(to)
	contains(t, "running", body, "0 of 1 MB read", "/static/progress.js", `<noscript><meta http-equiv="refresh" content="2"></noscript>`)
	_, body = v.get(strings.Replace(to, "/prove?", "/prove/progress?", 1))
	contains(t, "progress", body, `"over":false`)
	close(f.hold)
	_, body = v.get(to)
	contains(t, "done", body, "Accept, by what this log tells")
	if _, body = v.get("/prove/progress"); !strings.Contains(body, `"over":true`) {
		t.Error("without a log it is not over")
	}
}

func TestSentLogsAreDropped(t *testing.T) {
	v := visitBench(t, &bench{})
	first := v.sendFile("a.csv", "x").Header.Get("Location")
	for range heldUploads {
		v.sendFile("a.csv", "x")
	}
	p := v.handler.(*pages).hall.front.proofs
	if left, _ := os.ReadDir(p.folder); len(left) != heldUploads {
		t.Errorf("%d files held", len(left))
	}
	if status, _ := v.get(first); status != http.StatusNotFound {
		t.Errorf("the oldest: status %d", status)
	}
	v.close()
	if _, err := os.Stat(p.folder); !os.IsNotExist(err) {
		t.Error("the folder is left behind")
	}
	if res := v.sendFile("a.csv", "x"); res.StatusCode == http.StatusSeeOther {
		t.Error("taken after the end")
	}
}

func TestTestPlanPage(t *testing.T) {
	v := visitBench(t, nil)
	status, body := v.get("/prove/plan?charger=12.6+V,+2+A+to+20+A&load=inverter+250+W&temperature=8+%C2%B0C")
	if status != http.StatusOK {
		t.Fatalf("status %d: %.300s", status, body)
	}
	contains(t, "plan", body, "Before anything else", "Stop at once", `value="inverter 250 W"`, "What no step may pass")
	if strings.Index(body, "Before anything else") > strings.Index(body, "Stop at once") {
		t.Error("the cautions do not come first")
	}
	for _, query := range []string{"charger=large", "load=soup", "charger=20+A", "temperature=warm"} {
		if status, body := v.get("/prove/plan?" + query); status != http.StatusUnprocessableEntity || !strings.Contains(body, `aria-invalid="true"`) {
			t.Errorf("%s: status %d", query, status)
		}
	}
}
