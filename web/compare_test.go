package web

import (
	"context"
	"encoding/json"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"ampstead/compare"
	"ampstead/rig"
)

// heldComparing compares at once, but for the year and the faults, which wait until
// they are released.
func heldComparing(begun chan<- compare.Options, release <-chan struct{}) func(*Config) {
	return func(c *Config) {
		c.comparing = func(ctx context.Context, a, b *rig.File, o compare.Options) (*compare.Result, error) {
			if o.Travel || o.Drill {
				o.Progress(40, 100)
				begun <- o
				select {
				case <-ctx.Done():
					return nil, ctx.Err()
				case <-release:
				}
			}
			res, err := compare.Run(ctx, a, b, compare.Options{Units: o.Units})
			if err == nil && o.Travel {
				res.Notes = append(res.Notes, "the year is here")
			}
			return res, err
		}
	}
}

func TestCompareVersions(t *testing.T) {
	v := visit(t, "curlew-draft")
	status, body := v.get("/rig/compare")
	if status != http.StatusOK {
		t.Errorf("status %d", status)
	}
	contains(t, "compare", body, "No other version of this rig is kept yet.")
	v.saves(equalise, "off", "62.0 V")
	_, body = v.get("/rig/compare")
	contains(t, "compare", body, "From version 1 to what the file holds now.", "19 stop", "18 stop", "<b>roof solar: settings, equalise</b>",
		"Gone", "settings that are not as recommended", `class="verdict better"`, "Reckon the year for both", "results are the same")
	v.saves("bank.strings", "1", "2")
	_, body = v.get("/rig/compare?was=2&is=3")
	contains(t, "compare", body, "From version 2 to version 3.", "bank: strings", "current of a short at the bank")
	_, body = v.get("/rig/compare?was=3")
	contains(t, "compare", body, "equal to the letter", "Every result is the same.")
	for _, query := range []string{"?was=9", "?was=x", "?is=-2", "?with=dipper", "?was=1&is=99999999999999999999"} {
		status, body := v.get("/rig/compare" + query)
		if status != http.StatusNotFound || !strings.Contains(body, "This cannot be compared.") {
			t.Errorf("%s: status %d", query, status)
		}
	}
}

func TestCompareInTheVisitorsUnits(t *testing.T) {
	v := visit(t, "curlew-draft")
	v.saves("heater.on", "5 °C", "2 °C")
	v.cookies = []*http.Cookie{{Name: unitsCookie, Value: "us"}}
	_, body := v.get("/rig/compare")
	contains(t, "compare", body, "2 °C", "ft") // as written in the file; the length of the conductors
}

func TestCompareTwoRigsOfAWorkshop(t *testing.T) {
	v := visitRigs(t)
	_, body := v.get("/rig/compare?with=dipper")
	contains(t, "compare", body, "<h1>Curlew and Dipper</h1>", `<option value="dipper" selected>Dipper</option>`, "about: units")
	if strings.Contains(body, `value="curlew"`) {
		t.Error("a rig is offered to be compared with itself")
	}
	_, body = v.get("/rigs/dipper/rig/compare?with=curlew")
	contains(t, "compare", body, "<h1>Dipper and Curlew</h1>", `action="/rigs/dipper/rig/compare"`)
	for _, slug := range []string{"nobody", "..", "../curlew", "a/b"} {
		if status, _ := v.get("/rig/compare?with=" + url.QueryEscape(slug)); status != http.StatusNotFound {
			t.Errorf("%q: status %d", slug, status)
		}
	}
}

func TestTheYearAndTheFaultsAreReckonedBehindThePage(t *testing.T) {
	begun, release := make(chan compare.Options, 4), make(chan struct{})
	v := visit(t, "curlew-draft", heldComparing(begun, release))
	v.saves(equalise, "off", "62.0 V")
	_, body := v.get("/rig/compare?was=1&travel=1")
	o := <-begun
	if !o.Travel || o.Drill || o.Years != tripYears {
		t.Errorf("%+v", o)
	}
	contains(t, "waiting", body, "Settings", "40 % of both rigs reckoned.", `name="travel" value="1"`, ">Stop</button>", "progress.js")
	_, body = v.get("/rig/compare/progress?was=1&travel=1")
	var now running
	if err := json.Unmarshal([]byte(body), &now); err != nil || now.Over || now.Done != 40 {
		t.Errorf("%v %+v", err, now)
	}

	// Stopped, it begins anew only when asked for.
	res := v.post("/rig/compare/stop", url.Values{"was": {"1"}, "travel": {"1"}})
	leadsTo(t, res, "/rig/compare?was=1")
	_, body = v.get("/rig/compare?was=1")
	contains(t, "stopped", body, "Reckon the year for both")
	v.get("/rig/compare?was=1&travel=1")
	<-begun
	close(release)
	for !now.Over {
		_, body = v.get("/rig/compare/progress?was=1&travel=1")
		if err := json.Unmarshal([]byte(body), &now); err != nil {
			t.Fatal(err)
		}
	}
	_, body = v.get("/rig/compare?was=1&travel=1")
	contains(t, "done", body, "the year is here", "Play every single fault for both")
	if strings.Contains(body, "Reckon the year for both") {
		t.Error("the year is offered again")
	}
}

func BenchmarkHistoryPage(b *testing.B) {
	v := visit(b, "curlew-draft")
	was := "52 kg"
	for i := range 20 {
		is := []string{"50 kg", "51 kg"}[i%2]
		v.saves("bank.mass", is, was)
		was = is
	}
	v.measure(b, "/rig/history")
}

func BenchmarkComparePage(b *testing.B) {
	v := visit(b, "curlew-draft")
	v.saves(equalise, "off", "62.0 V")
	v.measure(b, "/rig/compare")
}
