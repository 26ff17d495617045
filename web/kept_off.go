package web

import (
	"strings"

	"ampstead/rig"
)

// offPage finds what a page may not change: which program is run on an alarm, and
// which secrets are read and sent where. Whoever can reach the page could otherwise
// have this machine run or read anything. It returns the path, or "".
func offPage(before, after *rig.File) string {
	var was, is rig.Live
	if before != nil && before.Rig.Live != nil {
		was = *before.Rig.Live
	}
	if after.Rig.Live != nil {
		is = *after.Rig.Live
	}
	secret := was.PasswordFile+was.PasswordVariable+is.PasswordFile+is.PasswordVariable != ""
	switch {
	case is.Command != was.Command && is.Command != "":
		return "live.command"
	case is.PasswordFile != was.PasswordFile && is.PasswordFile != "":
		return "live.password_file"
	case is.PasswordVariable != was.PasswordVariable && is.PasswordVariable != "":
		return "live.password_variable"
	case is.Broker != was.Broker && secret:
		return "live.broker"
	}
	return ""
}

// stoodThere reports whether what a page may not change stands in a file that
// cannot be read as a rig, so that the rest of it can be mended there.
func stoodThere(text []byte, after *rig.File) bool {
	is := after.Rig.Live
	for key, value := range map[string]string{"command:": is.Command, "password_file:": is.PasswordFile, "password_variable:": is.PasswordVariable, "broker:": is.Broker} {
		if value != "" && !lineWith(string(text), key, value) {
			return false
		}
	}
	return true
}

// lineWith reports whether a line of text gives key just this value.
func lineWith(text, key, value string) bool {
	for line := range strings.Lines(text) {
		name, rest, ok := strings.Cut(strings.TrimSpace(line), key)
		rest, _, _ = strings.Cut(rest, " #")
		if ok && name == "" && strings.Trim(rest, ` "'`) == value {
			return true
		}
	}
	return false
}

const offPageReason = "This is changed in the file itself, on the machine: it decides what that machine runs, or where a secret is sent."
