package job

import (
	"fmt"
	"runtime"
	"testing"
	"time"
)

// What must not grow with the job: taking in one stored event and asking for
// its value, in a job of 10,000 events and in one of 100, in turns. The ratio is
// that of the two.
func BenchmarkApplyToALongJob(b *testing.B) {
	const short, long, batch = 100, 10_000, 100
	m := newMaker(b, 'b')
	var before [long]Event
	for i := range before {
		before[i] = m.add(i+1, fmt.Sprintf("v1/b%d/f%d", i%256+1, i/256), volts("13.28"))
	}
	var next []Signed
	var keys []Key
	for i := range 10 * batch {
		e := m.add(long+i+1, fmt.Sprintf("v1/charge1.%04d/voltage", i), volts("13.29"))
		k, _ := ParseKey(e.Field)
		next, keys = append(next, Signed{Job: e.Job, Stream: e.Stream, Seq: e.Seq, Raw: e.Raw}), append(keys, k)
	}
	var took [2]time.Duration
	for b.Loop() {
		states := [2]*State{apply(b, before[:short]...), apply(b, before[:]...)}
		runtime.GC() // what the setting up left is not to be paid for here
		for at := 0; at < len(next); at += batch {
			for turn := range states {
				i := (turn + at/batch) % 2 // each is as often the first
				s, began := states[i], time.Now()
				for k := at; k < at+batch; k++ {
					if err := s.ApplySigned(next[k]); err != nil {
						b.Fatal(err)
					}
					s.Get(keys[k])
				}
				took[i] += time.Since(began)
			}
		}
	}
	each := float64(b.N * len(next))
	b.ReportMetric(float64(took[0].Nanoseconds())/each, "ns/short")
	b.ReportMetric(float64(took[1].Nanoseconds())/each, "ns/long")
	b.ReportMetric(float64(took[1])/float64(took[0]), "ratio")
}

func BenchmarkDecode(b *testing.B) {
	raw := golden(b, "set-quantity")
	b.SetBytes(int64(len(raw)))
	for b.Loop() {
		if _, err := Decode(raw); err != nil {
			b.Fatal(err)
		}
	}
}
