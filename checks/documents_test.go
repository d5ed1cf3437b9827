package checks

import (
	"testing"

	"lugmark/core/finding"
)

func TestDocuments(t *testing.T) {
	walk(t, twoByTwo, documentsCheck, "", []row{
		{"nobody looked", "", "bank", finding.ToDo, "missing"},
		{"all", "bank/documents = drawing, manuals, settings, sheet, dates, spare-fuse", "bank", finding.Pass, "all of the list"},
		{"no spare fuse", "bank/documents = drawing, manuals, settings, sheet, dates", "bank", finding.Fail, "boundary: all of the list"},
		{"one paper", "bank/documents = sheet", "bank", finding.Fail, "all of the list"},
		{"none", "bank/documents = none", "bank", finding.Fail, "boundary: looked at, and none stays"},
		{"put off", "bank/documents = skip later wait", "bank", finding.Later, "put off is not done"},
	})
	namedIn(t, documentsCheck, "bank/documents = drawing, manuals, sheet, dates", "Not left with the bank: Settings as left, Spare fuse.")
}
