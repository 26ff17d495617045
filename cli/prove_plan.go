package cli

import (
	"errors"
	"fmt"
	"path/filepath"

	"ampstead/finding"
	"ampstead/fit"
	"ampstead/prove"
	"ampstead/quantity"
	"ampstead/sheet"
	"ampstead/shelf"
)

// planFlags ask for a test plan.
type planFlags struct {
	Plan        bool   `help:"Print a test plan for the gear at hand instead: steps, limits, when to stop."`
	Charger     string `placeholder:"WHAT" help:"With --plan: the charger, such as '29.4 V 20 A', or with ranges: '20 V to 30 V, 2 A to 10 A'."`
	Load        string `placeholder:"WHAT" help:"With --plan: the load, such as '1500 W' (behind an inverter), 'kettle 2000 W', 'heater 24 V 500 W' or '20 A'."`
	Temperature string `placeholder:"T" help:"With --plan: how warm the place is, such as '8 °C'; the default is 20 °C."`
}

// plan works out the test plan; nil when a log is to be read instead.
func (p *proof) plan() (*prove.Plan, error) {
	c := p.c
	if !c.Plan && len(p.logs) > 0 {
		for flag, text := range map[string]string{"--charger": c.Charger, "--load": c.Load, "--temperature": c.Temperature} {
			if text != "" {
				return nil, badInput(fmt.Errorf("%s goes with --plan", flag))
			}
		}
		return nil, nil
	}
	if c.Write || c.Remember {
		return nil, badInput(errors.New("--write and --remember need a log: name one, or keep one in the rig's folder " + shelf.Folder))
	}
	plan, err := shelf.Plan(p.known, shelf.Gear{Charger: c.Charger, Load: c.Load, Temperature: c.Temperature})
	var in *fit.InputError
	if errors.As(err, &in) {
		flag := in.Path
		if flag == "capacity" {
			flag = "rated"
		}
		return nil, badInput(&logProblem{Path: "--" + flag, Message: in.Message, Expected: in.Expected, Example: in.Example})
	}
	return plan, err
}

// showPlan prints the plan, after what to do where a rig has no log.
func (p *proof) showPlan(plan *prove.Plan) error {
	if p.c.JSON {
		out := p.report(nil, nil)
		out.Prove = struct {
			Kept []string    `json:"kept,omitempty"`
			Plan *prove.Plan `json:"plan"`
		}{p.kept, plan}
		out.Findings, out.Figures = []finding.Finding{}, []string{}
		return writeJSON(p.Stdout, out)
	}
	if !p.c.Plan {
		fmt.Fprintln(p.Stdout, wrap(fmt.Sprintf("No log is kept with this rig. Put one into %s, or name it: ampstead prove LOG.csv RIG. Until there is one, this is the test to run; say what charger and load you have with --plan --charger --load.",
			filepath.Join(filepath.Dir(p.file.Path), shelf.Folder)), 0))
		fmt.Fprintln(p.Stdout)
	}
	t := &planText{p: p, plan: plan, sys: p.system()}
	t.print()
	return nil
}

// planText prints a test plan for a terminal, cautions first.
type planText struct {
	p    *proof
	plan *prove.Plan
	sys  quantity.System
}

func (t *planText) print() {
	w := t.p.Stdout
	fmt.Fprintf(w, "TEST PLAN: %s\n", wrap(t.plan.Title, 0))
	t.list("CAUTIONS, before anything else", t.plan.Cautions)
	printCautions(w)
	if !t.plan.Possible {
		fmt.Fprintln(w, "\nWith this gear the module cannot be tested.")
	}
	var notes []string
	for _, n := range t.plan.Notes {
		notes = append(notes, n.Text)
	}
	t.list("GEAR AND MODULE", notes)
	if !t.plan.Possible {
		return
	}
	fmt.Fprintln(w, "\nLIMITS, which no step may pass")
	var limits table
	for _, l := range sheet.PlanLimits(t.plan, t.sys) {
		limits.row("  "+l.What, l.Value, l.Note)
	}
	limits.print(w)
	t.list("STOP AT ONCE, whatever the step, at", t.plan.Stops)
	fmt.Fprintf(w, "\nSTEPS, about %.0f h without the long rest; %.0f Ah and %.0f Wh come out\n", t.plan.Hours, t.plan.Ah, t.plan.Wh)
	for _, s := range t.plan.Steps {
		fmt.Fprintf(w, "%3d. %s (%s)\n", s.Number, s.Title, sheet.AboutHours(s.Hours))
		for _, part := range [][2]string{{"do", s.Do}, {"until", s.Until}, {"log", s.Log}} {
			fmt.Fprintf(w, "     %-6s %s\n", part[0], wrap(part[1], 12))
		}
	}
	t.list("WRITE DOWN", t.plan.Log)
}

func (t *planText) list(title string, lines []string) {
	if len(lines) == 0 {
		return
	}
	fmt.Fprintln(t.p.Stdout, "\n"+title)
	for _, line := range lines {
		fmt.Fprintf(t.p.Stdout, "  - %s\n", wrap(line, 4))
	}
}
