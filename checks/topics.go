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
	Fields []*Field
}

// TopicsOf lists the topics into which the entries of a kind of part fall in a
// stage; none where they make one short form.
func TopicsOf(kind bank.Kind, stage Stage) []Topic {
	var out []Topic
	for _, t := range topics {
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

// topics are data of the program; see [catalogue].
var topics = []Topic{
	{"limits", say.Phrase{Key: "topic.limits", English: "limits"}, bank.KindSheet, Before, []*Field{&sheetModel.Field, &sheetPage.Field, &sheetCapacity.Field, &sheetRate.Field, &sheetVmax.Field, &sheetAbsorb.Field, &sheetTail.Field,
		&sheetChargeMax.Field, &sheetDischarge.Field, &sheetTrip.Field, &sheetSeries.Field, &sheetParallel.Field, &sheetColdest.Field, &sheetHottest.Field,
		&sheetTorqueMin.Field, &sheetTorqueMax.Field, &sheetTorque.Field}},
	{"protection", say.Phrase{Key: "topic.protection", English: "protection and resistance"}, bank.KindSheet, Before, []*Field{&sheetLowest.Field, &sheetCutoff.Field, &sheetShort.Field, &sheetR.Field, &sheetRMethod.Field, &sheetFuseMax.Field, &sheetPeak.Field, &sheetPeakTime.Field,
		&sheetOverAmps.Field, &sheetOverFrom.Field, &sheetOverTo.Field, &sheetCutOut.Field}},
	{"body", say.Phrase{Key: "topic.body", English: "size, mass, energy"}, bank.KindSheet, Before, []*Field{&sheetMass.Field, &sheetLength.Field, &sheetWidth.Field, &sheetHeight.Field, &sheetAir.Field, &sheetEnergy.Field}},
	{"heater", say.Phrase{Key: "topic.heater", English: "self-heating"}, bank.KindSheet, Before, []*Field{&sheetHeated.Field, &sheetHeaterAmps.Field, &sheetRelease.Field}},

	{"plan", say.Phrase{Key: "topic.plan", English: "plan"}, bank.KindBank, Before, []*Field{&designCurrent.Field, &cableTerminal.Field, &alternator.Field, &shedTime.Field, &licensedPerson.Field, &gloveVoltage.Field}},
	{"meters", say.Phrase{Key: "topic.meters", English: "meters in use"}, bank.KindBank, Before, []*Field{&useVolts.Field, &useMilli.Field, &useAmperes.Field, &useSmall.Field, &useCelsius.Field, &useTorque.Field,
		&useInsulation.Field, &useOhms.Field, &useMilliohms.Field, &useKilograms.Field, &useMetres.Field}},
	{"shelf", say.Phrase{Key: "topic.shelf", English: "where it stands"}, bank.KindBank, Before, []*Field{&standsOn.Field, &shelfLength.Field, &shelfDepth.Field, &shelfRating.Field, &shelfRow.Field, &blockGap.Field}},
	{"lift", say.Phrase{Key: "topic.lift", English: "lifting"}, bank.KindBank, Before, []*Field{&liftHoist.Field, &liftReach.Field, &liftHeight.Field, &liftTravel.Field, &liftTwist.Field, &liftGrip.Field, &liftRate.Field, &liftPersons.Field}},

	{"lugs", say.Phrase{Key: "topic.lugs", English: "lugs on the posts"}, bank.KindBank, Wire, []*Field{&lugStacks.Field, &lugCount.Field, &lugThread.Field, &lugPhoto.Field}},
	{"insulation", say.Phrase{Key: "topic.insulation", English: "insulation of the cables"}, bank.KindBank, Wire, []*Field{&insulation.Field, &insulVolts.Field, &insulFree.Field, &insulProved.Field, &insulTop.Field}},
	{"frame", say.Phrase{Key: "topic.frame", English: "frame and bond"}, bank.KindBank, Wire, []*Field{&bondPlan.Field, &strayPlus.Field, &strayMinus.Field, &strayMeter.Field, &bondOhm.Field, &bondPlaces.Field}},

	{"precharge", say.Phrase{Key: "topic.precharge", English: "precharge"}, bank.KindSwitch, SwitchOn, []*Field{&capacitors.Field, &prechargeR.Field, &prechargePulse.Field, &prechargeBears.Field, &prechargeFarad.Field, &prechargeTime.Field}},
	{"closing", say.Phrase{Key: "topic.closing", English: "after closing"}, bank.KindSwitch, SwitchOn, []*Field{&closeVolts.Field, &closeAmps.Field, &closeTripped.Field}},

	{"delivered", say.Phrase{Key: "topic.delivered", English: "delivered"}, bank.KindCapacity, Prove, []*Field{&capTarget.Field, &capCharge.Field, &capError.Field, &capEnergy.Field, &capHours.Field, &capCurrent.Field, &capTemp.Field, &capFull.Field,
		&capEnd.Field, &capWhy.Field}},
	{"recharge", say.Phrase{Key: "topic.recharge", English: "charged again"}, bank.KindCapacity, Prove, []*Field{&backCharge.Field, &backHours.Field, &backHeater.Field}},

	{"load", say.Phrase{Key: "topic.load", English: "load test"}, bank.KindBank, Prove, []*Field{&loadAmps.Field, &loadTime.Field, &loadTripped.Field, &stepAmps.Field, &stepMethod.Field, &shareTotal.Field, &clampZeroed.Field}},
	{"joints", say.Phrase{Key: "topic.joints", English: "joints and leads"}, bank.KindBank, Prove, []*Field{&jointCurrent.Field, &heatJoint.Field, &heatLike.Field, &heatAir.Field, &heatAmps.Field, &heatTime.Field, &heatMethod.Field, &leadTemp.Field}},
	{"sensor", say.Phrase{Key: "topic.sensor", English: "temperature sensor"}, bank.KindBank, Prove, []*Field{&sensorType.Field, &sensorReads.Field, &sensorOhms.Field, &sensorBeside.Field, &sensorWay.Field, &sensorSoaked.Field}},
	{"idle", say.Phrase{Key: "topic.idle", English: "what it draws at rest"}, bank.KindBank, Prove, []*Field{&ownDrawAmps.Field, &ownDrawStated.Field, &idleAmps.Field, &idleIsolator.Field, &idleSource.Field, &storeDays.Field, &storeLevel.Field}},
	{"overload", say.Phrase{Key: "topic.overload", English: "overload and heat"}, bank.KindBank, Prove, []*Field{&overAmps.Field, &overTime.Field, &overOpened.Field, &overSteady.Field, &cutOutAllowed.Field, &cutOutAt.Field, &coldStartAmps.Field, &coldStartTemp.Field}},
}
