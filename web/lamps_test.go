package web

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"ampstead/examples"
	"ampstead/rig"
)

// lampRig is the mended example with many lamps, so that each of many visitors has
// a value of their own to change.
func lampRig(t testing.TB, lamps int) string {
	t.Helper()
	text, err := examples.Read("curlew")
	if err != nil {
		t.Fatal(err)
	}
	var list strings.Builder
	list.WriteString("\nloads:\n")
	for i := range lamps {
		fmt.Fprintf(&list, "  - {name: lamp %d, on: 12 V converter, power: 1 W, hours: 1 h, days: every day, when: evening}\n", i)
	}
	return strings.Replace(string(text), "\nloads:\n", list.String(), 1)
}

func lampPath(i int) string { return fmt.Sprintf("loads.lamp %d.power", i) }

func watts(n int) string { return strconv.Itoa(n) + " W" }

// lampWatts reads what each lamp draws in the file as it lies on disk.
func lampWatts(t testing.TB, path string, lamps int) []int {
	t.Helper()
	file, err := rig.Open(path)
	if err != nil {
		t.Fatalf("the file is not whole: %v", err)
	}
	written := map[string]string{}
	for _, f := range rig.Fields(file) {
		written[f.Path] = f.Written
	}
	list := make([]int, lamps)
	for i := range list {
		if list[i], err = strconv.Atoi(strings.TrimSuffix(written[lampPath(i)], " W")); err != nil {
			t.Fatalf("lamp %d draws %q", i, written[lampPath(i)])
		}
	}
	return list
}
