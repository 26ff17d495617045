package benchlog

import (
	"archive/zip"
	"bufio"
	"bytes"
	"compress/bzip2"
	"compress/gzip"
	"compress/zlib"
	"errors"
	"fmt"
	"io"
	"strings"
)

// maxArchive bounds what of a zip file is held in memory: its directory stands
// at its end, so it cannot be read as a stream.
const maxArchive = 256 << 20

// unpack returns what is inside a compressed stream, told by its first bytes,
// and the name of the packing. A packing within a packing is opened once more.
func unpack(name string, r io.Reader) (io.Reader, string, error) {
	var packings []string
	for range 2 {
		b := bufio.NewReaderSize(r, 64<<10)
		inner, packing, err := unpackOnce(name, b)
		if err != nil {
			return nil, "", err
		}
		if packing == "" {
			return b, strings.Join(packings, " in "), nil
		}
		packings = append([]string{packing}, packings...)
		r = inner
	}
	return r, strings.Join(packings, " in "), nil
}

func unpackOnce(name string, b *bufio.Reader) (io.Reader, string, error) {
	magic, _ := b.Peek(8)
	switch {
	case bytes.HasPrefix(magic, []byte{0x1f, 0x8b}):
		z, err := gzip.NewReader(b)
		return opened(name, z, "gzip", err)
	case bytes.HasPrefix(magic, []byte("BZh")):
		return bzip2.NewReader(b), "bzip2", nil
	case len(magic) >= 2 && magic[0] == 0x78 && (int(magic[0])<<8|int(magic[1]))%31 == 0 && magic[1]&0x20 == 0 && !readable(magic):
		z, err := zlib.NewReader(b)
		return opened(name, z, "zlib", err)
	case bytes.HasPrefix(magic, []byte("PK\x03\x04")):
		z, err := unzip(name, b)
		return z, "zip", err
	}
	for start, what := range foreign {
		if bytes.HasPrefix(magic, []byte(start)) {
			return nil, "", &Error{File: name, Message: "this is " + what,
				Expected: "a table as text, plain or packed with gzip, bzip2 or zip", Example: "log.csv or log.csv.gz"}
		}
	}
	return nil, "", nil
}

// foreign are the first bytes of files that are often tried and are no text.
var foreign = map[string]string{
	"\x28\xb5\x2f\xfd": "packed in a way that is not read here (zstandard)",
	"\xfd7zXZ":         "packed in a way that is not read here (xz)",
	"7z\xbc\xaf":       "an archive that is not read here (7z)",
	"\xd0\xcf\x11\xe0": "a spreadsheet or document in an old binary form",
	"%PDF":             "a printed page (PDF)",
	"\x89HDF":          "a binary data file",
	"MATLAB 5":         "a binary data file",
	"SQLite f":         "a database file",
	"PAR1":             "a binary data file",
}

// readable reports whether the bytes look like text, so that a header that
// begins with an x is not taken for a packed stream.
func readable(b []byte) bool {
	for _, c := range b {
		if c < 0x20 && c != '\t' && c != '\r' && c != '\n' || c >= 0x7f {
			return false
		}
	}
	return true
}

func opened(name string, r io.Reader, packing string, err error) (io.Reader, string, error) {
	if err != nil {
		return nil, "", &Error{File: name, Message: fmt.Sprintf("the %s packing is damaged at its start (%v)", packing, err),
			Expected: "a whole file", Example: "the file copied again from the logger"}
	}
	return r, packing, nil
}

func unzip(name string, b io.Reader) (io.Reader, error) {
	all, err := io.ReadAll(io.LimitReader(b, maxArchive+1))
	if err != nil {
		return nil, err
	}
	if len(all) > maxArchive {
		return nil, &Error{File: name, Message: "the zip file is larger than 256 MB", Expected: "a gzip file, which is read as it comes", Example: "log.csv.gz"}
	}
	z, err := zip.NewReader(bytes.NewReader(all), int64(len(all)))
	if err != nil {
		_, _, err := opened(name, nil, "zip", err)
		return nil, err
	}
	return onlyFile(name, z)
}

// onlyFile opens the one table of an archive.
func onlyFile(name string, z *zip.Reader) (io.Reader, error) {
	var found []*zip.File
	for _, f := range z.File {
		if f.Name == "[Content_Types].xml" {
			return nil, &Error{File: name, Message: "this is a spreadsheet or document", Expected: "the table saved as CSV", Example: "log.csv"}
		}
		if !f.FileInfo().IsDir() && !strings.HasPrefix(f.Name, "__MACOSX") {
			found = append(found, f)
		}
	}
	if len(found) != 1 {
		return nil, &Error{File: name, Message: fmt.Sprintf("the zip file holds %d files", len(found)), Expected: "one log in it", Example: "log.zip with log.csv alone"}
	}
	r, err := found[0].Open()
	if err != nil {
		return nil, errors.Join(&Error{File: name, Message: "the zip packing cannot be opened"}, err)
	}
	return r, nil
}
