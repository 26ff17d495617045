package cli

import "fmt"

// Version is the released version.
const Version = "0.1.0"

type versionCommand struct {
	JSON bool `help:"Print as JSON."`
}

// Run prints the version.
func (c *versionCommand) Run(r *run) error {
	if c.JSON {
		return writeJSON(r.Stdout, map[string]string{"version": Version})
	}
	_, err := fmt.Fprintln(r.Stdout, "ampstead", Version)
	return err
}
