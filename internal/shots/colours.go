package main

import (
	"bytes"
	"cmp"
	"image"
	"image/color"
	"image/png"
	"slices"
)

// Paper, ink and one accent need few colours: most of the rest smooths edges of
// letters. Sixteen take four bits a pixel.
const colours = 16

// fewColours writes a picture again with a palette of its own.
func fewColours(shot []byte) ([]byte, error) {
	img, err := png.Decode(bytes.NewReader(shot))
	if err != nil {
		return nil, err
	}
	few := image.NewPaletted(img.Bounds(), paletteOf(img))
	nearest := map[color.RGBA]uint8{}
	for y := few.Rect.Min.Y; y < few.Rect.Max.Y; y++ {
		for x := few.Rect.Min.X; x < few.Rect.Max.X; x++ {
			c := color.RGBAModel.Convert(img.At(x, y)).(color.RGBA)
			index, known := nearest[c]
			if !known {
				index = uint8(few.Palette.Index(c))
				nearest[c] = index
			}
			few.SetColorIndex(x, y, index)
		}
	}
	var out bytes.Buffer
	err = (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&out, few)
	return out.Bytes(), err
}

// paletteOf takes the colours that are used most and are not nearly one already taken.
func paletteOf(img image.Image) color.Palette {
	count := map[color.RGBA]int{}
	b := img.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			count[color.RGBAModel.Convert(img.At(x, y)).(color.RGBA)]++
		}
	}
	used := make([]color.RGBA, 0, len(count))
	for c := range count {
		used = append(used, c)
	}
	slices.SortFunc(used, func(a, b color.RGBA) int {
		return cmp.Or(cmp.Compare(count[b], count[a]), cmp.Compare(a.R, b.R), cmp.Compare(a.G, b.G), cmp.Compare(a.B, b.B))
	})
	var few color.Palette
	for apart := 40; apart >= 0 && len(few) < colours; apart -= 8 {
		for _, c := range used {
			if len(few) < colours && farFrom(few, c, apart) {
				few = append(few, c)
			}
		}
	}
	return few
}

// farFrom says whether c differs from every colour by more than apart in one channel.
func farFrom(few color.Palette, c color.RGBA, apart int) bool {
	for _, p := range few {
		q := p.(color.RGBA)
		if max(gap(c.R, q.R), gap(c.G, q.G), gap(c.B, q.B)) <= apart {
			return false
		}
	}
	return true
}

func gap(a, b uint8) int { return max(int(a), int(b)) - min(int(a), int(b)) }
