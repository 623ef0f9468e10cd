package web

import (
	"net/http"
	"net/url"
	"slices"
	"strings"

	"hotroom/cmd/internal/page"
)

// header holds the header fields that are the same for every answer. There are
// few of them on purpose: each costs every answer a little, and more than eight
// with those of the answer itself cost a larger table.
type header struct {
	nosniff []string
	policy  []string // of data, which loads nothing
	pages   []string // of what people see
	vary    []string
	origins []string
	exposed []string
	all     []string
}

func newHeader(o Options) header {
	frames := "'none'"
	if len(o.Frames) > 0 {
		frames = strings.Join(o.Frames, " ")
	}
	h := header{
		nosniff: []string{"nosniff"},
		policy:  []string{"default-src 'none'; frame-ancestors " + frames},
		pages:   []string{pagePolicy(frames)},
		vary:    []string{"Accept-Encoding"},
		origins: o.Origins,
		exposed: []string{"ETag, Retry-After, X-Request-Id"},
	}
	switch {
	case slices.Contains(o.Origins, "*"):
		h.all = []string{"*"}
	case len(o.Origins) > 0:
		h.vary = []string{"Accept-Encoding, Origin"}
	}
	return h
}

// pagePolicy lets pages load what is their own and nothing else; the style
// sheets inside cards and pictures are named by what they hold.
func pagePolicy(frames string) string {
	return "default-src 'none'; style-src 'self' " + strings.Join(page.Styles(), " ") +
		"; script-src 'self'; img-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors " + frames
}

// policyOf gives what an answer of a media type may load.
func (h *header) policyOf(media string) []string {
	if media == htmlType || media == "image/svg+xml" {
		return h.pages
	}
	return h.policy
}

// dress writes the fields that every answer has. The slices are shared and
// never changed.
func (h *header) dress(v *visit) {
	fields := v.Header()
	fields["X-Content-Type-Options"] = h.nosniff
	fields["Content-Security-Policy"] = h.policy
	fields["Vary"] = h.vary
	if len(h.origins) > 0 {
		h.share(fields, v.request)
	}
}

// share lets the pages of the allowed origins read the answer.
func (h *header) share(fields http.Header, r *http.Request) {
	allowed := h.all
	if origin := r.Header["Origin"]; allowed == nil && len(origin) == 1 && slices.Contains(h.origins, origin[0]) {
		allowed = origin
	}
	if allowed != nil {
		fields["Access-Control-Allow-Origin"] = allowed
		fields["Access-Control-Expose-Headers"] = h.exposed
	}
}

// preflight answers a browser that asks before it sends; browsers take a
// refusal from the fields that are missing.
func (h *header) preflight(v *visit) bool {
	r := v.request
	if r.Method != http.MethodOptions || r.Header.Get("Origin") == "" || r.Header.Get("Access-Control-Request-Method") == "" {
		return false
	}
	fields := v.Header()
	if fields["Access-Control-Allow-Origin"] != nil {
		fields.Set("Access-Control-Allow-Methods", "GET, HEAD, POST")
		fields.Set("Access-Control-Allow-Headers", "Content-Type, If-None-Match, X-Request-Id")
		fields.Set("Access-Control-Max-Age", "600")
	}
	v.WriteHeader(http.StatusNoContent)
	return true
}

// IsOrigin reports whether a text is a web origin (RFC 6454), or "*" for all.
func IsOrigin(given string) bool {
	if given == "*" {
		return true
	}
	u, err := url.Parse(given)
	if err != nil || u.Scheme != "http" && u.Scheme != "https" || u.Host == "" || strings.ContainsAny(given, " ;,'\"\t\r\n") {
		return false
	}
	return given == u.Scheme+"://"+u.Host
}
