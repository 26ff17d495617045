// Command derive makes the tables of package climate from the grids as they were
// published. It is run by go generate.
package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"

	"ampstead/weather/climate/table"
)

func main() {
	from := flag.String("from", "", "folder of the published grids")
	to := flag.String("to", ".", "folder to write to")
	flag.Parse()
	if err := run(*from, *to); err != nil {
		fmt.Fprintln(os.Stderr, "derive:", err)
		os.Exit(1)
	}
}

func run(from, to string) error {
	light, err := grid(filepath.Join(from, "climate-ghi-1deg.csv.gz"), lightGrid())
	if err != nil {
		return err
	}
	air, err := grid(filepath.Join(from, "climate-temperature-2.5deg.csv.gz"), airGrid())
	if err != nil {
		return err
	}
	if err := writeTable(filepath.Join(to, "climate.bin.gz"), light, air); err != nil {
		return err
	}
	return places(filepath.Join(from, "climate-places.csv.gz"), filepath.Join(to, "places.txt.gz"))
}

func writeTable(path string, grids ...*table.Grid) error {
	f, err := os.Create(path)
	if err != nil {
		return err
	}
	if err := table.Write(f, grids...); err != nil {
		f.Close()
		return err
	}
	return f.Close()
}
