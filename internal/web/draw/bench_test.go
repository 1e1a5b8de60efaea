package draw

import "testing"

func BenchmarkGeneral(b *testing.B) {
	_, m := library(b, 3)
	for b.Loop() {
		m.General()
	}
}

func BenchmarkAssembly(b *testing.B) {
	_, m := library(b, 3)
	for b.Loop() {
		m.Assembly("engine-head")
	}
}

func BenchmarkKept(b *testing.B) {
	_, m := library(b, 3)
	var k Kept
	for b.Loop() {
		k.General(m).SVG(Page{Shapes: &Shapes{}, Href: func([]Item) string { return "" }, Say: func([]Item) string { return "" }})
	}
}
