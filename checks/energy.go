package checks

import "lugmark/core/unit"

// NominalVolts is the nominal voltage of a block: four cells of 3.2 V.
const NominalVolts unit.Volt = 12.8

// NominalEnergy is what the sheets say the bank stores: the nominal voltage
// times the rated capacity of every block. 0 while a sheet is missing.
func NominalEnergy(f *Facts) unit.WattHour {
	var total unit.WattHour
	complete := f.HasLayout()
	f.quietly(func() {
		for _, b := range f.Layout().Blocks() {
			sheet, ok := blockSheet.Of(f, b)
			ah, has := sheetCapacity.Plain(f, sheet)
			complete = complete && ok && has
			total += unit.WattHour(float64(NominalVolts) * float64(ah))
		}
	})
	if !complete {
		return 0
	}
	return total
}
