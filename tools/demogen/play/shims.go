package play

import "matchmark/internal/machine"

// packs are the shims found, by joint; places apart where they differ.
var packs = map[machine.JointID][]machine.Shim{
	"ip-block":             {{ThicknessMM: 0.20, Count: 1, Typed: "0.20"}, {ThicknessMM: 0.30, Count: 1, Typed: "0.30"}},
	"inj-spring-fit.1":     {{ThicknessMM: 1.15, Count: 1, Typed: "1.15"}},
	"inj-spring-fit.2":     {{ThicknessMM: 1.25, Count: 1, Typed: "1.25"}},
	"inj-spring-fit.3":     {{ThicknessMM: 1.00, Count: 1, Typed: "1.00"}},
	"relief-fit":           {{ThicknessMM: 0.50, Count: 2, Typed: "0.50"}},
	"pivotshim-fit":        {{ThicknessMM: 2.0, Count: 1, Where: "front", Typed: "2.0"}, {ThicknessMM: 2.5, Count: 1, Where: "rear", Typed: "2.5"}},
	"kingthrust-fit.left":  {{ThicknessMM: 0.30, Count: 1, Typed: "0.30"}},
	"kingthrust-fit.right": {{ThicknessMM: 0.50, Count: 1, Typed: "0.50"}},
	"wormshim-fit":         {{ThicknessMM: 0.10, Count: 2, Typed: "0.10"}, {ThicknessMM: 0.25, Count: 1, Typed: "0.25"}},
	"release-guide-case":   {{ThicknessMM: 0.30, Count: 1, Typed: "0.30"}},
}
