package sequence

// bucket sorts what each puts into n lists that share one block of memory.
// each runs twice and must put the same both times.
func bucket[T any](n int, each func(put func(at int, x T))) [][]T {
	size := make([]int, n)
	total := 0
	each(func(at int, _ T) { size[at]++; total++ })
	pool := make([]T, total)
	out := make([][]T, n)
	for i, k := range size {
		out[i], pool = pool[:0:k], pool[k:]
	}
	each(func(at int, x T) { out[at] = append(out[at], x) })
	return out
}
