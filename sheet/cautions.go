package sheet

import "ampstead/source"

// Caution is one thing every output carries: said short and plain, never hidden.
type Caution struct {
	ID      string // anchor
	Heading string
	Text    []string // paragraphs
	Steps   []string // in order, when it is something to do
	Sources []source.Source
}

// CautionsShort is the two-line form for the foot of a page or a command's output.
func CautionsShort() []string {
	return []string{
		"High fault current, risk of fire; a salvaged module may be damaged in ways no test here shows. If it smokes: everyone out and away, call the fire service.",
		"Protection must be hardware that acts without Ampstead. Follow local codes and have a licensed professional check the installation.",
	}
}

// Cautions is the full form. What to do when a battery smokes stands first,
// because that page is opened in a hurry.
func Cautions() []Caution {
	return []Caution{
		{ID: "if-it-smokes", Heading: "If the battery smokes, hisses or swells", Steps: []string{
			"Get everyone out and away, upwind.",
			"Call the fire service. Say that it is a lithium-ion battery, and that it is in a vehicle people live in.",
			"Do not open the compartment.",
			"Do not breathe the smoke. It is poisonous and it can ignite.",
			"Stay away. It can flare up again hours later.",
		}, Sources: []source.Source{source.EmergencyPractice}},
		{ID: "fault-current", Heading: "A short circuit here burns and does not stop", Text: []string{
			"A house battery can drive thousands of amperes through a dropped spanner (the trade calls it fault current). It melts metal and starts fires within a second. Its terminals cannot be switched off.",
			"Take off rings and watches, insulate tools, cover every live end, and fit the main fuse at the bank before anything else is connected.",
		}, Sources: []source.Source{source.FaultPractice}},
		{ID: "hidden-damage", Heading: "A salvaged module may be damaged in ways no test here shows", Text: []string{
			"A crash, charging in frost, deep discharge or water can leave damage inside a cell that voltage, capacity and resistance do not show. Cells that have plated lithium begin to heat themselves at a lower temperature and fail more violently than new ones.",
			"Tests lessen the doubt. They do not end it, however long the module has served well.",
		}, Sources: []source.Source{source.Gerosa2025}},
		{ID: "hardware", Heading: "Protection must be hardware that acts without Ampstead", Text: []string{
			"Fuses, contactors, relays, cut-outs and cell meters have to act on their own, with this program, every phone and every computer switched off. Ampstead works out settings and says what it checked and what it found. It protects nothing, and what it did not find may still be there.",
		}},
		{ID: "local-codes", Heading: "Follow local codes and have the installation checked", Text: []string{
			"Rules for vehicles, gas, mains and batteries differ from country to country. They come before anything printed here. Have someone licensed for this work check the installation before it is first connected and after every change.",
		}},
		{ID: "standards", Heading: "No standard covers a salvaged module without a history", Text: []string{
			"IEC 62619:2022 leaves second-life cells out of its scope, so a salvaged module can never be called compliant with it. IEC 63338:2024 does not permit reuse of cells or assemblies of cells without recorded data from their whole life (the trade calls it traceability), which a module from a dismantler's yard rarely has.",
			"Where a rule asks for a battery to IEC 62619, as AS/NZS 3001.2:2022 does for recreational vehicles, a salvaged module is refused.",
		}, Sources: []source.Source{source.IEC62619Scope, source.IEC63338Scope, source.ASNZS3001}},
	}
}
