package e2e

import (
	"context"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/storage"
	"github.com/chromedp/chromedp"
)

func TestStoreInTheBrowser(t *testing.T) {
	url := TestBinary(t, "./app/store")
	phone := NewTab(t, shared)
	phone.Allow("Go program has already exited") // it ends by itself, with timers left
	phone.Results(url)
}

// The browser is killed at a random moment, again and again, while acts are
// being kept. Every act that was shown as kept is there afterwards, whole, and
// no act is there in part. It cannot show what a loss of power does: the
// system's own memory of the file survives the browser.
//
// A browser that is killed in the middle of a write leaves a torn end in its
// log; some go on behind it and, one start later, find it and throw the whole
// store away. Then it comes back from the mirror. KILLS asks for more rounds.
func TestEverythingShownAsKeptSurvivesAKilledBrowser(t *testing.T) {
	rounds := 20
	if more, err := strconv.Atoi(os.Getenv("KILLS")); err == nil {
		rounds = more
	}
	url := TestBinary(t, "./app/store")
	browser := Launch(t)
	shown, heals := 0, 0
	for round := range rounds {
		phone := NewTab(t, browser)
		phone.Load(url + "?env=STORE_DRIVE=keep")
		phone.Until("something was kept", `window.driven && driven.kept`)
		begin := shown
		until := time.Now().Add(time.Duration(rand.IntN(400)) * time.Millisecond)
		for time.Now().Before(until) {
			d, err := phone.driven()
			if err != nil || d.Error != "" {
				t.Fatalf("round %d: %v %s", round, err, d.Error)
			}
			shown = max(shown, d.Kept)
		}
		heals += min(1, healed(phone))
		browser.Kill()

		browser = Relaunch(t, browser)
		found, n := foundAfter(t, browser, url)
		heals += min(1, n)
		if found.Found < shown || found.Lost {
			t.Fatalf("round %d: %d acts were shown as kept, found %+v", round, shown, found)
		}
		t.Logf("round %d: kept %d to %d, found %d, healed %d events", round, begin, shown, found.Found, n)
	}
	t.Logf("%d rounds, %d times the store came back from the mirror", rounds, heals)
}

// foundAfter counts what is there in a browser that was started again, and how
// many events of it came back from the mirror.
func foundAfter(t *testing.T, b *Browser, url string) (d driven, back int) {
	t.Helper()
	phone := NewTab(t, b)
	phone.Allow("Go program has already exited") // it ends by itself, with timers left
	phone.Load(url + "?env=STORE_DRIVE=count")
	phone.Until("the acts were counted", `window.driven && (driven.done || driven.error)`)
	d, err := phone.driven()
	if err != nil || d.Error != "" {
		t.Fatalf("count: %v %s", err, d.Error)
	}
	return d, healed(phone)
}

func healed(p *Phone) (events int) {
	p.T.Helper()
	p.Eval(`driven.healed || 0`, &events)
	return events
}

func TestFullStoreSaysSoAndKeepsWhatItHad(t *testing.T) {
	url := TestBinary(t, "./app/store")
	phone := NewTab(t, shared)
	phone.Allow("Go program has already exited")
	// The limit holds for the page that is open, so that one must begin after it.
	phone.Load(url + "?hold&env=STORE_DRIVE=fill")
	phone.Until("the page is there", `window.begin`)
	phone.Do(chromedp.ActionFunc(func(ctx context.Context) error {
		return storage.OverrideQuotaForOrigin(strings.TrimRight(url, "/")).WithQuotaSize(20e6).Do(ctx)
	}))
	phone.Eval(`begin()`, nil)
	phone.Until("the store is full", `window.driven && (driven.done || driven.error)`)
	d, err := phone.driven()
	// Twelve photos of a megabyte, and the mirror's of each, are more than fits:
	// the mirror has made room.
	if err != nil || d.Error != "" || d.Kept < 12 {
		t.Errorf("%+v, %v", d, err)
	}
}
