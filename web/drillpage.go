package web

import (
	"errors"
	"net/http"
	"slices"

	"ampstead/drill"
	"ampstead/fit"
	"ampstead/sheet"
)

type drillPage struct {
	waiting
	Frame  frame
	Sheet  *sheet.Model // with the drill, once it is played
	First  faultList    // to choose a fault from
	Other  faultList    // and the one that comes at once
	Scenes []string
	Chosen runChoice
	Wrong  string // what is wrong with the run asked for
}

// faultList is a list of faults to choose one from.
type faultList struct {
	Devices []faultsOf
	Chosen  string
}

// faultsOf are the faults of one device.
type faultsOf struct {
	Device string
	Faults []drill.Fault
}

// runChoice is the run a visitor asked to see.
type runChoice struct{ Fault, Second, Scene string }

// faultsPlayed is what the progress of this page counts.
const faultsPlayed = "runs played"

// drill shows what happens when something fails, or how far playing it has come.
func (s *site) drill(w http.ResponseWriter, r *http.Request) {
	now := s.sound(w, r)
	if now == nil {
		return
	}
	p := drillPage{Frame: s.frame(r, "drill", "Drill", now)}
	j := s.drills.drilledFor(now)
	j.wait(r.Context(), patience)
	if p.ready(&j.task, &p.Frame, faultsPlayed) {
		p.Sheet = j.result.with(now.sheet()).PickedAt(s.at("/drill"))
		p.choose(r, j.result.result)
		p.fill(j.result.result)
		p.show(s, now)
	}
	s.render(w, http.StatusOK, "drill", p)
}

// fill lists what can be chosen, and what is.
func (p *drillPage) fill(res *drill.Result) {
	var list []faultsOf
	for _, row := range res.Rows() {
		f := row.Fault
		if n := len(list); n == 0 || list[n-1].Device != f.Device {
			list = append(list, faultsOf{Device: f.Device})
		}
		last := &list[len(list)-1]
		last.Faults = append(last.Faults, f)
	}
	p.First, p.Other = faultList{list, p.Chosen.Fault}, faultList{list, p.Chosen.Second}
	for _, scene := range res.Scenes {
		p.Scenes = append(p.Scenes, scene.Name)
	}
}

// choose takes the run that was asked for, or the worst of all.
func (p *drillPage) choose(r *http.Request, res *drill.Result) {
	query := r.URL.Query()
	p.Chosen = runChoice{query.Get("fault"), query.Get("second"), query.Get("scene")}
	if p.Chosen != (runChoice{}) {
		return
	}
	if worst := sheet.WorstRun(res); worst != nil {
		p.Chosen = runChoice{Fault: worst.Fault, Scene: worst.Scene}
	}
}

// show plays the run that is chosen.
func (p *drillPage) show(s *site, now *reading) {
	if p.Chosen.Scene == "" {
		if p.Chosen != (runChoice{}) {
			p.Wrong = "Choose a scene too."
		}
		return
	}
	faults := slices.DeleteFunc([]string{p.Chosen.Fault, p.Chosen.Second}, func(name string) bool { return name == "" })
	strip, err := s.drills.play(now.file.Rig, p.Chosen.Scene, faults...)
	var in *fit.InputError
	switch {
	case errors.As(err, &in):
		p.Wrong = in.Message + "; expected " + in.Expected
	case err != nil:
		p.Wrong = err.Error()
	default:
		p.Sheet = p.Sheet.WithRun(strip)
	}
}

// drillProgress answers the page's question how far the drill is.
func (s *site) drillProgress(w http.ResponseWriter, r *http.Request) {
	answer := running{Over: true}
	if now := s.look(r); now.result != nil {
		answer = s.drills.drilledFor(now).running(faultsPlayed)
	}
	answer.send(w)
}
