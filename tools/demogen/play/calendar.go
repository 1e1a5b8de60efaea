package play

import "time"

// calendar is the shop's clock. It runs in working hours only: eight to twelve
// and one to half past five, Monday to Friday.
type calendar struct{ at time.Time }

const (
	opens  = 8 * time.Hour
	noon   = 12 * time.Hour
	lunch  = time.Hour
	closes = 17*time.Hour + 30*time.Minute
)

// on begins a day at eight, or at a given hour; it never goes back.
func (c *calendar) on(day int, month time.Month, clock time.Duration) {
	at := time.Date(2026, month, day, 0, 0, 0, 0, time.UTC).Add(max(clock, opens))
	if at.After(c.at) {
		c.at = at
	}
}

// pass lets time go by, skipping lunch, the evening and the weekend.
func (c *calendar) pass(d time.Duration) {
	c.at = c.at.Add(d)
	day := time.Date(c.at.Year(), c.at.Month(), c.at.Day(), 0, 0, 0, 0, time.UTC)
	clock := c.at.Sub(day)
	if clock >= noon && clock < noon+lunch {
		c.at = c.at.Add(lunch)
		clock += lunch
	}
	if clock < closes {
		return
	}
	next := day.AddDate(0, 0, 1)
	for next.Weekday() == time.Saturday || next.Weekday() == time.Sunday {
		next = next.AddDate(0, 0, 1)
	}
	c.at = next.Add(opens + 4*time.Minute + d%(7*time.Minute))
}
