package main

import (
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
)

// The rightmost address that is not a proxy's of ours counts, and only where one of
// ours hands the request on (documentation addresses of RFC 5737 and RFC 3849).
func TestWhoseRequestAProxyHandsOn(t *testing.T) {
	proxies, err := readProxies("10.0.0.0/24, 192.0.2.7,2001:db8::/64")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ why, from, header, want string }{
		{"nobody's proxy", "203.0.113.9:4000", "198.51.100.1", "203.0.113.9:4000"},
		{"no header", "10.0.0.8:4000", "", "10.0.0.8:4000"},
		{"one client", "10.0.0.8:4000", "198.51.100.1", "198.51.100.1:0"},
		{"a client that lies", "10.0.0.8:4000", "127.0.0.1, 198.51.100.1", "198.51.100.1:0"},
		{"two proxies", "10.0.0.8:4000", "198.51.100.1, 192.0.2.7", "198.51.100.1:0"},
		{"what is no address", "10.0.0.8:4000", "198.51.100.1, unknown", "10.0.0.8:4000"},
		{"a port behind it", "10.0.0.8:4000", "198.51.100.1:55555", "198.51.100.1:0"},
		{"IPv6 with a port", "10.0.0.8:4000", "[2001:db8:1::9]:55555", "[2001:db8:1::9]:0"},
		{"IPv6", "[2001:db8::5]:4000", "2001:db8:1::9", "[2001:db8:1::9]:0"},
		{"IPv4 in IPv6", "[::ffff:10.0.0.8]:4000", "::ffff:198.51.100.1", "198.51.100.1:0"},
	} {
		got := ""
		r := httptest.NewRequest(http.MethodGet, "/", nil)
		r.RemoteAddr = c.from
		if c.header != "" {
			r.Header.Set("X-Forwarded-For", c.header)
		}
		behind(proxies, http.HandlerFunc(func(_ http.ResponseWriter, r *http.Request) { got = r.RemoteAddr })).ServeHTTP(httptest.NewRecorder(), r)
		if got != c.want {
			t.Errorf("%s: %s, want %s", c.why, got, c.want)
		}
	}
	for _, everybody := range []string{"0.0.0.0/0", "10.0.0.5,::/0"} {
		if _, err := readProxies(everybody); err == nil || !strings.Contains(err.Error(), "everybody") {
			t.Errorf("%s: %v", everybody, err)
		}
	}
	if _, err := readProxies("10.0.0.0/24,proxy"); err == nil || !strings.Contains(err.Error(), `"proxy"`) {
		t.Errorf("%v", err)
	}
}
