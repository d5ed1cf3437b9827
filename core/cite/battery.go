package cite

// Blocks and charging.
var (
	OpenOCV = Source{
		ID: "open-ocv", Title: "open measurements of resting voltage and charge, one LiFePO4 cell at C/30 and 25 °C",
		Place:   "a public data set, charge and discharge runs of cell P25",
		Checked: Computed,
		Note:    "MIT licence. Slow charge and discharge; the gap between them overstates a well rested block.",
	}
	ChargeByTemperature = Source{
		ID: "charge-by-temperature", Title: "two makers' charge tables, the stricter row", Checked: Read,
		Note: "Sheets of other blocks than the one in hand.",
	}
	SeriesVoltage = Source{
		ID: "series-voltage", Title: "public articles on protections in series", Checked: Read,
		Note: "An open protection sees the voltage of the whole string.",
	}
	RestDrift = Source{
		ID: "rest-drift", Title: "an article on resting voltage, 1 mV in 30 min", Checked: Read,
	}
	PrechargeLeft = Source{
		ID: "precharge-left", Title: "public articles on precharge, 5 % left", Checked: Read,
	}
	IEC62620 = Source{
		ID: "iec-62620", Title: "IEC 62620", Checked: FromMemory,
		Note: "100 % of rated at 0.2 It and 25 °C.",
	}
	IEEECapacity = Source{
		ID: "ieee-450-1188-capacity", Title: "IEEE 450 and IEEE 1188, as a public maintenance guide gives them", Checked: Read,
		Note: "Written for lead-acid; used here by analogy.",
	}
)

// Joints and tools.
var (
	IEEEJoint = Source{
		ID: "ieee-450-484-joint", Title: "IEEE 450 and IEEE 484, as makers' manuals give them", Checked: Read,
		Note: "Written for lead-acid; used here by analogy.",
	}
	IEEEJointDrift = Source{
		ID: "ieee-450-1188-joint-drift", Title: "IEEE 450 and IEEE 1188, as makers' manuals give them, 20 % above the first value", Checked: Read,
		Note: "Written for lead-acid; used here by analogy. The clause is from memory.",
	}
	NETAHeat = Source{
		ID: "neta-100-18", Title: "NETA Table 100.18", Edition: "2003", Checked: Read,
	}
	ISO6789 = Source{
		ID: "iso-6789-1", Title: "ISO 6789-1", Edition: "2017", Checked: Read,
		Note: "Read in a tool manual; that the largest value of the wrench decides between 4 % and 6 % is from memory.",
	}
	TorqueNominal = Source{
		ID: "torque-nominal", Title: "an engineering text, 10 % either side of one printed torque", Checked: Read,
	}
	LugStack = Source{
		ID: "lug-stack", Title: "a marine article on ABYC lug stacks", Checked: Read,
	}
)

// Insulation, labels, people.
var (
	IEC60364Insulation = Source{
		ID: "iec-60364-6", Title: "IEC 60364-6", Checked: Read,
		Note: "0.5 MΩ at 250 V up to 50 V, 1.0 MΩ above; the number of the table depends on the edition.",
	}
	IEC62446 = Source{
		ID: "iec-62446-1", Title: "IEC 62446-1", Checked: FromMemory,
	}
	IEC62485 = Source{
		ID: "iec-62485-2", Title: "IEC 62485-2, 100 Ω per volt", Checked: FromMemory,
	}
	LowVoltageDC = Source{
		ID: "low-voltage-dc", Title: "the 60 V DC limit of many codes", Checked: FromMemory,
	}
	NFPA70E = Source{
		ID: "nfpa-70e", Title: "NFPA 70E, 50 V", Checked: FromMemory,
	}
	NEC706 = Source{
		ID: "nec-706", Title: "NEC article 706", Checked: FromMemory,
	}
	ABYCE13 = Source{
		ID: "abyc-e-13", Title: "ABYC E-13", Checked: Read,
		Note: "As two public articles describe it.",
	}
	NIOSHLift = Source{
		ID: "niosh-lift", Title: "the revised NIOSH lifting equation", Checked: Read,
		Note: "The factors for two and three persons are from memory.",
	}
)
