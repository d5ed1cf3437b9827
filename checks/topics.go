package checks

import (
	"lugmark/core/bank"
	"lugmark/core/say"
)

// Topic is the part of a form that is filled in at one go: what stands on one
// page of a sheet, or is read with one meter in one place.
type Topic struct {
	ID     string // "lift"; for ever, it stands in addresses
	Title  say.Phrase
	Of     bank.Kind
	Stage  Stage
	Fields []Field
}

// topic starts a topic; the key of its title follows from the id.
func topic(of bank.Kind, stage Stage, id, title string, fields ...Field) Topic {
	return Topic{ID: id, Of: of, Stage: stage, Title: say.Phrase{Key: "topic." + id, English: title}, Fields: fields}
}

// TopicsOf lists the topics into which the entries of a kind of part fall in a
// stage; none where they make one short form.
func TopicsOf(kind bank.Kind, stage Stage) []Topic {
	var out []Topic
	for _, t := range topics() {
		if t.Of == kind && t.Stage == stage {
			out = append(out, t)
		}
	}
	return out
}

// TopicOf is the topic of a field; "" where its kind has none in its stage.
func TopicOf(kind bank.Kind, f Field) string {
	for _, t := range TopicsOf(kind, f.Stage) {
		for _, has := range t.Fields {
			if has.Spec == f.Spec {
				return t.ID
			}
		}
	}
	return ""
}

func topics() []Topic {
	return []Topic{
		topic(bank.KindSheet, Before, "limits", "limits",
			sheetModel.Field, sheetPage.Field, sheetCapacity.Field, sheetRate.Field, sheetVmax.Field, sheetAbsorb.Field, sheetTail.Field,
			sheetChargeMax.Field, sheetDischarge.Field, sheetTrip.Field, sheetSeries.Field, sheetParallel.Field, sheetColdest.Field, sheetHottest.Field,
			sheetTorqueMin.Field, sheetTorqueMax.Field, sheetTorque.Field),
		topic(bank.KindSheet, Before, "protection", "protection and resistance",
			sheetLowest.Field, sheetCutoff.Field, sheetShort.Field, sheetR.Field, sheetRMethod.Field, sheetFuseMax.Field, sheetPeak.Field, sheetPeakTime.Field,
			sheetOverAmps.Field, sheetOverFrom.Field, sheetOverTo.Field, sheetCutOut.Field),
		topic(bank.KindSheet, Before, "body", "size, mass, energy",
			sheetMass.Field, sheetLength.Field, sheetWidth.Field, sheetHeight.Field, sheetAir.Field, sheetEnergy.Field),
		topic(bank.KindSheet, Before, "heater", "self-heating", sheetHeated.Field, sheetHeaterAmps.Field, sheetRelease.Field),

		topic(bank.KindBank, Before, "plan", "plan",
			designCurrent.Field, cableTerminal.Field, alternator.Field, shedTime.Field, licensedPerson.Field, gloveVoltage.Field),
		topic(bank.KindBank, Before, "meters", "meters in use", useVolts.Field, useMilli.Field, useAmperes.Field, useSmall.Field, useCelsius.Field, useTorque.Field,
			useInsulation.Field, useOhms.Field, useMilliohms.Field, useKilograms.Field, useMetres.Field),
		topic(bank.KindBank, Before, "shelf", "where it stands",
			standsOn.Field, shelfLength.Field, shelfDepth.Field, shelfRating.Field, shelfRow.Field, blockGap.Field),
		topic(bank.KindBank, Before, "lift", "lifting",
			liftHoist.Field, liftReach.Field, liftHeight.Field, liftTravel.Field, liftTwist.Field, liftGrip.Field, liftRate.Field, liftPersons.Field),

		topic(bank.KindBank, Wire, "lugs", "lugs on the posts", lugStacks.Field, lugCount.Field, lugThread.Field, lugPhoto.Field),
		topic(bank.KindBank, Wire, "insulation", "insulation of the cables",
			insulation.Field, insulVolts.Field, insulFree.Field, insulProved.Field, insulTop.Field),
		topic(bank.KindBank, Wire, "frame", "frame and bond",
			bondPlan.Field, strayPlus.Field, strayMinus.Field, strayMeter.Field, bondOhm.Field, bondPlaces.Field),

		topic(bank.KindSwitch, SwitchOn, "precharge", "precharge",
			capacitors.Field, prechargeR.Field, prechargePulse.Field, prechargeBears.Field, prechargeFarad.Field, prechargeTime.Field),
		topic(bank.KindSwitch, SwitchOn, "closing", "after closing", closeVolts.Field, closeAmps.Field, closeTripped.Field),

		topic(bank.KindCapacity, Prove, "delivered", "delivered",
			capTarget.Field, capCharge.Field, capError.Field, capEnergy.Field, capHours.Field, capCurrent.Field, capTemp.Field, capFull.Field,
			capEnd.Field, capWhy.Field),
		topic(bank.KindCapacity, Prove, "recharge", "charged again", backCharge.Field, backHours.Field, backHeater.Field),

		topic(bank.KindBank, Prove, "load", "load test",
			loadAmps.Field, loadTime.Field, loadTripped.Field, stepAmps.Field, stepMethod.Field, shareTotal.Field, clampZeroed.Field),
		topic(bank.KindBank, Prove, "joints", "joints and leads",
			jointCurrent.Field, heatJoint.Field, heatLike.Field, heatAir.Field, heatAmps.Field, heatTime.Field, heatMethod.Field, leadTemp.Field),
		topic(bank.KindBank, Prove, "sensor", "temperature sensor",
			sensorType.Field, sensorReads.Field, sensorOhms.Field, sensorBeside.Field, sensorWay.Field, sensorSoaked.Field),
		topic(bank.KindBank, Prove, "idle", "what it draws at rest",
			ownDrawAmps.Field, ownDrawStated.Field, idleAmps.Field, idleIsolator.Field, idleSource.Field, storeDays.Field, storeLevel.Field),
		topic(bank.KindBank, Prove, "overload", "overload and heat",
			overAmps.Field, overTime.Field, overOpened.Field, overSteady.Field, cutOutAllowed.Field, cutOutAt.Field, coldStartAmps.Field, coldStartTemp.Field),
	}
}
