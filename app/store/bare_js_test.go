package store

import (
	"strings"
	"syscall/js"
	"time"

	"lugmark/core/job"
)

// bare is IndexedDB as a few lines of JavaScript use it: the yardstick for what
// the way through Go, six object stores and comparing adds.
type bare struct{ put js.Value }

const bareOpen = `return new Promise((good, bad) => {
	const asked = indexedDB.open(name, 1);
	asked.onupgradeneeded = () => asked.result.createObjectStore("all");
	asked.onerror = () => bad(asked.error);
	asked.onsuccess = () => good((key, text) => new Promise((good, bad) => {
		const began = performance.now();
		const t = asked.result.transaction("all", "readwrite", {durability: "strict"});
		t.objectStore("all").put(text, key);
		t.onabort = () => bad(t.error);
		t.oncomplete = () => good(performance.now() - began);
	}));
})`

func openBare(name string) (bare, error) {
	put, err := awaitPromise(js.Global().Get("Function").New("name", bareOpen).Invoke(name))
	return bare{put}, err
}

// keep puts as many bytes as the act has in all its records, as one text.
func (b bare) keep(n int, act job.Act) (time.Duration, error) {
	size := 0
	for _, r := range recordsOf(act) {
		text := js.Global().Get("String")
		size += len(text.Invoke(r.key).String()) + len(text.Invoke(r.value).String())
	}
	took, err := awaitPromise(b.put.Invoke(n, strings.Repeat("x", size)))
	if err != nil {
		return 0, err
	}
	return time.Duration(took.Float() * float64(time.Millisecond)), nil
}
