package cli

import (
	"fmt"
	"io"

	"ampstead/drill"
	"ampstead/rig"
	"ampstead/sheet"
)

// printRun prints one run: how it ended, then what each layer did.
func printRun(w io.Writer, file *rig.File, s *drill.Strip) {
	what := "nothing wrong"
	if s.Fault != "" {
		what = s.Fault
	}
	if s.Second != "" {
		what += ", with " + s.Second
	}
	fmt.Fprintf(w, "%s\n\n", wrap(file.Rig.About.Name+": "+what+", in "+s.Scene, 0))
	printLines(w, sheet.RunEnd(&s.Out))
	fmt.Fprintln(w, "\nWHAT THE LAYERS DID")
	for _, line := range sheet.RunActs(&s.Out) {
		fmt.Fprintf(w, "  %s\n", wrap(line, 4))
	}
	printCautions(w)
}

// printNames lists what --scene and --fault take.
func printNames(w io.Writer, scenes []drill.Scene, faults []drill.Fault) {
	fmt.Fprintln(w, "SCENES")
	for _, s := range scenes {
		fmt.Fprintf(w, "  %s\n      %s\n", s.Name, wrap(s.About, 6))
	}
	fmt.Fprintln(w, "\nFAULTS")
	for _, f := range faults {
		fmt.Fprintf(w, "  %s\n      %s\n", f.Name, wrap(f.How, 6))
	}
}
