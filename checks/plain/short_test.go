package plain

import (
	"testing"

	"lugmark/checks"
)

// A name in the list that no field has any more would silently give a setting
// the meter of the job.
func TestWhatNoMeterShowsIsInTheCatalogue(t *testing.T) {
	ids := checks.FieldIDs()
	for _, id := range notRead {
		if !contains(ids, id) {
			t.Errorf("no field %s", id)
		}
	}
}
