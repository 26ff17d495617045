package rig

import q "ampstead/quantity"

// Candidate is a battery that could be bought: everything its price pays for,
// wired as it would stand in the rig.
type Candidate struct {
	Name          string    `yaml:"name" need:"yes" doc:"what you call it" eg:"pouch modules from the coast"`
	Kind          string    `yaml:"kind" need:"yes" oneof:"salvaged module|new pack|lead-acid" doc:"what it is sold as" eg:"salvaged module"`
	Cell          string    `yaml:"cell" need:"yes" doc:"cell by name from the library, or own" eg:"lfp"`
	Own           *OwnCell  `yaml:"own" one:"cell of your own" doc:"your own cell, when cell is own"`
	Series        int       `yaml:"series" need:"yes" min:"1" max:"200" doc:"groups in series as it would be wired; of lead-acid, 2 V cells" eg:"16"`
	CellsPerGroup int       `yaml:"cells_per_group" min:"1" max:"1000" doc:"cells in parallel in one group of one module" eg:"1"`
	Strings       int       `yaml:"strings" min:"1" max:"20" doc:"equal series strings (modules) in parallel" eg:"1"`
	CellCapacity  *q.Charge `yaml:"cell_capacity" need:"yes" min:"0.1" max:"2000" doc:"rated capacity of one cell when new" eg:"100 Ah"`
	State         *State    `yaml:"state" one:"past" doc:"what is known of its past; without it, new"`
	Limits        *Limits   `yaml:"limits" one:"cell limits" doc:"stricter limits from the cell's maker, if known"`
	Price         *q.Money  `yaml:"price" doc:"of all of it" eg:"980 EUR"`
	Mass          *q.Mass   `yaml:"mass" min:"0.1" max:"2000" doc:"of all of it" eg:"46 kg"`
	Length        *q.Length `yaml:"length" min:"0.01" max:"5" doc:"of all of it, as it would stand" eg:"0.72 m"`
	Width         *q.Length `yaml:"width" min:"0.01" max:"5" doc:"of all of it, as it would stand" eg:"0.35 m"`
	Height        *q.Length `yaml:"height" min:"0.01" max:"5" doc:"of all of it, as it would stand" eg:"0.22 m"`
	Fetch         *q.Length `yaml:"fetch" min:"0" max:"10000000" doc:"way to where it is sold" eg:"140 km"`
	FetchCost     *q.Money  `yaml:"fetch_cost" doc:"what bringing it home costs, counted with its price" eg:"60 EUR"`
	Note          string    `yaml:"note" doc:"anything worth remembering"`
}

// State is what is known of a used battery. Capacity and resistance are of all
// of it, as it would be wired.
type State struct {
	Capacity   *q.Charge     `yaml:"capacity" min:"0.1" max:"20000" doc:"capacity by a test of it" eg:"88 Ah"`
	Resistance *q.Resistance `yaml:"resistance" min:"0.00001" max:"10" doc:"10 s resistance by a test of it, about 25 °C" eg:"14 mΩ"`
	Years      int           `yaml:"years" min:"1" max:"40" doc:"years in a vehicle, as stated" eg:"7"`
	Distance   *q.Length     `yaml:"distance" min:"0" max:"2000000000" doc:"distance that vehicle went, as stated" eg:"96000 km"`
	Range      *q.Length     `yaml:"range" min:"1000" max:"2000000" doc:"distance that vehicle went on a full charge when new, to reckon cycles from the distance" eg:"260 km"`
}
