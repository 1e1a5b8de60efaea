package demo

import (
	"context"
	"slices"

	"matchmark/internal/machine"
	"matchmark/internal/store"
)

// batch is how many entries go into one transaction: few enough that another
// writer is not kept waiting, enough that the load is over in a moment.
const batch = 500

// Load puts the demo machine into a store that does not hold it, and completes
// a load that was interrupted. A machine that is there already is left as it
// is, with whatever was tried out on it, also where an older edition of this
// program made it.
// Cost: one listing where there is nothing to do; else the reading of the log
// and one transaction for each batch. Errors: the store's.
func Load(ctx context.Context, log store.Log) error {
	kept, err := keptEntries(ctx, log)
	if err != nil || kept >= count() {
		return err
	}
	all, err := Entries()
	if err != nil {
		return err
	}
	if kept > 0 {
		if ours, err := isBeginning(ctx, log, all); err != nil || !ours {
			return err
		}
	}
	if err := log.Create(ctx, ID, Name); err != nil {
		return err
	}
	if err := putDrawings(ctx, log); err != nil {
		return err
	}
	for part := range slices.Chunk(all[kept:], batch) {
		if _, err := log.Append(ctx, ID, part); err != nil {
			return err
		}
	}
	return nil
}

// keptEntries counts what the store holds of the demo machine.
func keptEntries(ctx context.Context, log store.Log) (int, error) {
	list, err := log.Machines(ctx)
	if err != nil {
		return 0, err
	}
	for _, l := range list {
		if l.ID == ID {
			return int(l.Entries), nil
		}
	}
	return 0, nil
}

// isBeginning tells whether the entries kept are the first ones of this log.
// An entry's id holds a sum of what it says, so ids are enough to compare.
func isBeginning(ctx context.Context, log store.Log, all []machine.Entry) (bool, error) {
	kept, err := log.Since(ctx, ID, 0)
	if err != nil {
		return false, err
	}
	return slices.EqualFunc(kept, all[:len(kept)], func(a, b machine.Entry) bool { return a.ID == b.ID }), nil
}

// putDrawings keeps the pictures before any entry that names them, in the
// order of their names.
func putDrawings(ctx context.Context, log store.Log) error {
	files, err := Drawings()
	if err != nil {
		return err
	}
	names := make([]string, 0, len(files))
	for name := range files {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		if _, err := log.PutBlob(ctx, files[name], DrawingType); err != nil {
			return err
		}
	}
	return nil
}
