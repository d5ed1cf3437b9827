// Package e2e drives the built program in Chromium as a person would: the real
// binary on a real port, the phone app in a phone-sized tab, taps by the name
// that a screen reader would say. It is a black box: it imports nothing of app.
//
// A test opens a phone and acts on it; every step waits for what it needs, and
// fails the test with what was on the screen when that does not come:
//
//	server := e2e.Serve(t)
//	phone := e2e.Open(t, server.URL+"/")
//	phone.Tap("New job")
//	phone.Type("Site", "Invented jetty")
//	phone.Sees("Kept")
//	phone.Shot("new-job")
//
// One browser serves the tests of a package, each in a tab of its own; a test
// that kills its browser starts one with Launch. Each server has its own port,
// so its own origin, so empty storage. Any error on the console, any Go panic
// and any breach of the page's policy fails the test that saw it.
package e2e

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"time"

	"github.com/chromedp/chromedp"
)

// Browser is one running Chromium.
type Browser struct {
	Profile string // folder of its storage
	ctx     context.Context
	stop    context.CancelFunc
	end     sync.Once
}

// FindChromium returns the path of Chromium, or says how to get it.
func FindChromium() (string, error) {
	names := []string{"chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome"}
	if named := os.Getenv("CHROMIUM"); named != "" {
		names = []string{named}
	}
	for _, name := range names {
		if path, err := exec.LookPath(name); err == nil {
			return path, nil
		}
	}
	return "", errors.New("the browser tests need Chromium: go run ./build/need chromium installs it, or CHROMIUM names it")
}

// LaunchAt starts Chromium on a profile, which is made when it is not there.
func LaunchAt(profile string) (*Browser, error) {
	path, err := FindChromium()
	if err != nil {
		return nil, err
	}
	for _, left := range []string{"SingletonLock", "SingletonSocket", "SingletonCookie"} {
		os.Remove(filepath.Join(profile, left)) // of a browser that was killed
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(path),
		chromedp.UserDataDir(profile),
		chromedp.Flag("headless", "new"),
		chromedp.DisableGPU,
		chromedp.WindowSize(phoneWidth, phoneHeight),
		chromedp.Flag("disable-quic", true),
		chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-domain-reliability", true),
		chromedp.Flag("password-store", "basic"),
		chromedp.WSURLReadTimeout(60*time.Second),
	)
	if os.Geteuid() == 0 {
		options = append(options, chromedp.NoSandbox) // Chromium refuses its sandbox to root
	}
	allocator, stopAllocator := chromedp.NewExecAllocator(context.Background(), options...)
	ctx, stopBrowser := chromedp.NewContext(allocator)
	b := &Browser{Profile: profile, ctx: ctx, stop: func() { stopBrowser(); stopAllocator() }}
	if err := chromedp.Run(ctx); err != nil {
		b.stop()
		return nil, fmt.Errorf("start Chromium: %w", err)
	}
	return b, nil
}

// Close ends the browser and lets it write its profile. Twice is no harm.
func (b *Browser) Close() {
	b.end.Do(func() {
		chromedp.Cancel(b.ctx)
		b.stop()
	})
}

// Kill ends the browser at once, as a phone does that runs out of power, and
// waits until it is gone.
func (b *Browser) Kill() {
	b.end.Do(func() {
		chromedp.FromContext(b.ctx).Browser.Process().Kill()
		b.stop() // waits for the process and for chromedp's own goroutines
	})
}
