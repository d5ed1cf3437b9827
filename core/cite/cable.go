package cite

// Conductors.
var (
	NEC310_16 = Source{
		ID: "nec-310-16", Title: "NEC Table 310.16", Edition: "2023", Checked: Read,
		Note: "Copper, at most three conductors that carry current, 30 °C around them. " +
			"Older editions print other figures for 14, 12, 3 and 1 AWG.",
	}
	NEC310_15Ambient = Source{
		ID: "nec-310-15-ambient", Title: "NEC Table 310.15(B)(1)", Edition: "2023", Checked: Read,
		Note: "Correction for the temperature around the cable, base 30 °C.",
	}
	NEC310_15Bundle = Source{
		ID: "nec-310-15-bundle", Title: "NEC Table 310.15(C)(1)", Edition: "2023", Checked: FromMemory,
		Note: "The factors were read in a public copy; the number of the table is from memory.",
	}
	NEC310Parallel = Source{
		ID: "nec-310-parallel", Title: "NEC article 310, conductors in parallel", Checked: FromMemory,
		Note: "Conductors in parallel from 1/0 AWG up.",
	}
	NEC110_14C = Source{
		ID: "nec-110-14-c", Title: "NEC 110.14(C)", Checked: Read,
		Note: "The column of the terminal decides; 60 °C where the terminal is not marked.",
	}
	NEC690_8B = Source{
		ID: "nec-690-8-b", Title: "NEC 690.8(B)", Checked: Read,
		Note: "Two tests, not stacked: 125 % at the terminal column, 100 % after correction.",
	}
	NECTable8 = Source{
		ID: "nec-table-8", Title: "NEC chapter 9, Table 8", Checked: Read,
		Note: "Stranded uncoated copper at 75 °C.",
	}
	ABYCE11 = Source{
		ID: "abyc-e-11-ampacity", Title: "ABYC E-11, ampacity at 105 °C", Checked: Read,
		Note: "Also printed in 33 CFR 183.425. Not more than two conductors in a bundle (from memory).",
	}
	ABYCE11Drop = Source{
		ID: "abyc-e-11-drop", Title: "ABYC E-11, 3 % for critical circuits", Checked: Read,
	}
	IEC60228 = Source{
		ID: "iec-60228", Title: "IEC 60228", Checked: Read,
		Note: "Highest resistance at 20 °C; other temperatures by 250/(230 + t), as the same document gives.",
	}
	IEC60028 = Source{
		ID: "iec-60028", Title: "IEC 60028", Checked: FromMemory,
		Note: "Annealed copper: 1/58 ohm mm²/m at 20 °C, 0.00393 per kelvin.",
	}
	ASTMB258 = Source{
		ID: "astm-b258", Title: "ASTM B258", Checked: FromMemory,
		Note: "The formula is from memory; it gives the diameters that public tables print.",
	}
	SAEGauge = Source{
		ID: "sae-gauge", Title: "two wire catalogues, SAE gauge areas", Checked: Read,
		Note: "3 to 12 % less copper than the same number in AWG.",
	}
	IEC60364B2 = Source{
		ID: "iec-60364-5-52-b2", Title: "IEC 60364-5-52, method B2, PVC 70 °C, three loaded conductors", Checked: Read,
		Note: "As an industrial manual quotes it, at 30 °C and 40 °C.",
	}
)

// Fuses and fault current.
var (
	NEC240_6A = Source{
		ID: "nec-240-6-a", Title: "NEC 240.6(A)", Checked: Read,
		Note: "Standard ampere ratings; older editions add 601 A for fuses.",
	}
	NEC240_4B = Source{
		ID: "nec-240-4-b", Title: "NEC 240.4(B)", Checked: Read,
		Note: "The next standard rating above the ampacity, up to 800 A.",
	}
	NEC210_20A = Source{
		ID: "nec-210-20-a", Title: "NEC 210.20(A)", Checked: Read,
		Note: "125 % of the continuous current.",
	}
	ABYCE11FuseSize = Source{
		ID: "abyc-e-11-fuse-size", Title: "ABYC E-11, fuse at most 150 % of the ampacity", Checked: Read,
		Note: "Only where no standard size fits.",
	}
	ABYCE11FusePlace = Source{
		ID: "abyc-e-11-fuse-place", Title: "ABYC E-11, fuse within 18, 102 or 183 cm", Checked: Read,
	}
	ABYCE11Breaking = Source{
		ID: "abyc-e-11-breaking", Title: "ABYC E-11, 20 kA at 125 V DC", Checked: Read,
		Note: "As boating texts quote it.",
	}
	FuseAltitude = Source{
		ID: "fuse-altitude", Title: "a distributor's note on fuses above 2000 m", Checked: Read,
	}
)
