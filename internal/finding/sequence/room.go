package sequence

// room hands out short lists cut from larger blocks: a plan has thousands.
type room[T any] struct{ free []T }

// take gives an empty list with room for n.
func (r *room[T]) take(n int) []T {
	if len(r.free) < n {
		r.free = make([]T, max(n, 1024))
	}
	out := r.free[:0:n]
	r.free = r.free[n:]
	return out
}
