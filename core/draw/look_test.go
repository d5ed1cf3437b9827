package draw

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"lugmark/core/bank"
	"lugmark/core/say"
)

// Every kind of drawing is well-formed and within the content policy. Pages of
// them are written to the folder named by LUGMARK_LOOK, one
// for each theme, to be opened in a browser and looked at.
func TestLook(t *testing.T) {
	folder := os.Getenv("LUGMARK_LOOK")
	if folder == "" {
		folder = t.TempDir()
	}
	files, err := filepath.Glob("../../web/css/*.css")
	if err != nil || len(files) == 0 {
		t.Fatal("no style sheets: ", err)
	}
	css := []string{"tokens"}
	for _, f := range files {
		if name := strings.TrimSuffix(filepath.Base(f), ".css"); name != "tokens" {
			css = append(css, name)
		}
	}
	var style strings.Builder
	for _, name := range css {
		text, err := os.ReadFile("../../web/css/" + name + ".css")
		if err != nil {
			t.Fatal(err)
		}
		style.Write(text)
	}
	style.WriteString(".look{display:flex;flex-wrap:wrap;gap:24px;padding:12px;align-items:flex-start}.look figure{inline-size:336px}.look .own svg{inline-size:auto}.look .hit{outline:1px dotted #c0c}")
	for page, body := range lookPages(t) {
		for _, theme := range []string{"light", "dark", "sun"} {
			html := fmt.Sprintf(`<!doctype html><html lang="en" data-theme="%s" data-density="hand"><meta charset="utf-8"><title>%s</title><style>%s</style><body><div class="look">%s</div>`,
				theme, page, style.String(), body)
			if err := os.WriteFile(filepath.Join(folder, page+"-"+theme+".html"), []byte(html), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}

func figure(title string, p Picture, hits bool) string {
	class := "own"
	if p.Width == sheetWidth {
		class = "fig"
	}
	var b strings.Builder
	fmt.Fprintf(&b, `<figure class="%s"><figcaption>%s</figcaption><p class="note">%s</p><div class="bank">%s`, class, escape(title), escape(say.Screen.Say(p.Note)), p.SVG)
	if hits {
		for _, h := range p.Hits {
			fmt.Fprintf(&b, `<i class="hit" style="--x:%.2f%%;--y:%.2f%%;--wd:%.2f%%;--ht:%.2f%%"></i>`, h.X, h.Y, h.W, h.H)
		}
	}
	b.WriteString("</div></figure>")
	return b.String()
}

// sample gives every state to some part of a layout.
func sample(l bank.Layout) Bank {
	b := Bank{Layout: l, States: map[string]State{}, Readings: map[string]string{}, Closed: map[string]bool{},
		Volts: 13.3, MainFuse: "200 A", Devices: []string{"charger1", "inverter1"}, Voice: say.Screen}
	for i, id := range l.Place {
		b.States[id] = Pass
		b.Readings[id] = fmt.Sprintf("13.%03d", 279+i%5)
		switch {
		case i == 2 && len(l.Place) > 2:
			b.States[id] = CantTell
		case i%7 == 5:
			b.States[id] = Fail
			b.Readings[id] = "12.981"
		case i == 3:
			b.States[id] = ToDo
			delete(b.Readings, id)
		case i == 8:
			b.States[id] = Later
		case i == 9:
			b.States[id] = NotNeeded
		}
	}
	for i, k := range l.Links() {
		b.States[k.ID] = []State{Fail, Later, Pass, ToDo, CantTell, Pass, NotNeeded}[i%7]
		b.Closed[k.ID] = i%3 != 0
	}
	return b
}

func lookPages(t *testing.T) map[string]string {
	figure := func(title string, p Picture, hits bool) string {
		wellFormed(t, p)
		return figure(title, p, hits)
	}
	s, g := bank.JoinStrings, bank.JoinGroups
	var small, more, large, rest strings.Builder
	for _, to := range []bank.Takeoff{bank.OneEnd, bank.Diagonal, bank.EqualLeads} {
		for _, join := range []bank.Join{s, g} {
			l := bank.New(2, 2, join, to)
			small.WriteString(figure("2S2P "+string(join)+", "+string(to), sample(l).Draw(), join == s))
		}
	}
	small.WriteString(figure("2S2P chosen B, A", sample(bank.New(2, 2, s, bank.TakeoffAt("B", "A"))).Draw(), false))
	small.WriteString(figure("1S1P", sample(bank.New(1, 1, s, bank.OneEnd)).Draw(), true))
	small.WriteString(figure("1S4P", sample(bank.New(1, 4, s, bank.OneEnd)).Draw(), true))
	small.WriteString(figure("1S3P bars", sample(bank.New(1, 3, s, bank.EqualLeads)).Draw(), true))
	small.WriteString(figure("4S1P", sample(bank.New(4, 1, s, bank.OneEnd)).Draw(), true))
	for _, to := range []bank.Takeoff{bank.OneEnd, bank.Diagonal, bank.EqualLeads} {
		for _, join := range []bank.Join{s, g} {
			l := bank.New(4, 4, join, to)
			more.WriteString(figure("4S4P "+string(join)+", "+string(to), sample(l).Draw(), to == bank.OneEnd))
		}
	}
	for _, join := range []bank.Join{s, g} {
		for _, to := range []bank.Takeoff{bank.OneEnd, bank.EqualLeads} {
			l := bank.New(4, 8, join, to)
			b := sample(l)
			b.Open = "b12"
			more.WriteString(figure("4S8P, b12, "+string(join), b.Draw(), true))
		}
		l := bank.New(16, 16, join, bank.Diagonal)
		b := sample(l)
		b.Open = "b37"
		large.WriteString(figure("16S16P "+string(join), Grid(l, b.States), false))
		large.WriteString(figure("16S16P, b37", b.Draw(), false))
		large.WriteString(figure("miniature", Miniature(l, b.States), false))
	}
	for _, l := range []bank.Layout{bank.New(2, 2, s, bank.OneEnd), bank.New(4, 4, s, bank.OneEnd), bank.New(4, 1, s, bank.OneEnd),
		bank.New(1, 1, s, bank.OneEnd), bank.New(1, 8, s, bank.OneEnd), bank.New(2, 3, g, bank.OneEnd), bank.New(16, 1, s, bank.OneEnd)} {
		b := sample(l)
		rest.WriteString(figure("miniature "+l.Title(), Miniature(l, b.States), false))
		rest.WriteString(figure("locator", Locator(l, l.Place[len(l.Place)/2]), false))
		for _, to := range []bank.Takeoff{bank.OneEnd, bank.Diagonal, bank.EqualLeads} {
			l.Takeoff = to
			rest.WriteString(figure("plan "+l.Title()+" "+string(to), Plan(l), false))
		}
	}
	rest.WriteString(figure("locator", Locator(bank.New(16, 16, s, bank.OneEnd), "b37"), false))
	var plates strings.Builder
	plates.WriteString(figure("span", Span{Low: 2, High: 18, Max: at(10), MaxText: "10", Unit: "mV", State: CantTell, Voice: say.Screen}.Draw(), false))
	plates.WriteString(figure("span, pass", Span{Low: 2.2, High: 6.9, Max: at(10), MaxText: "10", Unit: "mV", State: Pass, Voice: say.Screen}.Draw(), false))
	plates.WriteString(figure("span, fail", Span{Low: 382, High: 390, Max: at(10), MaxText: "10", Unit: "mV", State: Fail, Voice: say.Screen}.Draw(), false))
	plates.WriteString(figure("span, lower", Span{Low: 0.93, High: 1.2, Min: at(1), MinText: "1", Unit: "MOhm", State: CantTell, Voice: say.Screen}.Draw(), false))
	plates.WriteString(figure("span, window", Span{Low: 8.5, High: 9.5, Min: at(9), Max: at(11), MinText: "9", MaxText: "11", Unit: "N.m", State: CantTell, Voice: say.Screen}.Draw(), false))
	plates.WriteString(figure("span, volts", Span{Low: 28.31, High: 28.49, Min: at(28), Max: at(28.8), MinText: "28.0", MaxText: "28.8", Unit: "V", State: Pass, Voice: say.Screen}.Draw(), false))
	plates.WriteString(figure("volts", VoltsPlate(say.Screen, "b3", "13.28"), false))
	plates.WriteString(figure("gap", GapPlate(say.Screen, "b1", "b3"), false))
	plates.WriteString(figure("torque", TorquePlate(say.Screen, "b3.p", "9 N·m"), false))
	plates.WriteString(figure("drop", DropPlate(say.Screen), false))
	plates.WriteString(figure("steps", StepsPlate(say.Screen), false))
	plates.WriteString(figure("switch", SwitchPlate(say.Screen), false))
	plates.WriteString(figure("keep open", KeepOpenPlate(say.Screen, say.Line{}), false))
	plates.WriteString(figure("stack", StackPlate([]Layer{{Bolt, "Bolt, 10 N·m", ""}, {SpringWasher, "Spring washer", ""}, {FlatWasher, "Flat washer", ""},
		{ThinLug, "Thinner lug", "35 mm²"}, {ThickLug, "Thicker lug", "70 mm², lowest"}, {Pad, "Pad", "clean and bare"}}), false))
	for _, st := range States {
		plates.WriteString(`<p class="st ` + string(st) + `">` + Mark(st) + string(st) + `</p>` + LineSample(st))
	}
	plates.WriteString(IconBack + IconMenu + IconDelete + IconCamera + IconShut + BoltClosed + BoltOpen)
	return map[string]string{"plates": plates.String(), "small": small.String(), "more": more.String(), "large": large.String(), "rest": rest.String()}
}

func at(x float64) *float64 { return &x }
