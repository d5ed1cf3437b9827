package cite

// Measurement and decision.
var (
	GUM = Source{
		ID: "gum", Title: "JCGM 100", Edition: "2008", Checked: FromMemory,
		Note: "Clause numbers are from memory; the arithmetic was reproduced.",
	}
	JCGM106 = Source{
		ID: "jcgm-106", Title: "JCGM 106", Edition: "2012", Checked: Read,
		Note: "Two worked examples were reproduced from an open implementation of the document.",
	}
	ILACG8 = Source{
		ID: "ilac-g8", Title: "ILAC-G8:09/2019, clause 4.2", Checked: Read,
		Note: "Guarded acceptance with a guard as wide as the expanded uncertainty, k = 2.",
	}
	CircuitTheory = Source{
		ID: "circuit-theory", Title: "Kirchhoff's and Ohm's laws", Checked: Computed,
	}
)

// Rules that come from no document.
var (
	OurRule        = Source{ID: "our-rule", Title: "our rule", Checked: EngineeringChoice}
	CommonPractice = Source{ID: "common-practice", Title: "common practice", Checked: Practice}
	Firm           = Source{ID: "firm", Title: "the firm's own rule", Checked: FirmRule}
)
