package main

import (
	"bufio"
	"bytes"
	"cmp"
	"compress/gzip"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strconv"
	"strings"
)

// rows calls use with every row of a packed CSV file by column name. Lines that
// begin with # are remarks.
func rows(path string, use func(map[string]string) error) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	z, err := gzip.NewReader(bufio.NewReader(f))
	if err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	r := csv.NewReader(z)
	r.Comment = '#'
	head, err := r.Read()
	for err == nil {
		var fields []string
		if fields, err = r.Read(); err != nil {
			break
		}
		row := make(map[string]string, len(head))
		for i, name := range head {
			row[name] = fields[i]
		}
		err = use(row)
	}
	if errors.Is(err, io.EOF) {
		return nil
	}
	return fmt.Errorf("%s: %w", path, err)
}

// places packs the list of places: name, code, latitude, longitude, elevation,
// one a line, by name.
func places(from, to string) error {
	var list []string
	err := rows(from, func(r map[string]string) error {
		name := strings.Join(strings.Fields(r["name"]), " ")
		list = append(list, strings.Join([]string{name, r["code"], trim(r["lat"]), trim(r["lon"]), r["elev_m"]}, "\t"))
		return nil
	})
	if err != nil {
		return err
	}
	slices.SortFunc(list, func(a, b string) int {
		return cmp.Or(cmp.Compare(strings.ToLower(a), strings.ToLower(b)), cmp.Compare(a, b))
	})
	var packed bytes.Buffer
	z, err := gzip.NewWriterLevel(&packed, gzip.BestCompression)
	if err != nil {
		return err
	}
	if _, err := io.WriteString(z, strings.Join(list, "\n")+"\n"); err != nil {
		return err
	}
	if err := z.Close(); err != nil {
		return err
	}
	return os.WriteFile(to, packed.Bytes(), 0o644)
}

// trim drops needless zeros of a number.
func trim(s string) string {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return s
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}
