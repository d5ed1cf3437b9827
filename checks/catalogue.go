package checks

import (
	"sort"

	"lugmark/core/bank"
)

// Fields lists every question, in the order in which a form or a stage asks it.
func Fields() []Field {
	out := make([]Field, len(catalogue))
	for i, f := range catalogue {
		out[i] = *f
	}
	return out
}

// catalogue holds where each field stands and not the field, so that it is data
// of the program and no code: a few kilobytes of the download.
var catalogue = [...]*Field{
	&layoutField, &siteName.Field, &siteAddress.Field, &sitePlace.Field, &personPhone.Field, &siteKind.Field, &siteHottest.Field, &personRole.Field,
	&designCurrent.Field, &blockSheet.Field, &blockSerial.Field, &blockCode.Field, &blockFirm.Field, &sheetModel.Field,
	&sheetPage.Field, &sheetCapacity.Field, &sheetRate.Field, &sheetCutoff.Field, &sheetVmax.Field, &sheetAbsorb.Field, &sheetTail.Field, &sheetChargeMax.Field,
	&sheetDischarge.Field, &sheetTrip.Field, &sheetShort.Field, &sheetR.Field, &sheetFuseMax.Field, &sheetSeries.Field, &sheetParallel.Field,
	&sheetColdest.Field, &sheetHottest.Field, &sheetTorqueMin.Field, &sheetTorqueMax.Field, &sheetTorque.Field, &chargerRating.Field,
	&inverterPower.Field, &inverterCutoff.Field, &inverterOwn.Field, &cableSize.Field, &cableStandard.Field, &cableRating.Field,
	&cableTerminal.Field, &partCable.Field, &partLength.Field, &engineSpace.Field, &cableByMaker.Field, &linkR.Field, &fuseRating.Field, &fuseVoltage.Field,
	&fuseBreaking.Field, &fuseCopper.Field, &meterMeasures.Field, &meterPercent.Field, &meterCounts.Field, &meterDue.Field, &meterStep.Field,
	&meterRange.Field, &wrenchTop.Field, &wrenchClicks.Field, &useVolts.Field, &useMilli.Field, &useAmperes.Field, &useSmall.Field, &useCelsius.Field, &useTorque.Field,
	&useInsulation.Field, &useOhms.Field, &useMilliohms.Field, &useKilograms.Field, &useMetres.Field,
	&licensedPerson.Field, &ratedVoltage.Field, &gloveVoltage.Field, &chargerLowest.Field, &chargerHighest.Field, &inverterLowest.Field, &inverterMost.Field,
	&inverterRipple.Field, &alternator.Field, &standsOn.Field, &shelfLength.Field, &shelfDepth.Field, &shelfRating.Field, &shelfRow.Field, &blockGap.Field,
	&sheetMass.Field, &sheetLength.Field, &sheetWidth.Field, &sheetHeight.Field, &liftHoist.Field, &liftReach.Field, &liftHeight.Field, &liftTravel.Field,
	&liftTwist.Field, &liftGrip.Field, &liftRate.Field, &liftPersons.Field, &siteAltitude.Field, &siteColdest.Field, &siteFuel.Field, &sparkProof.Field,
	&sheetAir.Field, &sheetPeak.Field, &sheetPeakTime.Field, &shedTime.Field,
	&condition.Field, &swelling.Field, &arrivalPhoto.Field, &wakeMethod.Field, &wakeCurrent.Field, &wakeTime.Field, &wokenVolts.Field, &wakeWarm.Field,
	&sleptAgain.Field, &lowestCell.Field, &supplierCharge.Field, &blockMass.Field, &blockLength.Field, &blockWidth.Field, &blockHeight.Field,
	&hazardsRead.Field, &arrivalVoltage.Field, &lastCurrent.Field, &firstVoltage.Field, &restVoltage.Field, &restClose.Field,
	&blockTemp.Field, &gapVoltage.Field, &stringGap.Field, &gapOver.Field, &blockR.Field, &joinLeadR.Field, &joinFuse.Field, &linksClear.Field,
	&levelTaken.Field, &fullTemp.Field, &fullVoltage.Field, &fullCurrent.Field, &fullVoltage2.Field, &fullCurrent2.Field, &fullEnded.Field,
	&restJoined.Field, &restCurrent.Field, &restOpened.Field,
	&unfused.Field, &fuseSheath.Field, &fuseAtPost.Field, &fuseClears.Field, &lugStacks.Field, &lugCount.Field, &lugThread.Field, &lugPhoto.Field,
	&insulation.Field, &insulVolts.Field, &insulFree.Field, &insulProved.Field, &insulTop.Field, &bondPlan.Field, &strayPlus.Field, &strayMinus.Field,
	&strayMeter.Field, &bondOhm.Field, &bondPlaces.Field,
	&closed.Field, &lastGap.Field, &torqueSet.Field, &stepVoltage.Field, &totalVoltage.Field, &inverterOff.Field,
	&capacitors.Field, &prechargeLeft.Field, &setAbsorption.Field, &setFloat.Field, &setCurrent.Field, &setEqualise.Field, &setTempComp.Field,
	&setRecover.Field, &foundAbsorb.Field, &heldAbsorb.Field, &chargeTemp.Field, &sensorKind.Field, &hoursHere.Field, &plannedCharge.Field,
	&chargeTarget.Field, &sampleVoltage.Field, &sampleCurrent.Field, &sampleTemp.Field, &topVoltage.Field, &topVoltage2.Field,
	&tailCurrent.Field, &tailCurrent2.Field, &chargeEnded.Field, &capTarget.Field, &capCharge.Field, &capError.Field, &capEnergy.Field,
	&capHours.Field, &capCurrent.Field, &capTemp.Field, &capFull.Field, &capEnd.Field, &capWhy.Field,
	&jointDrop.Field, &jointZero.Field, &jointCurrent.Field,
	&prechargeR.Field, &prechargePulse.Field, &prechargeBears.Field, &prechargeFarad.Field, &prechargeTime.Field, &sheetLowest.Field, &closeAmps.Field, &closeVolts.Field,
	&closeTripped.Field, &coldLockout.Field, &otherLockout.Field, &sheetHeated.Field, &sheetHeaterAmps.Field, &sheetRelease.Field, &heatWatched.Field, &airNow.Field,
	&warmUpPlan.Field, &leadSource.Field, &leadPosts.Field, &leadAmps.Field, &tailSeconds.Field, &sheetEnergy.Field, &backCharge.Field, &backHours.Field,
	&backHeater.Field, &loadVolts.Field, &loadAmps.Field, &loadTime.Field, &loadTripped.Field, &stepAmps.Field, &stepMethod.Field, &sheetRMethod.Field,
	&shareAmps.Field, &shareTotal.Field, &clampZeroed.Field, &counterFitted.Field, &counterOut.Field, &clampOut.Field, &counterIn.Field, &clampIn.Field,
	&counterZero.Field, &sheetOverAmps.Field, &sheetOverFrom.Field, &sheetOverTo.Field, &overAmps.Field, &overTime.Field, &overOpened.Field, &overSteady.Field,
	&heatJoint.Field, &heatLike.Field, &heatAir.Field, &heatAmps.Field, &heatTime.Field, &heatMethod.Field, &leadTemp.Field, &sensorType.Field,
	&sensorReads.Field, &sensorOhms.Field, &sensorBeside.Field, &sensorWay.Field, &sensorSoaked.Field, &sheetCutOut.Field, &cutOutAllowed.Field, &cutOutAt.Field,
	&coldStartAmps.Field, &coldStartTemp.Field, &ownDrawAmps.Field, &ownDrawStated.Field, &idleAmps.Field, &idleIsolator.Field, &idleSource.Field, &storeDays.Field,
	&storeLevel.Field, &labelsOn.Field, &papersLeft.Field, &alarmFirst.Field, &ownerBriefed.Field, &rebuilt.Field, &fullBefore.Field,
	&cutoffSeen.Field, &changeMeant.Field, &marksMoved.Field, &soundStill.Field, &swellAgain.Field,
}

