package quantity

// The quantities, each in its base unit.
type (
	Voltage         float64 // V
	Current         float64 // A
	Charge          float64 // Ah
	Energy          float64 // Wh
	Power           float64 // W
	Resistance      float64 // Ω
	Capacitance     float64 // F
	Temperature     float64 // °C
	TemperatureStep float64 // K, a difference
	Length          float64 // m
	Area            float64 // m²
	Mass            float64 // kg
	Duration        float64 // s
	Ratio           float64 // fraction, 1 = 100 %
	Number          float64 // plain number without a unit
	Rate            float64 // charge or discharge current over capacity, 1/h
	VoltageSlope    float64 // V/K
	RatioSlope      float64 // 1/K
	HeatLoss        float64 // W/K
	SpecificHeat    float64 // J/(kg·K)
	Conductivity    float64 // W/(m·K)
	ResistancePer   float64 // Ω/m
	Irradiance      float64 // W/m²
	Angle           float64 // degree
	Latitude        float64 // degree, north positive
	Longitude       float64 // degree, east positive
)

// Quantity is any of the types above.
type Quantity interface {
	~float64
	Dimension() *Dimension
}

// Parse reads text as the quantity Q.
func Parse[Q Quantity](text string) (Q, error) {
	var q Q
	v, err := q.Dimension().Parse(text)
	return Q(v), err
}

// Text shows q with a unit that suits its size.
func Text[Q Quantity](q Q, s System) string { return q.Dimension().Text(float64(q), s) }

// Dimension methods tie each type to its table of units.
func (Voltage) Dimension() *Dimension         { return Volts }
func (Current) Dimension() *Dimension         { return Amperes }
func (Charge) Dimension() *Dimension          { return AmpereHours }
func (Energy) Dimension() *Dimension          { return WattHours }
func (Power) Dimension() *Dimension           { return Watts }
func (Resistance) Dimension() *Dimension      { return Ohms }
func (Capacitance) Dimension() *Dimension     { return Farads }
func (Temperature) Dimension() *Dimension     { return Celsius }
func (TemperatureStep) Dimension() *Dimension { return Kelvins }
func (Length) Dimension() *Dimension          { return Metres }
func (Area) Dimension() *Dimension            { return SquareMetres }
func (Mass) Dimension() *Dimension            { return Kilograms }
func (Duration) Dimension() *Dimension        { return Seconds }
func (Ratio) Dimension() *Dimension           { return Fraction }
func (Number) Dimension() *Dimension          { return Plain }
func (Rate) Dimension() *Dimension            { return PerHour }
func (VoltageSlope) Dimension() *Dimension    { return VoltsPerKelvin }
func (RatioSlope) Dimension() *Dimension      { return PerKelvin }
func (HeatLoss) Dimension() *Dimension        { return WattsPerKelvin }
func (SpecificHeat) Dimension() *Dimension    { return JoulesPerKgK }
func (Conductivity) Dimension() *Dimension    { return WattsPerMetreK }
func (ResistancePer) Dimension() *Dimension   { return OhmsPerMetre }
func (Irradiance) Dimension() *Dimension      { return WattsPerM2 }
func (Angle) Dimension() *Dimension           { return Degrees }
func (Latitude) Dimension() *Dimension        { return DegreesNorth }
func (Longitude) Dimension() *Dimension       { return DegreesEast }
