package source

import "slices"

// All returns every source, area by area.
func All() []Source {
	return slices.Concat(ageing, battery, circuits, cautions, choosing, electrical, salvage, measures, tolerances, sunAndPanels, weathers, wiring)
}
