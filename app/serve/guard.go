//go:build !js

package serve

import "net/http"

// Policy is what a page from here may do. Nothing inline runs, nothing is sent
// anywhere but back, no form leaves the page, no other page frames it.
// 'wasm-unsafe-eval' is the browsers' word for compiling WebAssembly; it allows
// no other eval.
const Policy = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; " +
	"img-src 'self' blob:; connect-src 'self'; manifest-src 'self'; worker-src 'self'; " +
	"base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// guarded sets, on every answer and so on errors too, the headers that keep the
// page to itself.
func guarded(next http.Handler, secure bool) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		head := w.Header()
		head.Set("Content-Security-Policy", Policy)
		head.Set("X-Content-Type-Options", "nosniff")
		head.Set("Referrer-Policy", "no-referrer")
		head.Set("Permissions-Policy", "camera=(self), geolocation=(), microphone=(), payment=(), usb=()")
		head.Set("Cross-Origin-Opener-Policy", "same-origin")
		head.Set("Cross-Origin-Resource-Policy", "same-origin")
		if secure {
			head.Set("Strict-Transport-Security", "max-age=31536000") // one year
		}
		next.ServeHTTP(w, r)
	})
}
