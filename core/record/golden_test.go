package record

import (
	"os"
	"testing"
)

// The file was made once and checked line by line with openssl and sha256sum by
// the recipe of the package comment. It must be read for ever.
func TestTheFirstRecordFileIsStillRead(t *testing.T) {
	f, err := os.ReadFile("testdata/first.txt")
	if err != nil {
		t.Fatal(err)
	}
	c, faults := Read(f)
	good, more := Verify(c)
	if len(faults)+len(more) != 0 || len(good.Events) != 6 || len(good.Blobs) != 2 {
		t.Errorf("%d events, %d blobs, faults %v %v", len(good.Events), len(good.Blobs), faults, more)
	}
	if again, err := Write(good); err != nil || string(again) != string(f) {
		t.Errorf("written again it differs, %v", err)
	}
}
