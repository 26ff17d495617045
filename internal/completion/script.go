package completion

import (
	_ "embed"
	"fmt"
)

var (
	//go:embed scripts/bash
	bash string
	//go:embed scripts/zsh
	zsh string
	//go:embed scripts/fish
	fish string
)

// Shells are those there is a script for.
func Shells() []string { return []string{"bash", "zsh", "fish"} }

// Script is what a shell reads to complete ampstead. An unknown shell is an error.
func Script(shell string) (string, error) {
	switch shell {
	case "bash":
		return bash, nil
	case "zsh":
		return zsh, nil
	case "fish":
		return fish, nil
	}
	return "", fmt.Errorf("no completion for the shell %q; there is one for bash, zsh and fish", shell)
}
