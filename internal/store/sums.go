package store

import (
	"reflect"

	"matchmark/internal/machine"
)

var sumType = reflect.TypeFor[machine.Sum]()

// Sums lists the attachments an entry's body names, in the order of its
// fields, whatever its kind.
func Sums(body machine.Body) []machine.Sum {
	if body == nil {
		return nil
	}
	var out []machine.Sum
	collectSums(reflect.ValueOf(body), &out)
	return out
}

func collectSums(v reflect.Value, out *[]machine.Sum) {
	if v.Type() == sumType {
		if s := v.String(); s != "" {
			*out = append(*out, machine.Sum(s))
		}
		return
	}
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			collectSums(v.Elem(), out)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				collectSums(v.Field(i), out)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			collectSums(v.Index(i), out)
		}
	}
}
