package cli

import (
	"encoding/json"
	"fmt"
	"io"
	"strings"

	"ampstead/figure"
	"ampstead/finding"
	"ampstead/quantity"
	"ampstead/rig"
)

// stageFlags are what every stage takes.
type stageFlags struct {
	Rig   string   `arg:"" optional:"" default:"." help:"Folder that holds rig.yaml, or the file."`
	JSON  bool     `help:"Print the result as JSON (docs/json.md)."`
	Units string   `help:"Units of the text: metric or us; the default is what the rig file says." enum:"metric,us,"  default:""`
	Set   []string `sep:"none" placeholder:"PATH=VALUE" help:"Try a change without editing the file, such as bank.series=14. Repeatable."`

	Explain bool `help:"Print below each finding how its numbers were worked out; with --json they always stand there."`
}

// open reads the rig and applies --set and --units to it in memory.
func (s stageFlags) open() (*rig.File, error) {
	file, err := rig.Open(s.Rig)
	if err != nil {
		return nil, badInput(err)
	}
	for _, change := range s.Set {
		path, value, ok := strings.Cut(change, "=")
		if !ok {
			return nil, badInput(fmt.Errorf("--set %q: expected PATH=VALUE such as bank.series=14", change))
		}
		if file, err = file.Set(strings.TrimSpace(path), strings.TrimSpace(value)); err != nil {
			return nil, badInput(fmt.Errorf("--set %s: %w", change, err))
		}
	}
	if s.Units != "" {
		file.Rig.About.Units = s.Units
	}
	return file, nil
}

// system is the units to print.
func system(r *rig.Rig) quantity.System {
	if r.About.Units == "us" {
		return quantity.US
	}
	return quantity.Metric
}

// report is the JSON of every stage: common keys, then the stage's own object.
type report struct {
	Stage    string            `json:"stage"`
	Rig      rigName           `json:"rig"`
	Findings []finding.Finding `json:"findings"`
	Figures  []string          `json:"figures_used"`
	Choose   any               `json:"choose,omitempty"`
	Fit      any               `json:"fit,omitempty"`
	Prove    any               `json:"prove,omitempty"`
	Wire     any               `json:"wire,omitempty"`
	Drill    any               `json:"drill,omitempty"`
	Travel   any               `json:"travel,omitempty"`
	Keep     any               `json:"keep,omitempty"`
	Book     any               `json:"book,omitempty"`
	Home     any               `json:"home,omitempty"`
	History  any               `json:"history,omitempty"`
	Compare  any               `json:"compare,omitempty"`
}

type rigName struct {
	Name string `json:"name"`
	File string `json:"file"`
}

func newReport(stage string, file *rig.File, findings []finding.Finding, uses []figure.Use) report {
	if findings == nil {
		findings = []finding.Finding{}
	}
	return report{Stage: stage, Rig: rigName{file.Rig.About.Name, file.Path}, Findings: findings, Figures: figure.Names(uses)}
}

func writeJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(v)
}

// stopIfAny turns a stop finding into exit status 1.
func stopIfAny(findings []finding.Finding) error {
	if finding.Worst(findings) == finding.Stop {
		return errStop
	}
	return nil
}
