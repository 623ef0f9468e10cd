package web

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"testing"
)

// BenchmarkServe answers without a network: at hand, and worked out anew.
func BenchmarkServe(b *testing.B) {
	s := server(b, Options{})
	for name, target := range map[string]func(n int) string{
		"at hand": func(int) string { return "/v1/advice?board=quarry&chip=v10&room=32" },
		"a yes": func(n int) string {
			return fmt.Sprintf("/v1/advice?board=gneiss&chip=v10&room=%.6f", 22+float64(n%1e6)/1e6)
		},
		"a no": func(n int) string {
			return fmt.Sprintf("/v1/advice?board=flint&chip=v10&room=%.6f", 22+float64(n%1e6)/1e6)
		},
		"ranking": func(n int) string { return fmt.Sprintf("/v1/ranking?chip=v10&room=%.6f", 22+float64(n%1e6)/1e6) },
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for n := 0; b.Loop(); n++ {
				w := httptest.NewRecorder()
				s.ServeHTTP(w, httptest.NewRequest(http.MethodGet, target(n), http.NoBody))
				if w.Code != http.StatusOK {
					b.Fatal(w.Code, w.Body)
				}
			}
		})
	}
}
