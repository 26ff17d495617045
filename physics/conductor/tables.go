package conductor

// gauge is one row of the tables that go by gauge number.
type gauge struct {
	number  float64    // AWG or SAE number, 1/0 = 0, 2/0 = -1 ...
	nec     float64    // Ω per 1000 ft at 75 °C, stranded, uncoated: NFPA 70 chapter 9 table 8
	saeCmil float64    // least area of the SAE gauge of this number
	amperes [7]float64 // 33 CFR 183.425 table 5, by cfrColumns
}

// cfrColumns are the insulation ratings of 33 CFR 183.425 table 5, °C.
var cfrColumns = []float64{60, 75, 80, 90, 105, 125, 200}

// engineFactors correct for the 50 °C of an engine space, by cfrColumns (note 1
// of the table). 200 °C follows the heat balance √((200-50)/(200-30)), which is
// lower than the 1.00 remembered from the note.
var engineFactors = [7]float64{0.58, 0.75, 0.78, 0.82, 0.85, 0.89, 0.94}

// gauges rise in area.
var gauges = []gauge{
	{18, 7.95, 1537, [7]float64{10, 10, 15, 20, 20, 25, 25}},
	{16, 4.99, 2336, [7]float64{15, 15, 20, 25, 25, 30, 35}},
	{14, 3.14, 3702, [7]float64{20, 20, 25, 30, 35, 40, 45}},
	{12, 1.98, 5833, [7]float64{25, 25, 35, 40, 45, 50, 55}},
	{10, 1.24, 9343, [7]float64{40, 40, 50, 55, 60, 70, 70}},
	{8, 0.778, 14810, [7]float64{55, 65, 70, 70, 80, 90, 100}},
	{6, 0.491, 24538, [7]float64{80, 95, 100, 100, 120, 125, 135}},
	{4, 0.308, 37360, [7]float64{105, 125, 130, 135, 160, 170, 180}},
	{3, 0.245, 0, [7]float64{120, 145, 150, 155, 180, 195, 210}},
	{2, 0.194, 62450, [7]float64{140, 170, 175, 180, 210, 225, 240}},
	{1, 0.154, 77790, [7]float64{165, 195, 210, 210, 245, 265, 280}},
	{0, 0.122, 98980, [7]float64{195, 230, 245, 245, 285, 305, 325}},
	{-1, 0.0967, 125100, [7]float64{225, 265, 285, 285, 330, 355, 370}},
	{-2, 0.0766, 158600, [7]float64{260, 310, 330, 330, 385, 410, 430}},
	{-3, 0.0608, 205500, [7]float64{300, 360, 385, 385, 445, 475, 510}},
}

// class5 is IEC 60228:2004 table 3: mm² against the greatest Ω/km at 20 °C of
// plain flexible copper conductors.
var class5 = []point{
	{0.5, 39.0}, {0.75, 26.0}, {1, 19.5}, {1.5, 13.3}, {2.5, 7.98}, {4, 4.95}, {6, 3.30}, {10, 1.91},
	{16, 1.21}, {25, 0.780}, {35, 0.554}, {50, 0.386}, {70, 0.272}, {95, 0.206}, {120, 0.161},
}

// isoColumns are the insulation ratings of ISO 10133 annex A, °C.
var isoColumns = []float64{60, 70, 85, 105, 125, 200}

// isoAmperes is ISO 10133 annex A as remembered: mm² and A by isoColumns.
var isoAmperes = []struct {
	mm2     float64
	amperes [6]float64
}{
	{0.75, [6]float64{8, 10, 12, 16, 20, 25}},
	{1, [6]float64{12, 14, 18, 20, 25, 35}},
	{1.5, [6]float64{16, 18, 21, 25, 30, 40}},
	{2.5, [6]float64{20, 25, 30, 35, 40, 45}},
	{4, [6]float64{30, 35, 40, 45, 50, 55}},
	{6, [6]float64{40, 45, 50, 60, 70, 75}},
	{10, [6]float64{60, 65, 70, 90, 100, 120}},
	{16, [6]float64{80, 90, 100, 130, 150, 170}},
	{25, [6]float64{110, 120, 140, 170, 185, 200}},
	{35, [6]float64{140, 160, 185, 210, 225, 240}},
	{50, [6]float64{180, 210, 230, 270, 300, 325}},
	{70, [6]float64{220, 265, 285, 330, 360, 375}},
	{95, [6]float64{260, 310, 330, 390, 410, 430}},
	{120, [6]float64{300, 360, 400, 450, 480, 520}},
}

// bundled is a share of the ampacity from a number of conductors on.
type bundled struct {
	from   int
	factor float64
}

// bundleFactors is NFPA 70 table 310.15(C)(1): from this number of
// current-carrying conductors lying together on, that share of the ampacity.
var bundleFactors = []bundled{{1, 1}, {4, 0.8}, {7, 0.7}, {10, 0.5}, {21, 0.45}, {31, 0.4}, {41, 0.35}}

// cfrBundleFactors are those of 33 CFR 183.425 for circuits of 50 V and more.
var cfrBundleFactors = []bundled{{1, 1}, {3, 0.7}, {4, 0.6}, {7, 0.5}, {25, 0.4}}
