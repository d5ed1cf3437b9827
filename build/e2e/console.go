package e2e

import (
	"context"
	"fmt"
	"regexp"
	"strings"
	"sync"
	"testing"

	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// console collects what went wrong in one tab.
type console struct {
	mu      sync.Mutex
	faults  []string
	allowed []*regexp.Regexp
}

// listen starts to collect: errors on the console, exceptions, what the browser
// itself reports (a breach of the policy is one), and Go panics, which reach
// the console as plain lines.
func listen(ctx context.Context) *console {
	c := &console{}
	chromedp.ListenTarget(ctx, func(event any) {
		switch e := event.(type) {
		case *runtime.EventConsoleAPICalled:
			var words []string
			for _, arg := range e.Args {
				words = append(words, strings.Trim(string(arg.Value), `"`)+arg.Description)
			}
			line := strings.Join(words, " ")
			panicked := strings.Contains(line, "panic:") || strings.Contains(line, "fatal error:")
			if e.Type == runtime.APITypeError || e.Type == runtime.APITypeAssert || panicked {
				c.add("console: " + line)
			}
		case *runtime.EventExceptionThrown:
			c.add("exception: " + e.ExceptionDetails.Error())
		case *log.EventEntryAdded:
			if e.Entry.Level == log.LevelError {
				c.add(fmt.Sprintf("browser: %s %s", e.Entry.Text, e.Entry.URL))
			}
		}
	})
	return c
}

func (c *console) add(fault string) {
	c.mu.Lock()
	defer c.mu.Unlock()
	for _, pattern := range c.allowed {
		if pattern.MatchString(fault) {
			return
		}
	}
	c.faults = append(c.faults, fault)
}

// complain fails the test for what was collected, once.
func (c *console) complain(t *testing.T) {
	t.Helper()
	c.mu.Lock()
	defer c.mu.Unlock()
	for _, fault := range c.faults {
		t.Error(fault)
	}
	c.faults = nil
}

// Allow lets faults pass that match the pattern, from now on: what a test
// provokes on purpose.
func (p *Phone) Allow(pattern string) {
	p.console.mu.Lock()
	defer p.console.mu.Unlock()
	p.console.allowed = append(p.console.allowed, regexp.MustCompile(pattern))
}

// Faults returns what went wrong so far and forgets it.
func (p *Phone) Faults() []string {
	p.console.mu.Lock()
	defer p.console.mu.Unlock()
	faults := p.console.faults
	p.console.faults = nil
	return faults
}
