package main

import (
	"fmt"
	"math"
	"strconv"

	"ampstead/weather/climate/table"
)

// layout is an empty grid and what its layers are made from: the column's name,
// and how many steps of the layer one unit of the column is.
type layout struct {
	grid    *table.Grid
	columns []column
}

type column struct {
	name string
	unit float64 // what a step stands for in the program
	per  float64 // steps per unit of the file
}

// lightGrid holds irradiation in steps of 10 Wh/m² and land in hundredths.
func lightGrid() layout {
	g := &table.Grid{South: -59.5, West: -179.5, Step: 1, Rows: 144, Cols: 360}
	return layout{g, append(months("ghi", 10, 100), column{"land", 0.01, 100})}
}

// airGrid holds temperature in steps of 0.1 °C and terrain in m.
func airGrid() layout {
	g := &table.Grid{South: -60, West: 0, Step: 2.5, Rows: 61, Cols: 144}
	return layout{g, append(months("t", 0.1, 10), column{"smooth_elev_m", 1, 1})}
}

func months(prefix string, unit, per float64) []column {
	var list []column
	for m := 1; m <= 12; m++ {
		list = append(list, column{fmt.Sprintf("%s_%02d", prefix, m), unit, per})
	}
	return list
}

// grid fills a layout from a file.
func grid(path string, l layout) (*table.Grid, error) {
	for _, c := range l.columns {
		l.grid.Layers = append(l.grid.Layers, l.grid.NewLayer(c.unit))
	}
	err := rows(path, func(row map[string]string) error { return l.set(row) })
	return l.grid, err
}

func (l layout) set(row map[string]string) error {
	lat, err1 := strconv.ParseFloat(row["lat"], 64)
	lon, err2 := strconv.ParseFloat(row["lon"], 64)
	node, ok := l.grid.Node(lat, lon)
	if err1 != nil || err2 != nil || !ok {
		return fmt.Errorf("%q, %q is not on the grid", row["lat"], row["lon"])
	}
	for i, c := range l.columns {
		v, err := strconv.ParseFloat(row[c.name], 64)
		if err != nil {
			return fmt.Errorf("%s: %w", c.name, err)
		}
		l.grid.Layers[i].Values[node] = int16(math.Round(v * c.per))
	}
	return nil
}
