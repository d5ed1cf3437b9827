package e2e

import (
	"fmt"
	"testing"
	"time"
)

// deadServer is what a browser says of an address where nothing answers.
const deadServer = "ERR_CONNECTION_REFUSED|ERR_EMPTY_RESPONSE|ERR_CONNECTION_RESET|ERR_FAILED|ERR_CONTENT_LENGTH_MISMATCH|Failed to (load|fetch)|unknown error occurred when fetching the script"

// The server is killed, not the network faked: a faked one does not reach the
// worker.
func TestEverythingOpensWithTheServerDead(t *testing.T) {
	server := Serve(t)
	browser := Launch(t)
	phone := OpenIn(t, browser, server.URL+"/")
	phone.offlineReady()
	server.Kill()

	phone.Allow(deadServer)
	phone.Reload()
	for _, path := range []string{"/", "/job/123", "/job/5?x=1", "/?from=a-link", "/a/b/c/d"} {
		phone.Go(server.URL + path)
		phone.Reload()
		var at string
		phone.Eval(`location.pathname + location.search`, &at)
		if at != path {
			t.Errorf("opened %s, came to %s", path, at)
		}
	}
	phone.Back()
	phone.Ready()

	// The same after the phone was switched off and on.
	browser.Close()
	phone = NewTab(t, Relaunch(t, browser))
	phone.Allow(deadServer)
	phone.Go(server.URL + "/job/123")
	phone.offlineReady()
}

func TestAddressesOfTheOfficeAreNeverAnsweredFromTheCache(t *testing.T) {
	server := Serve(t)
	phone := Open(t, server.URL+"/")
	phone.offlineReady()
	server.Kill()
	phone.Allow(deadServer)
	for _, path := range []string{"/v1/jobs", "/alive", "/ready", "/openapi.json"} {
		var answered bool
		phone.Eval(fmt.Sprintf(`fetch(%q).then(() => true, () => false)`, path), &answered)
		if answered {
			t.Errorf("%s was answered with the server dead", path)
		}
	}
}

// version returns the version that the page was started from, and the number of
// files in each cache of ours.
func (p *Phone) version() string {
	p.T.Helper()
	var v string
	p.Eval(`lugmarkShell.version`, &v)
	return v
}

func (p *Phone) caches() map[string]int {
	p.T.Helper()
	found := map[string]int{}
	p.Eval(`(async () => {
		const all = {};
		for (const name of await caches.keys()) all[name] = (await (await caches.open(name)).keys()).length;
		return all;
	})()`, &found)
	return found
}

// nextRelease serves the app as another release.
func nextRelease(t *testing.T) *Server {
	t.Helper()
	dir, err := BuildShell("shell-next", "0.1-next")
	if err != nil {
		t.Fatal(err)
	}
	return Serve(t, "--shell", dir)
}

// An update that is cut half way must leave the old version whole: after it,
// without signal, after a restart. When the line is mended the update comes,
// waits, and starts only when it is asked.
func TestCutUpdateLeavesTheOldVersionAndAGoodOneWaits(t *testing.T) {
	now, next := Serve(t), nextRelease(t)
	front := NewFront(t, now)
	browser := Launch(t)
	phone := OpenIn(t, browser, front.URL+"/")
	phone.Allow(deadServer)
	phone.offlineReady()
	old := phone.version()
	files := phone.caches()["lugmark-"+old]
	phone.Eval(`caches.open("evidence").then(c => c.put("/x", new Response("of somebody else")))`, nil)

	front.Cut("/app.wasm")
	front.Lead(t, next)
	phone.Eval(`lugmarkShell.update()`, nil)
	phone.Until("the cut update was given up", `navigator.serviceWorker.getRegistration().then(r => !r.installing)`)
	phone.holds(old, files)
	phone.Reload()
	phone.holds(old, files)

	// The phone goes out of reach and is restarted.
	front.Lead(t, nil)
	browser.Close()
	browser = Relaunch(t, browser)
	phone = NewTab(t, browser)
	phone.Allow(deadServer)
	phone.Go(front.URL + "/job/7")
	phone.Reload()
	phone.offlineReady()
	phone.holds(old, files)

	// Signal again, and a whole update. It waits.
	front.Cut("")
	front.Lead(t, next)
	phone.Eval(`lugmarkShell.update()`, nil)
	phone.Until("the new version waits", `lugmarkShell.waiting`)
	phone.Reload()
	phone.Until("it is still seen to wait after a reload", `lugmarkShell.waiting`)
	if v := phone.version(); v != old {
		t.Errorf("after a reload the version is %s, want the old %s", v, old)
	}

	// Asked in one tab, it starts there; the other tab is not reloaded.
	other := OpenIn(t, browser, front.URL+"/")
	other.Allow(deadServer)
	other.Eval(`window.notReloaded = true`, nil)
	phone.Front()
	phone.Eval(`window.notReloaded = true; lugmarkShell.activate()`, nil)
	phone.Until("the tab that asked was reloaded", `!window.notReloaded && window.lugmarkReady === true`)
	new := phone.version()
	if new == old {
		t.Fatal("the new version did not start")
	}
	var kept bool
	other.Eval(`window.notReloaded === true`, &kept)
	if !kept {
		t.Error("the tab that did not ask was reloaded")
	}
	if all := phone.caches(); all["lugmark-"+new] != files || all["lugmark-"+old] != 0 || all["evidence"] != 1 {
		t.Errorf("after the update the caches are %v", all)
	}
	front.Lead(t, nil)
	phone.Reload()
	if v := phone.version(); v != new {
		t.Errorf("without signal the version is %s, want the new %s", v, new)
	}
}

// holds checks that the old version runs, whole, alone, beside a foreign cache.
func (p *Phone) holds(version string, files int) {
	p.T.Helper()
	if v := p.version(); v != version {
		p.T.Errorf("the version is %s, want %s", v, version)
	}
	all := p.caches()
	if all["lugmark-"+version] != files || all["evidence"] != 1 || len(all) != 2 {
		p.T.Errorf("the caches are %v, want %d files of %s and the foreign one", all, files, version)
	}
}

// A version that waits starts at the next cold start, without being asked.
func TestWaitingVersionStartsAtTheNextColdStart(t *testing.T) {
	now, next := Serve(t), nextRelease(t)
	front := NewFront(t, now)
	browser := Launch(t)
	phone := OpenIn(t, browser, front.URL+"/")
	phone.Allow(deadServer)
	phone.offlineReady()
	old := phone.version()
	front.Lead(t, next)
	phone.Eval(`lugmarkShell.update()`, nil)
	phone.Until("the new version waits", `lugmarkShell.waiting`)
	front.Lead(t, nil)
	time.Sleep(500 * time.Millisecond) // the browser writes its registrations a moment later
	browser.Close()

	browser = Relaunch(t, browser)
	phone = NewTab(t, browser)
	phone.Allow(deadServer)
	phone.Go(front.URL + "/")
	if phone.version() == old {
		// Some browsers serve the first page of a cold start from the old version
		// and change over right after it; then the next start has the new one.
		phone.Until("it no longer waits", `!lugmarkShell.waiting`)
		phone.Reload()
	}
	if phone.version() == old {
		t.Error("the waiting version did not start")
	}
	phone.offlineReady()
}
