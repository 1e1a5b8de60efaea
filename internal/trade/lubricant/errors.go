package lubricant

import "fmt"

// EditionError says that a standard has no such edition here.
type EditionError struct {
	Got  Edition
	Want string
}

func (e EditionError) Error() string {
	return fmt.Sprintf("edition is %q; %s was wanted", e.Got, e.Want)
}

// GradeError says that a grade is not known.
type GradeError struct {
	Got, Want string
}

func (e GradeError) Error() string { return fmt.Sprintf("grade is %q; %s was wanted", e.Got, e.Want) }
