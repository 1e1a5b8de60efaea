package trial

import (
	"maps"
	"slices"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
)

// call gives the browser one command about this tab.
func call[P, R any](tab *Tab, command cdp.Command[P, R], with P) R {
	tab.t.Helper()
	answer, err := chromedp.Call(tab.Ctx, command, with)
	if err != nil {
		tab.t.Fatal(err)
	}
	return answer
}

// net sets what the line of the tab is like; navigator.onLine follows.
func (tab *Tab) net(offline bool, latencyMs, bytesPerSecond float64) {
	tab.t.Helper()
	call(tab, network.EmulateNetworkConditionsByRule, network.EmulateNetworkConditionsByRuleParams{
		EmulateOfflineServiceWorker: &offline,
		MatchedNetworkConditions: []*network.Conditions{{Latency: latencyMs, DownloadThroughput: bytesPerSecond,
			UploadThroughput: bytesPerSecond, Offline: offline}}})
	call(tab, network.OverrideNetworkState, network.OverrideNetworkStateParams{Offline: offline, Latency: latencyMs,
		DownloadThroughput: bytesPerSecond, UploadThroughput: bytesPerSecond})
}

// Offline takes the line away, or gives it back. A tab of its own goes
// offline; the server and other tabs do not notice.
func (tab *Tab) Offline(yes bool) {
	tab.t.Helper()
	tab.net(yes, 0, -1)
}

// SlowLine makes the line as slow as given: the wait before each answer in ms
// and megabits per second both ways.
func (tab *Tab) SlowLine(latencyMs, megabits float64) {
	tab.t.Helper()
	tab.net(false, latencyMs, megabits*1e6/8)
}

// SlowCPU makes the page's scripts and drawing times slower; 1 is full speed.
func (tab *Tab) SlowCPU(times float64) {
	tab.t.Helper()
	call(tab, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: times})
}

// NoScript switches the scripts of the pages off or on. Ask still works: it is
// the inspector's script, not the page's.
func (tab *Tab) NoScript(off bool) {
	tab.t.Helper()
	call(tab, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: off})
}

// Media sets a media feature, such as "forced-colors" to "active" or
// "prefers-reduced-motion" to "reduce"; "" takes it back.
func (tab *Tab) Media(feature, value string) {
	tab.t.Helper()
	tab.media[feature] = value
	var all []*emulation.MediaFeature
	for _, name := range slices.Sorted(maps.Keys(tab.media)) {
		all = append(all, &emulation.MediaFeature{Name: name, Value: tab.media[name]})
	}
	call(tab, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: all})
}

// Ground lays a ground, "blue" or "film", for the pages of a site from the next
// one on. url is any address of the site.
func (tab *Tab) Ground(url, ground string) {
	tab.t.Helper()
	call(tab, network.SetCookie, network.SetCookieParams{Name: "ground", Value: ground, URL: url})
}
