package conductor

// ambientColumns are the insulation ratings of NFPA 70 table 310.15(B)(1), °C.
var ambientColumns = []float64{60, 75, 90}

// ambientRows is that table: the factor up to an ambient temperature in °C, by
// ambientColumns; 0 where the insulation cannot be used.
var ambientRows = []struct {
	upTo    float64
	factors [3]float64
}{
	{10, [3]float64{1.29, 1.20, 1.15}}, {15, [3]float64{1.22, 1.15, 1.12}}, {20, [3]float64{1.15, 1.11, 1.08}},
	{25, [3]float64{1.08, 1.05, 1.04}}, {30, [3]float64{1, 1, 1}}, {35, [3]float64{0.91, 0.94, 0.96}},
	{40, [3]float64{0.82, 0.88, 0.91}}, {45, [3]float64{0.71, 0.82, 0.87}}, {50, [3]float64{0.58, 0.75, 0.82}},
	{55, [3]float64{0.41, 0.67, 0.76}}, {60, [3]float64{0, 0.58, 0.71}}, {65, [3]float64{0, 0.47, 0.65}},
	{70, [3]float64{0, 0.33, 0.58}}, {75, [3]float64{0, 0, 0.50}}, {80, [3]float64{0, 0, 0.41}}, {85, [3]float64{0, 0, 0.29}},
}

// enclosedColumns are the insulation ratings of NFPA 70 table 310.16 carried
// here, °C; insulation rated 60 °C has no column and is refused.
var enclosedColumns = []float64{75, 90}

// enclosedRows is that table: AWG number and A by enclosedColumns. It has no 75 °C
// figure below 14 AWG: there the 90 °C one is carried down by the heat balance,
// √(45/60) of it.
var enclosedRows = []struct {
	number  float64
	amperes [2]float64
}{
	{18, [2]float64{12, 14}}, {16, [2]float64{15, 18}}, {14, [2]float64{20, 25}}, {12, [2]float64{25, 30}}, {10, [2]float64{35, 40}},
	{8, [2]float64{50, 55}}, {6, [2]float64{65, 75}}, {4, [2]float64{85, 95}}, {3, [2]float64{100, 110}}, {2, [2]float64{115, 130}},
	{1, [2]float64{130, 150}}, {0, [2]float64{150, 170}}, {-1, [2]float64{175, 195}}, {-2, [2]float64{200, 225}}, {-3, [2]float64{230, 260}},
}
