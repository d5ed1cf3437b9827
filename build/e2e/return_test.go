package e2e

import "testing"

// Six months later the same job is opened again. What is measured now stands
// beside what the first visit left, and touches nothing of it.
func TestReturnVisit(t *testing.T) {
	browser := Launch(t)
	w := &Walker{Browser: browser}
	w.Phone = NewTab(t, browser)
	w.Size(walkWidth, walkHeight)
	w.Go(Serve(t).URL + "/")
	w.Tap("Sample jobs")
	w.Sees("The sample jobs are here")
	at := w.jobs()["Invented hut"]
	w.visit(at)
	w.SeesNot("Return visit")
	first := w.counted()
	w.visit(at + "/handover")
	w.SeesNot("Begin: return visit 1")
	for _, s := range []struct{ role, name string }{{"technician", "Ines Varga"}, {"owner", "Jory Tam"}} {
		w.Type("Type the full name to sign: "+s.role, s.name)
		w.On("Sign")
		w.Sees("Signed by " + s.name)
	}
	w.On("Seal the sheet")
	w.Sees("Sealed, revision 1.")
	w.On("Begin: return visit 1")
	w.Sees("Return visit 1: nothing is kept in it yet.")
	w.Until("links are shown as the first visit left them", `document.querySelector(".bolts li b").innerText === "3"`)
	w.Axe()
	w.Shot("return-begun")
	w.Reload() // a phone that was locked meanwhile comes back to the visit that was begun
	w.Sees("Return visit 1: nothing is kept in it yet.")
	w.On("Start")
	w.Sees("The bank is on and stays joined")
	w.visit(at + "/steps")
	w.SeesNot("Switch on")
	w.visit(at + "/stage/return")
	w.Sees("The bank is on and stays joined")
	w.On("I have read this: Ines Varga")
	w.Sees("Cautions read: Ines Varga")
	w.visit(at + "/read/rest-voltage/b1")
	for i, digits := range []string{"13.352", "13.351", "13.349", "13.353"} {
		w.Reading(blocks[i], "Resting voltage at the posts", digits, "V")
	}

	w.KillTab(t)
	w.Ready()
	w.visit(at)
	w.Sees("Return visit 1, ")
	w.SeesNot("nothing is kept in it yet")
	w.visit(at + "/part/b1")
	w.Sees("13.352 V")
	w.visit(at)
	w.On("Look at: commissioning")
	w.Sees("Commissioning, ")
	w.visit(at + "/read/rest-voltage/b1")
	w.Type("Resting voltage at the posts", "13.111")
	w.On("Keep, next")
	w.Sees("It was not kept: this is commissioning, and it is over.")
	w.visit(at)
	if got := w.counted(); got != first {
		t.Errorf("commissioning counts %s, before the return visit %s", got, first)
	}
	w.visit(at + "/part/b1")
	w.Sees("13.402 V")
	w.SeesNot("13.352 V")
	w.visit(at + "/handover")
	w.Sees("Sealed, revision 1.")
}
