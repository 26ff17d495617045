package source

import "slices"

// All returns every source, area by area.
func All() []Source {
	return slices.Concat(battery, circuits, cautions, electrical, tolerances, sunAndPanels, weathers, wiring)
}
