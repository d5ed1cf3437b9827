package plain

import (
	"time"

	"lugmark/core/job"
)

// File is a plain job file that was read without fault.
type File struct {
	// Now is the time of judging that the file gives, else the latest time in
	// it; zero when it holds no time at all. Whoever judges or imports such a
	// file sets it first.
	Now time.Time
	// Visit is the visit to judge: the one the file names, else the latest of
	// its keys, else v1.
	Visit string
	// Entries are the values in the order in which they are to be kept: the
	// setup, then the readings as they stand in the file.
	Entries []Entry
	// Notes are what a reader should know and what was taken for granted.
	Notes []Fault
}

// Entry is one value of one field.
type Entry struct {
	Key   job.Key
	Value job.Value
	// Personal is the text of a value of [job.KindPersonal]: it becomes a blob
	// where it is kept, and the value has no X before that.
	Personal string
	// At is when a number was measured or an answer became true, such as that a
	// link is closed; zero: at the file's now.
	At time.Time
	// Rival says that this value stands beside the one before of the same key:
	// two people disagree. Without it a later value of a key replaces the
	// earlier one.
	Rival bool
	Line  int // of the file
}
