package source

// What is known of how batteries fail and burn, for choosing between them.
var (
	Guo2016      = Source{"guo-2016", "Guo, Lu, Ouyang, Feng 2016, Sci. Rep. 6, 30248: forced over-discharge of large cells, copper dissolved from about −12 % of charge", Read}
	Hendricks    = Source{"hendricks-2020", "Hendricks et al. 2020, J. Electrochem. Soc. 167, doi 10.1149/1945-7111/ab697a: copper also dissolves in long storage below 0 % with a small drain", Read}
	Zhong2018    = Source{"zhong-2018", "Zhong et al. 2018, Front. Energy Res. 6, 110: heat of nickel-manganese-cobalt 532 with its cell's contents", Read}
	Golubkov2014 = Source{"golubkov-2014", "Golubkov et al. 2014, RSC Adv. 4, 3633: 18650 cells heated to thermal runaway", Memory}
	Golubkov2015 = Source{"golubkov-2015", "Golubkov et al. 2015, RSC Adv. 5, 57171: over-charged cells heated to thermal runaway; the paper's subject read, its numbers from memory", Memory}
	RunawayText  = Source{"runaway-text", "engineering text: reactions that heat themselves from about 130 °C", SecondHand}
	Hund         = Source{"hund", "Hund, Sandia, as quoted: incomplete recharge is the main cause of early loss of lead-acid in solar use", SecondHand}
	Insulation   = Source{"insulation-practice", "insulation of a module against its case, 500 Ω for each volt as electric vehicles are tested", Memory}
	SellerHabit  = Source{"seller-practice", "What to ask and measure before a battery is bought", Practice}
)

var choosing = []Source{Guo2016, Hendricks, Zhong2018, Golubkov2014, Golubkov2015, RunawayText, Hund, Insulation, SellerHabit}
