package record

import (
	"bytes"
	"os"
	"testing"
)

func FuzzRead(f *testing.F) {
	first, err := os.ReadFile("testdata/first.txt")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(first)
	f.Add(first[:700])
	f.Add(bytes.ReplaceAll(first, []byte("\n"), []byte("\r\n")))
	f.Add([]byte("\ufefflugmark-record 1\n"))
	f.Add([]byte("lugmark-record 2\ne \nb \n\n"))
	f.Add([]byte("lugmark-record 1\nb e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855 \n")) // a blob of nothing
	f.Add([]byte(`{"lugmark": "job/1"}`))
	f.Fuzz(func(t *testing.T, file []byte) {
		c, faults := Read(file)
		lines := bytes.Count(file, []byte("\n")) + 1
		for _, fault := range faults {
			if fault.Line < 1 || fault.Line > lines {
				t.Fatalf("%d lines, fault %v", lines, fault)
			}
		}
		if len(c.Lines) != len(c.Events) {
			t.Fatal("a line for each event")
		}
		Verify(c)
		Missing(c)
		// What was kept is whole: it can be written, and read again the same.
		again, err := Write(c)
		if err != nil {
			t.Fatal(err)
		}
		back, faults := Read(again)
		if len(faults) != 0 || len(back.Events) != len(c.Events) {
			t.Fatalf("%d events, now %d, faults %v", len(c.Events), len(back.Events), faults)
		}
		if twice, _ := Write(back); !bytes.Equal(twice, again) {
			t.Fatal("written twice it differs")
		}
	})
}

// Of a file beside what a phone has, only what a key on one of the two sides
// signed is new, and what is new joins what is there without a fork.
func FuzzSift(f *testing.F) {
	first, err := os.ReadFile("testdata/first.txt")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(first, first)
	f.Add(first, first[:1500])
	f.Add(first[:1500], first)
	f.Add(bytes.ReplaceAll(first, []byte("13.28"), []byte("13.29")), first)
	f.Add(first, []byte{})
	f.Fuzz(func(t *testing.T, file, phone []byte) {
		c, _ := Read(file)
		here, _ := Read(phone)
		known, faults := Verify(here)
		if len(faults) > 0 {
			return // a phone holds what it has checked
		}
		s := Sift(c, known.Events, func(int, int) {})
		if len(s.New.Events)+s.Held+s.Unsure+s.Forked != len(c.Events) || len(s.New.Lines) != len(s.New.Events) {
			t.Fatalf("%d entries: %d new, %d held, %d unsure, %d forked", len(c.Events), len(s.New.Events), s.Held, s.Unsure, s.Forked)
		}
		_, faults = Verify(Contents{Events: append(known.Events, s.New.Events...)})
		for _, x := range faults {
			for _, bad := range []string{"signature does not match", "is there twice", "does not follow"} {
				if bytes.Contains([]byte(x.Why), []byte(bad)) {
					t.Fatalf("what came in: %v", x)
				}
			}
		}
	})
}
