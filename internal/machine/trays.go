package machine

// UsedMarks are the marks of all trays and places that are or were in use, or
// were made.
func (m *Machine) UsedMarks() map[string]bool {
	used := map[string]bool{}
	for _, t := range m.Trays {
		used[t.Mark] = true
	}
	for _, e := range m.Events {
		switch b := e.Body.(type) {
		case *JointOpened:
			used[b.Tray] = true
		case *PartMoved:
			used[b.Tray] = true
		}
	}
	delete(used, "")
	delete(used, NoTray)
	return used
}
