package main

import (
	"fmt"
	"net"
	"net/http"
	"net/netip"
	"strings"
)

// readProxies reads addresses and networks with commas between them.
func readProxies(text string) ([]netip.Prefix, error) {
	var all []netip.Prefix
	for _, one := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ' ' }) {
		network, err := netip.ParsePrefix(one)
		if err != nil {
			ip, wrong := netip.ParseAddr(one)
			if wrong != nil {
				return nil, fmt.Errorf("TRUSTED_PROXY has %q: give addresses or networks of your own proxies, such as 10.0.0.5 or 10.0.0.0/24, with commas between them", one)
			}
			network = netip.PrefixFrom(ip, ip.BitLen())
		}
		if network.Bits() == 0 {
			return nil, fmt.Errorf("TRUSTED_PROXY has %q, which is everybody: anybody could then claim any address. Name your own proxies", one)
		}
		all = append(all, network.Masked())
	}
	return all, nil
}

// behind tells whose request it is where a proxy hands it on: guesses are counted
// by the client's address, and without this all clients of a proxy would have one.
// The header is believed from a trusted proxy only, and read from its end, because
// what a client wrote into it stands at its beginning.
func behind(proxies []netip.Prefix, next http.Handler) http.Handler {
	if len(proxies) == 0 {
		return next
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if client, ok := forwardedFor(proxies, r); ok {
			handed := *r
			handed.RemoteAddr = net.JoinHostPort(client.String(), "0")
			r = &handed
		}
		next.ServeHTTP(w, r)
	})
}

// forwardedFor is the last address of X-Forwarded-For that is no trusted proxy's.
func forwardedFor(proxies []netip.Prefix, r *http.Request) (netip.Addr, bool) {
	from, err := netip.ParseAddrPort(r.RemoteAddr)
	if err != nil || !trusted(proxies, from.Addr()) {
		return netip.Addr{}, false
	}
	entries := strings.Split(strings.Join(r.Header.Values("X-Forwarded-For"), ","), ",")
	client, found := netip.Addr{}, false
	for i := len(entries) - 1; i >= 0; i-- {
		ip, ok := entry(entries[i])
		if !ok {
			break
		}
		client, found = ip, true
		if !trusted(proxies, ip) {
			break
		}
	}
	return client, found
}

// entry is one address of the header. Some proxies put the client's port behind it.
func entry(text string) (netip.Addr, bool) {
	text = strings.TrimSpace(text)
	ip, err := netip.ParseAddr(text)
	if err != nil {
		with, err := netip.ParseAddrPort(text)
		if err != nil {
			return ip, false
		}
		ip = with.Addr()
	}
	return ip.Unmap().WithZone(""), true
}

func trusted(proxies []netip.Prefix, ip netip.Addr) bool {
	ip = ip.Unmap()
	for _, p := range proxies {
		if p.Contains(ip) {
			return true
		}
	}
	return false
}
