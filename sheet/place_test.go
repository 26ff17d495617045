package sheet

import "testing"

func TestPlaceInWords(t *testing.T) {
	for path, want := range map[string]string{
		"charge.roof solar.settings.float":      "roof solar, float",
		"bank.measured.groups.3":                "bank, measured, group 4",
		"bank.measured.groups.0.leak":           "bank, measured, group 1, leak",
		"charge.roof solar.panels.left side":    "roof solar, panels, left side",
		"protection.relays.guard relay.high":    "guard relay, high",
		"protection.cutouts.frost switch.below": "frost switch, below",
		"bank":                                  "bank",
	} {
		if got := Place(path); got != want {
			t.Errorf("%s reads %q, want %q", path, got, want)
		}
	}
}
