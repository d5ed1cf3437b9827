package sample_test

// hutUnread are checks for which nobody read anything in the hut, because the
// samples travel with the phone app and may not grow.
var hutUnread = map[string]string{
	"precharge-part":    "the resistor is not entered",
	"first-close":       "the current after closing is not read",
	"cold-lockout":      "not entered for the charger",
	"charge-drop":       "the drop is not read",
	"charge-trend":      "no charge list was written",
	"end-point":         "the test ended above the cut-off of the blocks",
	"return-ratio":      "the recharge was not counted",
	"own-draw":          "not read",
	"idle-after-cutoff": "not read",
	"storage-days":      "not read",
	"load-hold":         "not read",
	"block-r":           "not read",
	"counter-agrees":    "whether a counter is fitted is not entered",
	"joint-heat":        "not read",
	"lead-check":        "not read",
	"sensor-pair":       "which sensor there is is not entered",
}
