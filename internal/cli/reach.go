package cli

import (
	"cmp"
	"context"
	"encoding/json"
	"net"
	"net/netip"
	"slices"
	"strconv"

	"matchmark/internal/benchlock"
	"matchmark/internal/store"
)

// place is where the pages are served: the address listened at, and whether by
// the bench lock.
type place struct {
	Addr string `json:"addr"`
	Lock bool   `json:"lock"`
}

// placePaper is where a server notes its place, for commands beside it.
const placePaper = "door/place"

func (p place) note(ctx context.Context, shelf store.Shelf) error {
	data, err := json.Marshal(p)
	if err != nil {
		return err
	}
	return shelf.PutPaper(ctx, placePaper, data)
}

func (p place) listens() netip.AddrPort {
	at, err := netip.ParseAddrPort(p.Addr)
	if err != nil {
		return netip.AddrPort{}
	}
	return netip.AddrPortFrom(at.Addr().Unmap(), at.Port())
}

// beyond tells whether other devices can reach the place at all.
func (p place) beyond() bool {
	at := p.listens()
	return at.IsValid() && !at.Addr().IsLoopback()
}

// here is the address for a browser on this computer, which needs neither a
// code nor the lock.
func (p place) here() string {
	at := p.listens()
	if at.Addr().IsUnspecified() {
		at = netip.AddrPortFrom(netip.MustParseAddr("127.0.0.1"), at.Port())
	}
	if p.Lock && !at.Addr().IsLoopback() {
		return "https://" + at.String() + "/"
	}
	return "http://" + at.String() + "/"
}

// addrs are the addresses that other devices call, the likeliest first. They
// are read anew each time: a computer changes networks.
func (p place) addrs() []netip.Addr {
	at := p.listens()
	switch {
	case !p.beyond():
		return nil
	case !at.Addr().IsUnspecified():
		return []netip.Addr{at.Addr().WithZone("")}
	}
	list := ownAddrs()
	if at.Addr().Is4() {
		list = slices.DeleteFunc(list, netip.Addr.Is6)
	}
	return list
}

// reach are the addresses as a phone types them. With the lock, those that it
// cannot vouch for are none.
func (p place) reach() []string {
	scheme := "http://"
	if p.Lock {
		scheme = "https://"
	}
	var list []string
	for _, a := range p.addrs() {
		if p.Lock && !benchlock.Vouches(a) {
			continue
		}
		list = append(list, scheme+net.JoinHostPort(a.String(), strconv.Itoa(int(p.listens().Port()))))
	}
	return list
}

// ownAddrs are this computer's addresses on its networks: the one it reaches
// the rest of the world by first, then the private ones, IPv4 before IPv6.
func ownAddrs() []netip.Addr {
	all, err := net.InterfaceAddrs()
	if err != nil {
		return nil
	}
	out := outward()
	var list []netip.Addr
	for _, one := range all {
		p, err := netip.ParsePrefix(one.String())
		if err != nil {
			continue
		}
		if a := p.Addr().Unmap(); a.IsGlobalUnicast() {
			list = append(list, a)
		}
	}
	rank := func(a netip.Addr) int {
		switch {
		case a == out:
			return 0
		case a.Is4() && a.IsPrivate():
			return 1
		case a.Is4():
			return 2
		}
		return 3
	}
	slices.SortFunc(list, func(a, b netip.Addr) int { return cmp.Or(cmp.Compare(rank(a), rank(b)), a.Compare(b)) })
	return list
}

// outward is the address by which this computer would speak to a far one. UDP
// sends nothing until something is written.
func outward() netip.Addr {
	conn, err := net.Dial("udp4", "192.0.2.1:9") // an address kept for examples, RFC 5737
	if err != nil {
		return netip.Addr{}
	}
	defer conn.Close()
	at, err := netip.ParseAddrPort(conn.LocalAddr().String())
	if err != nil {
		return netip.Addr{}
	}
	return at.Addr().Unmap()
}
