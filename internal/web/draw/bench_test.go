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
