package qr

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/skip2/go-qrcode"
)

const address = "http://192.168.7.31:4680/"

func sample(t *testing.T) Code {
	t.Helper()
	c, err := New(address)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestNewIsTheLibrarysCodeOfTheText(t *testing.T) {
	want, err := qrcode.New(address, qrcode.Medium)
	if err != nil {
		t.Fatal(err)
	}
	c := sample(t)
	for y, row := range want.Bitmap() {
		for x := range row {
			if c[y][x] != row[x] {
				t.Fatalf("module %d, %d differs", x, y)
			}
		}
	}
	other, err := New("http://192.168.7.32:4680/")
	if err != nil {
		t.Fatal(err)
	}
	if other.Terminal() == c.Terminal() {
		t.Error("another address gives the same code")
	}
	for _, bad := range []string{"", strings.Repeat("x", longest+1)} {
		if _, err := New(bad); err == nil {
			t.Errorf("%d bytes: expected an error", len(bad))
		}
	}
}

// Four light modules all around, and a finder pattern right inside in three corners.
func TestQuietZone(t *testing.T) {
	c := sample(t)
	n := len(c)
	for i := range n {
		for q := range 4 {
			if c[q][i] || c[n-1-q][i] || c[i][q] || c[i][n-1-q] {
				t.Fatalf("a dark module in the quiet zone near %d", i)
			}
		}
	}
	for _, corner := range [][2]int{{4, 4}, {n - 11, 4}, {4, n - 11}} {
		for y := range 7 {
			for x := range 7 {
				ring := max(abs(x-3), abs(y-3)) // of the finder, from its middle
				if got, want := c[corner[1]+y][corner[0]+x], ring != 2; got != want {
					t.Fatalf("finder at %v: module %d, %d is dark %v", corner, x, y, got)
				}
			}
		}
	}
}

func abs(n int) int { return max(n, -n) }

var runs = regexp.MustCompile(`M(\d+) (\d+)h(\d+)v1h-(\d+)z`)

// What the drawings show, read back module by module, is the code.
func TestDrawingsAreTheCode(t *testing.T) {
	c := sample(t)
	drawn := blank(len(c))
	for _, m := range runs.FindAllStringSubmatch(c.SVG("x"), -1) {
		x, y, w := number(t, m[1]), number(t, m[2]), number(t, m[3])
		for i := range w {
			drawn[y][x+i] = true
		}
	}
	equal(t, "SVG", c, drawn)

	drawn = blank(len(c) + 1)
	for y, line := range strings.Split(strings.TrimSuffix(c.Terminal(), "\n"), "\n") {
		line, ok := strings.CutPrefix(line, inked)
		line, end := strings.CutSuffix(line, reset)
		if !ok || !end {
			t.Fatalf("line %d does not set and reset both colours", y)
		}
		for x, r := range []rune(line) {
			drawn[2*y][x] = r == '█' || r == '▀'
			drawn[2*y+1][x] = r == '█' || r == '▄'
		}
	}
	equal(t, "terminal", c, drawn)
}

func blank(n int) Code {
	c := make(Code, n)
	for i := range c {
		c[i] = make([]bool, n)
	}
	return c
}

func equal(t *testing.T, what string, want, got Code) {
	t.Helper()
	for y := range want {
		for x := range want {
			if want[y][x] != got[y][x] {
				t.Fatalf("%s: module %d, %d is dark %v", what, x, y, got[y][x])
			}
		}
	}
}

func number(t *testing.T, text string) int {
	t.Helper()
	n, err := strconv.Atoi(text)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

func TestSVGEscapesItsName(t *testing.T) {
	if got := sample(t).SVG(`a"><b>&`); !strings.Contains(got, `aria-label="a&#34;&gt;&lt;b&gt;&amp;"`) {
		t.Error(got[:200])
	}
}

// Dark on light with a contrast of at least 12 to 1, as WCAG 2.2 reckons it.
func TestContrast(t *testing.T) {
	if got := (luminance(t, light) + .05) / (luminance(t, dark) + .05); got < 12 {
		t.Errorf("contrast %.1f, want 12 or more", got)
	}
}

func luminance(t *testing.T, colour string) float64 {
	t.Helper()
	sum := 0.0
	for i, weight := range []float64{.2126, .7152, .0722} {
		n, err := strconv.ParseUint(colour[1+2*i:3+2*i], 16, 8)
		if err != nil {
			t.Fatal(err)
		}
		v := float64(n) / 255
		if v <= .04045 {
			v /= 12.92
		} else {
			v = math.Pow((v+.055)/1.055, 2.4)
		}
		sum += weight * v
	}
	return sum
}
