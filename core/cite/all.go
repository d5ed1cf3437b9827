package cite

import "lugmark/core/say"

// All lists every source once, in the order of the list of sources on paper.
// [Maker] is not in it: its page belongs to the job.
func All() []Source {
	return []Source{
		GUM, JCGM106, ILACG8, CircuitTheory,
		NEC310_16, NEC310_15Ambient, NEC310_15Bundle, NEC310Parallel, NEC110_14C, NEC690_8B, NECTable8,
		ABYCE11, ABYCE11Drop, IEC60228, IEC60028, ASTMB258, SAEGauge, IEC60364B2,
		NEC240_6A, NEC240_4B, NEC210_20A, ABYCE11FuseSize, ABYCE11FusePlace, ABYCE11Breaking, FuseAltitude,
		OpenOCV, ChargeByTemperature, SeriesVoltage, RestDrift, PrechargeLeft, IEC62620, IEEECapacity,
		IEEEJoint, IEEEJointDrift, NETAHeat, ISO6789, TorqueNominal, LugStack,
		IEC60364Insulation, IEC62446, IEC62485, LowVoltageDC, NFPA70E, NEC706, ABYCE13, NIOSHLift,
		OurRule, CommonPractice, Firm,
	}
}

// Phrases lists what this package can say, for the catalogues of translators.
func Phrases() []say.Phrase {
	phrases := []say.Phrase{
		after, quoted, computed, ourRule, practice, firmRule,
		makerPage, makerNoPage, withEdition, withPlace, twoSources,
	}
	phrases = append(phrases, levelPhrases[:]...)
	for _, s := range All() {
		phrases = append(phrases, say.Phrase{Key: "cite.source." + s.ID, English: s.Title})
		if s.Note != "" {
			phrases = append(phrases, s.Remark().Phrase)
		}
	}
	return phrases
}
