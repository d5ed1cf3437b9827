package e2e

import (
	"testing"
)

// deafToTabs makes a page that hears and says nothing to the other tabs: what
// two phones are that have not met.
const deafToTabs = `window.BroadcastChannel = class extends EventTarget { postMessage() {} close() {} };`

// Two tabs on one job are two streams of one record: each sees what the other
// kept, and nothing is lost.
func TestTwoTabsOnOneJob(t *testing.T) {
	browser := Launch(t)
	url := Serve(t).URL
	one := NewWalker(t, browser, url+"/", 0)
	one.newJob()
	job := one.address()
	two := NewWalker(t, browser, job+"/part/b1", 0)

	one.Front()
	one.Go(job + "/read/arrival-voltage/b1")
	one.Reading("Block 1", "Voltage on arrival", "13.21", "V")
	two.Front()
	two.Sees("13.21 V")
	two.visit(two.path() + "/read/arrival-voltage/b2")
	two.Reading("Block 2", "Voltage on arrival", "13.22", "V")
	one.Front()
	one.visit(one.path() + "/part/b2")
	one.Sees("13.22 V")

	// A third has heard nothing of them, and they hear nothing of it.
	three := &Walker{Browser: browser}
	three.Phone = NewTab(t, browser, Before(deafToTabs))
	three.Size(walkWidth, walkHeight)
	three.Go(job + "/read/arrival-voltage/b3")
	three.At("Block 3")
	one.Front()
	one.visit(one.path() + "/read/arrival-voltage/b3")
	one.Reading("Block 3", "Voltage on arrival", "13.23", "V")
	three.Front()
	three.Reading("Block 3", "Voltage on arrival", "13.32", "V")

	two.Front()
	two.Go(job + "/part/b3")
	two.Sees("Two values: Voltage on arrival")
	two.Sees("13.23 V")
	two.Sees("13.32 V")
	two.Shot("conflict")
	two.Axe()
	two.Go(job + "/open")
	two.Sees("Two people entered different values for “Voltage on arrival” of Block 3.")
	two.Sees("Choose the value that is right.")
	two.Go(job + "/part/b3")
	two.Sees("Two values: Voltage on arrival")
	choose := 0
	var first string
	two.Eval(`[...document.querySelectorAll("section.put li")].map(li => li.innerText)[0]`, &first)
	if first[:5] != "13.23" {
		choose = 1
	}
	two.TapNth("This one is right", choose)
	two.Sees("Chosen. The other value stays in the record.")
	two.SeesNot("Two values")
	two.Sees("13.23 V")
	one.Front()
	one.visit(one.path() + "/part/b3")
	one.SeesNot("Two values")
	one.Sees("13.23 V")

	// All of it is there for whoever opens it next.
	for part, value := range map[string]string{"b1": "13.21 V", "b2": "13.22 V", "b3": "13.23 V"} {
		two.Front()
		two.Go(job + "/part/" + part)
		two.Sees(value)
		two.SeesNot("Two values")
	}
}
