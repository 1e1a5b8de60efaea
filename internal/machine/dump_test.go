package machine

import (
	"fmt"
	"reflect"
	"strings"
	"time"
)

// dump writes out a machine: every exported field that is not zero, one a
// line, what it points at elsewhere by its id. Two machines with one dump are
// the same.
func dump(m *Machine) string {
	d := dumper{}
	d.fields("machine", reflect.ValueOf(m).Elem())
	return d.out.String()
}

type dumper struct{ out strings.Builder }

func (d *dumper) line(path, format string, args ...any) {
	fmt.Fprintf(&d.out, "%s: %s\n", path, fmt.Sprintf(format, args...))
}

// home are the lists of the machine whose members are written out there and
// named by their id everywhere else.
var home = map[string]bool{"machine.Parts": true, "machine.Features": true, "machine.Joints": true, "machine.Checks": true, "machine.Tests": true, "machine.Orders": true}

func (d *dumper) fields(path string, v reflect.Value) {
	for i := range v.NumField() {
		if f := v.Type().Field(i); f.IsExported() && !v.Field(i).IsZero() {
			d.value(path+"."+f.Name, v.Field(i))
		}
	}
}

func (d *dumper) value(path string, v reflect.Value) {
	switch x := v.Interface().(type) {
	case *Part:
		d.line(path, "part %s", x.ID)
		return
	case *Joint:
		d.line(path, "joint %s", x.ID)
		return
	case *Check:
		d.line(path, "check %s", x.ID)
		return
	case *Feature:
		d.line(path, "feature %s", x.ID)
		return
	case time.Time:
		d.line(path, "%s", x.UTC().Format(time.RFC3339Nano))
		return
	}
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		if v.Kind() == reflect.Interface {
			path += "(" + v.Elem().Type().Elem().Name() + ")"
			v = v.Elem()
		}
		d.value(path, v.Elem())
	case reflect.Struct:
		d.fields(path, v)
	case reflect.Slice:
		for i := range v.Len() {
			at := fmt.Sprintf("%s[%d]", path, i)
			if item := v.Index(i); home[path] {
				d.fields(at, item.Elem())
			} else {
				d.value(at, item)
			}
		}
	case reflect.Map:
		d.line(path, "%v", v.Interface()) // fmt sorts the keys
	default:
		d.line(path, "%v", v.Interface())
	}
}
