package job

import (
	"fmt"
	"testing"
)

// The one that must not grow with the job: applying and reading one value
// beside 100 and beside 10,000 events.
func BenchmarkApplyAndGet(b *testing.B) {
	for _, size := range []int{100, 10_000} {
		b.Run(fmt.Sprint(size), func(b *testing.B) {
			m := newMaker(b, 'b')
			var before, after []Event
			for i := range size {
				before = append(before, m.add(i+1, fmt.Sprintf("v1/b%d/f%d", i%256+1, i/256), volts("13.28")))
			}
			for i := range 1000 {
				after = append(after, m.add(size+i+1, fmt.Sprintf("v1/charge1.%04d/voltage", i), volts("13.29")))
			}
			var s *State
			for i := range b.N {
				if i%len(after) == 0 {
					b.StopTimer()
					s = apply(b, before...)
					b.StartTimer()
				}
				e := after[i%len(after)]
				k, _ := ParseKey(e.Field)
				s.Apply(e)
				s.Get(k)
			}
		})
	}
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
