package climate

import (
	"bytes"
	_ "embed"
	"fmt"
	"sync"

	"ampstead/weather/climate/table"
)

//go:embed climate.bin.gz
var packedGrids []byte

// Layers after the twelve months.
const (
	landLayer    = 12 // of the grid of light: share of land, 0 to 1
	terrainLayer = 12 // of the grid of air: height of the terrain the temperatures belong to, m
)

// grids are the unpacked tables.
type grids struct{ light, air *table.Grid }

// unpack reads the built-in tables, once and when first asked.
var unpack = sync.OnceValues(func() (grids, error) {
	list, err := table.Read(bytes.NewReader(packedGrids))
	if err != nil {
		return grids{}, err
	}
	if len(list) != 2 || len(list[0].Layers) != 13 || len(list[1].Layers) != 13 {
		return grids{}, fmt.Errorf("%w: the built-in climate needs two grids of 13 layers", table.ErrDamaged)
	}
	return grids{list[0], list[1]}, nil
})
