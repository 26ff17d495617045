package source

// What the cautions rest on.
var (
	IEC62619Scope     = Source{"iec-62619-2022", "IEC 62619:2022, scope (safety of lithium cells and batteries in industrial use)", Read}
	IEC63338Scope     = Source{"iec-63338-2024", "IEC 63338:2024 (guidance on reuse and repurposing of lithium-ion and nickel-metal-hydride)", Read}
	ASNZS3001         = Source{"as-nzs-3001-2-2022", "AS/NZS 3001.2:2022 (electrical installations of recreational vehicles, new builds from 18 November 2023)", SecondHand}
	Gerosa2025        = Source{"gerosa-2025", "Gerosa et al. 2025, on graphite/NCA 18650 cells with plated lithium, J. Electrochem. Soc., doi 10.1149/1945-7111/adb804", Read}
	EmergencyPractice = Source{"emergency-practice", "What to do at a smoking lithium-ion battery", Practice}
	FaultPractice     = Source{"fault-practice", "Working on a battery of high fault current", Practice}
)

var cautions = []Source{IEC62619Scope, IEC63338Scope, ASNZS3001, Gerosa2025, EmergencyPractice, FaultPractice}