// noField stands where there is none; it has no id.
var noField = Field{&Spec{}}

// byID finds a field by its id and the kind of part; ids may be shared by
// kinds of part when they mean the same.
var byID = func() map[string][]Field {
	m := map[string][]Field{}
	for _, f := range Fields() {
		m[f.ID] = append(m[f.ID], f)
	}
	return m
}()

// FieldOf finds the field of this id for a part; ok is false for an unknown
// field or a part that does not have it.
func FieldOf(id, part string) (Field, bool) {
	kind, ok := bank.PartKind(part)
	if !ok {
		return noField, false
	}
	return FieldOfKind(id, kind)
}

// FieldOfKind is [FieldOf] for a kind of part.
func FieldOfKind(id string, kind bank.Kind) (Field, bool) {
	if kind == bank.KindHouse {
		return houseField(id)
	}
	for _, f := range byID[id] {
		if f.Has(kind) {
			return f, true
		}
	}
	return noField, false
}

// FieldIDs lists all field ids once, sorted: they are for ever.
func FieldIDs() []string {
	var ids []string
	for id := range byID {
		ids = append(ids, id)
	}
	sort.Strings(ids)
	return ids
}

// FieldsOfKind lists the fields of a kind of part in order.
func FieldsOfKind(kind bank.Kind) []Field {
	var out []Field
	for _, f := range Fields() {
		if f.Has(kind) {
			out = append(out, f)
		}
	}
	return out
}
