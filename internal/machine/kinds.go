package machine

import "reflect"

func (*MachineNamed) Kind() Kind   { return "machine-named" }
func (*KitTaken) Kind() Kind       { return "kit-taken" }
func (*PlacesSet) Kind() Kind      { return "places-set" }
func (*DatumSet) Kind() Kind       { return "datum-set" }
func (*InstrumentSet) Kind() Kind  { return "instrument-set" }
func (*AssemblyAdded) Kind() Kind  { return "assembly-added" }
func (*PartAdded) Kind() Kind      { return "part-added" }
func (*FeatureAdded) Kind() Kind   { return "feature-added" }
func (*JointAdded) Kind() Kind     { return "joint-added" }
func (*CheckAdded) Kind() Kind     { return "check-added" }
func (*TestAdded) Kind() Kind      { return "test-added" }
func (*CleaningAdded) Kind() Kind  { return "cleaning-added" }
func (*SymptomAdded) Kind() Kind   { return "symptom-added" }
func (*JointOpened) Kind() Kind    { return "joint-opened" }
func (*InTheWay) Kind() Kind       { return "in-the-way" }
func (*ReachDenied) Kind() Kind    { return "reach-denied" }
func (*OrderStated) Kind() Kind    { return "order-stated" }
func (*JointLeft) Kind() Kind      { return "joint-left" }
func (*AsFoundTaken) Kind() Kind   { return "as-found-taken" }
func (*JointClosed) Kind() Kind    { return "joint-closed" }
func (*HoldPassed) Kind() Kind     { return "hold-passed" }
func (*PartMoved) Kind() Kind      { return "part-moved" }
func (*TrayMade) Kind() Kind       { return "tray-made" }
func (*PartCounted) Kind() Kind    { return "part-counted" }
func (*PhotoAdded) Kind() Kind     { return "photo-added" }
func (*SoundAdded) Kind() Kind     { return "sound-added" }
func (*PartCleaned) Kind() Kind    { return "part-cleaned" }
func (*ReadingTaken) Kind() Kind   { return "reading-taken" }
func (*ReadingsAgreed) Kind() Kind { return "readings-agreed" }
func (*SettingTaken) Kind() Kind   { return "setting-taken" }
func (*LookTaken) Kind() Kind      { return "look-taken" }
func (*NominalSet) Kind() Kind     { return "nominal-set" }
func (*LimitSet) Kind() Kind       { return "limit-set" }
func (*CallMade) Kind() Kind       { return "call-made" }
func (*PartIdentified) Kind() Kind { return "part-identified" }
func (*RemedyChosen) Kind() Kind   { return "remedy-chosen" }
func (*RemedyDone) Kind() Kind     { return "remedy-done" }
func (*Ordered) Kind() Kind        { return "ordered" }
func (*Promised) Kind() Kind       { return "promised" }
func (*Received) Kind() Kind       { return "received" }
func (*TestRun) Kind() Kind        { return "test-run" }
func (*Surveyed) Kind() Kind       { return "surveyed" }
func (*Noted) Kind() Kind          { return "noted" }
func (*EntryWithdrawn) Kind() Kind { return "entry-withdrawn" }

// Bodies returns one empty body of every kind, in the order of the list above.
func Bodies() []Body {
	return []Body{
		&MachineNamed{}, &KitTaken{}, &PlacesSet{}, &DatumSet{}, &InstrumentSet{}, &AssemblyAdded{}, &PartAdded{},
		&FeatureAdded{}, &JointAdded{}, &CheckAdded{}, &TestAdded{}, &CleaningAdded{}, &SymptomAdded{},
		&JointOpened{}, &InTheWay{}, &ReachDenied{}, &OrderStated{}, &JointLeft{}, &AsFoundTaken{},
		&JointClosed{}, &HoldPassed{}, &PartMoved{}, &TrayMade{}, &PartCounted{}, &PhotoAdded{}, &SoundAdded{}, &PartCleaned{},
		&ReadingTaken{}, &ReadingsAgreed{}, &SettingTaken{}, &LookTaken{}, &NominalSet{}, &LimitSet{}, &CallMade{}, &PartIdentified{}, &RemedyChosen{},
		&RemedyDone{}, &Ordered{}, &Promised{}, &Received{}, &TestRun{}, &Surveyed{}, &Noted{}, &EntryWithdrawn{},
	}
}

// bodyTypes is filled once and never changed.
var bodyTypes = func() map[Kind]reflect.Type {
	types := map[Kind]reflect.Type{}
	for _, b := range Bodies() {
		types[b.Kind()] = reflect.TypeOf(b).Elem()
	}
	return types
}()

// newBody makes an empty body of a kind, nil for a kind nobody knows.
func newBody(kind Kind) Body {
	t, ok := bodyTypes[kind]
	if !ok {
		return nil
	}
	return reflect.New(t).Interface().(Body)
}
