package checks

import "slices"

// photosFor counts the photos in view that were taken for one of the fields. A
// photo decides nothing: a person says what it shows. Its picture may have been
// left out of a copy, so that what counts is the record's word that it was taken.
func (f *Facts) photosFor(fields ...Field) (n int) {
	for _, p := range f.state.Photos() {
		if slices.ContainsFunc(fields, func(x Field) bool { return x.ID == p.Body.Field }) {
			n++
		}
	}
	return n
}
