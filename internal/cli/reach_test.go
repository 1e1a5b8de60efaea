package cli

import (
	"image"
	"image/color"
	"net/netip"
	"slices"
	"strings"
	"testing"

	"matchmark/internal/benchlock"
	"matchmark/internal/door"
	"matchmark/internal/trial"
)

func TestPlaces(t *testing.T) {
	for _, row := range []struct {
		place
		here   string
		beyond bool
		reach  string
	}{
		{place{"127.0.0.1:7462", false}, "http://127.0.0.1:7462/", false, ""},
		{place{"127.0.0.1:7462", true}, "http://127.0.0.1:7462/", false, ""},
		{place{"[::1]:7462", false}, "http://[::1]:7462/", false, ""},
		{place{"192.168.1.5:80", false}, "http://192.168.1.5:80/", true, "http://192.168.1.5:80"},
		{place{"192.168.1.5:80", true}, "https://192.168.1.5:80/", true, "https://192.168.1.5:80"},
		{place{"203.0.113.9:80", true}, "https://203.0.113.9:80/", true, ""},
		{place{"[fd00::5]:80", false}, "http://[fd00::5]:80/", true, "http://[fd00::5]:80"},
	} {
		if row.place.here() != row.here || row.beyond != row.place.beyond() || strings.Join(row.place.reach(), " ") != row.reach {
			t.Errorf("%+v: here %s, beyond %v, reach %v", row.place, row.place.here(), row.place.beyond(), row.place.reach())
		}
	}
}

// TestWholeNetwork: the address for all networks reaches each of this
// computer's, IPv4 alone where it was asked for alone, and no loopback one.
func TestWholeNetwork(t *testing.T) {
	own := ownAddrs()
	if slices.ContainsFunc(own, netip.Addr.IsLoopback) || slices.ContainsFunc(own, netip.Addr.IsLinkLocalUnicast) {
		t.Errorf("not for phones: %v", own)
	}
	if out := outward(); out.IsValid() && slices.Contains(own, out) && own[0] != out {
		t.Errorf("the likeliest address is %v, %v stands first", out, own[0])
	}
	both, four := place{"[::]:7462", false}, place{"0.0.0.0:7462", false}
	if both.here() != "http://127.0.0.1:7462/" || four.here() != "http://127.0.0.1:7462/" || !both.beyond() || !four.beyond() {
		t.Errorf("here %s and %s", both.here(), four.here())
	}
	if len(both.addrs()) != len(own) || slices.ContainsFunc(four.addrs(), netip.Addr.Is6) {
		t.Errorf("both %v, four %v of %v", both.addrs(), four.addrs(), own)
	}
	locked := place{"0.0.0.0:7462", true}
	for _, at := range locked.reach() {
		a := netip.MustParseAddrPort(strings.TrimPrefix(at, "https://"))
		if !benchlock.Vouches(a.Addr()) {
			t.Errorf("%s is offered by the lock, which cannot vouch for it", at)
		}
	}
}

// TestHalfBlocksAreRead: what the terminal shows, as a picture, is read by a
// reader of codes that is not ours.
func TestHalfBlocksAreRead(t *testing.T) {
	address := "http://192.168.1.5:7462/pair#AbCdEfGhIjKlMnOpQrStUv"
	pic, err := door.Picture(address)
	if err != nil {
		t.Fatal(err)
	}
	const scale = 6
	lines := strings.Split(strings.TrimSuffix(halfBlocks(pic, false), "\n"), "\n")
	img := image.NewGray(image.Rect(0, 0, len(pic)*scale, 2*len(lines)*scale))
	for row, line := range lines {
		for x, r := range []rune(line) {
			for half, light := range []bool{r == '█' || r == '▀', r == '█' || r == '▄'} {
				for i := range scale * scale {
					if light {
						img.SetGray(x*scale+i%scale, (2*row+half)*scale+i/scale, color.Gray{Y: 255})
					}
				}
			}
		}
	}
	if got := trial.ReadCode(t, img); got != address {
		t.Errorf("read %q, want %q", got, address)
	}
	plain, coloured := halfBlocks(pic, false), halfBlocks(pic, true)
	if strings.Contains(plain, "\x1b") || strings.NewReplacer("\x1b[97;40m", "", "\x1b[0m", "").Replace(coloured) != plain {
		t.Error("colour changes more than the colour")
	}
}
