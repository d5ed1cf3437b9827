package e2e

import (
	"context"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/storage"
	"github.com/chromedp/chromedp"
)

func TestStoreInTheBrowser(t *testing.T) {
	url := TestBinary(t, "./app/store")
	NewTab(t, shared).Results(url)
}

// The browser is killed at a random moment, again and again, while acts are
// being kept. Every act that was shown as kept is there afterwards, whole, and
// no act is there in part. It cannot show what a loss of power does: the
// system's own memory of the file survives the browser.
func TestEverythingShownAsKeptSurvivesAKilledBrowser(t *testing.T) {
	const rounds = 20
	url := TestBinary(t, "./app/store")
	browser := Launch(t)
	shown := 0
	for round := range rounds {
		phone := NewTab(t, browser)
		phone.Load(url + "?env=STORE_DRIVE=keep")
		begin := shown
		phone.Until("something was kept", `window.driven && driven.kept`)
		until := time.Now().Add(time.Duration(rand.IntN(300)) * time.Millisecond)
		for time.Now().Before(until) {
			d, err := phone.driven()
			if err != nil || d.Error != "" {
				t.Fatalf("round %d: %v %s", round, err, d.Error)
			}
			shown = max(shown, d.Kept)
		}
		browser.Kill()

		browser = Relaunch(t, browser)
		phone = NewTab(t, browser)
		phone.Allow("Go program has already exited") // it ends by itself, with timers left
		phone.Load(url + "?env=STORE_DRIVE=count")
		phone.Until("the acts were counted", `window.driven && (driven.done || driven.error)`)
		d, err := phone.driven()
		if err != nil || d.Error != "" {
			t.Fatalf("round %d: %v %s", round, err, d.Error)
		}
		if d.Found < shown {
			t.Fatalf("round %d: %d acts were shown as kept, %d are there", round, shown, d.Found)
		}
		t.Logf("round %d: kept %d to %d, found %d", round, begin, shown, d.Found)
	}
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
	if err != nil || d.Error != "" || d.Kept < 2 {
		t.Errorf("%+v, %v", d, err)
	}
}
