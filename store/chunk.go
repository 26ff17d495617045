package store

import (
	"encoding/binary"
	"hash/crc32"
	"math"
)

// format is the first byte of each chunk.
const format = 1

// hourMS is what a chunk of raw values covers, ms.
const hourMS = 3_600_000

// point is a raw value at a time in ms since 1970.
type point struct {
	at int64
	v  float64
}

// bucket sums up the raw values of one step of a level; slot counts these steps
// since 1970.
type bucket struct {
	slot           int64
	n              int
	min, mean, max float64
}

// level is a width of buckets and how many of them a chunk has room for.
type level struct {
	kind Span
	ms   int64
	room int64
}

var (
	minutes = level{Minute, 60_000, 60}
	hours   = level{Hour, hourMS, 24}
	days    = level{Day, 24 * hourMS, 64}
	levels  = []level{minutes, hours, days}
)

// fold sums points, which are in order, up into buckets of ms each.
func fold(points []point, ms int64) []bucket {
	var list []bucket
	for _, p := range points {
		slot := p.at / ms
		if last := len(list) - 1; last < 0 || list[last].slot != slot {
			list = append(list, bucket{slot, 1, p.v, p.v, p.v})
			continue
		}
		b := &list[len(list)-1]
		b.n++
		b.min, b.max = min(b.min, p.v), max(b.max, p.v)
		b.mean += (p.v - b.mean) / float64(b.n)
	}
	return list
}

// gather sums buckets, which are in order, up into some that are ratio times as wide.
func gather(fine []bucket, ratio int64) []bucket {
	var list []bucket
	for _, f := range fine {
		f.slot /= ratio
		if last := len(list) - 1; last < 0 || list[last].slot != f.slot {
			list = append(list, f)
			continue
		}
		b := &list[len(list)-1]
		b.n += f.n
		b.min, b.max = min(b.min, f.min), max(b.max, f.max)
		b.mean += (f.mean - b.mean) * float64(f.n) / float64(b.n)
	}
	return list
}

// packPoints packs the points of the hour that begins at from, ms.
func packPoints(points []point, from int64) []byte {
	at, v := make([]int64, len(points)), make([]float64, len(points))
	for i, p := range points {
		at[i], v[i] = p.at-from, p.v
	}
	blob := binary.AppendUvarint(append(make([]byte, 0, 32+2*len(points)), format), uint64(len(points)))
	return seal(packColumn(packSteps(blob, at), v))
}

// unpackPoints is the reverse. Whatever the bytes, it returns points in order
// within the hour, or errPacked.
func unpackPoints(blob []byte, from int64) ([]point, error) {
	u, n := unseal(blob)
	at, v := make([]int64, n), make([]float64, n)
	u.steps(at, hourMS)
	u.column(v)
	if u.err != nil || len(u.rest) > 0 {
		return nil, errPacked
	}
	points := make([]point, n)
	for i := range points {
		points[i] = point{from + at[i], v[i]}
	}
	return points, nil
}

// packBuckets packs the buckets of a chunk whose first slot is from. Means are
// kept to a thousandth of the values' own last decimal, and rounded to it in list.
func packBuckets(list []bucket, from int64) []byte {
	at, n := make([]int64, len(list)), make([]float64, len(list))
	low, high, mean := make([]float64, len(list)), make([]float64, len(list)), make([]float64, len(list))
	for i, b := range list {
		at[i], n[i], low[i], high[i] = b.slot-from, float64(b.n), b.min, b.max
	}
	keep := -1
	if k := max(decimals(low), decimals(high)); decimals(low) >= 0 && decimals(high) >= 0 {
		keep = k + 3
	}
	for i := range list {
		list[i].mean = rounded(list[i].mean, keep)
		mean[i] = list[i].mean
	}
	blob := binary.AppendUvarint([]byte{format}, uint64(len(list)))
	blob = packSteps(blob, at)
	for _, column := range [][]float64{n, low, high, mean} {
		blob = packColumn(blob, column)
	}
	return seal(blob)
}

func rounded(v float64, decimals int) float64 {
	if decimals < 0 || decimals > mostDecimals || math.Abs(v)*tens[decimals] >= exact {
		return v
	}
	return math.Round(v*tens[decimals]) / tens[decimals]
}

// unpackBuckets is the reverse, for a chunk with room for so many buckets.
func unpackBuckets(blob []byte, from, room int64) ([]bucket, error) {
	u, count := unseal(blob)
	at, n := make([]int64, count), make([]float64, count)
	low, high, mean := make([]float64, count), make([]float64, count), make([]float64, count)
	u.steps(at, room)
	for _, column := range [][]float64{n, low, high, mean} {
		u.column(column)
	}
	if u.err != nil || len(u.rest) > 0 {
		return nil, errPacked
	}
	list := make([]bucket, count)
	for i := range list {
		list[i] = bucket{from + at[i], int(n[i]), low[i], mean[i], high[i]}
	}
	return list, nil
}

// seal appends the checksum.
func seal(blob []byte) []byte {
	return binary.LittleEndian.AppendUint32(blob, crc32.Checksum(blob, castagnoli))
}

// unseal checks format and checksum and reads the number of values. It is at most
// the number of bytes: each value takes one or more, so that no damage can ask for
// more memory than it takes itself.
func unseal(blob []byte) (*unpacker, int) {
	end := len(blob) - 4
	if end < 2 || blob[0] != format || crc32.Checksum(blob[:end], castagnoli) != binary.LittleEndian.Uint32(blob[end:]) {
		return &unpacker{err: errPacked}, 0
	}
	u := &unpacker{rest: blob[1:end]}
	n := u.unsigned()
	if n > uint64(len(u.rest)) {
		return &unpacker{err: errPacked}, 0
	}
	return u, int(n)
}
