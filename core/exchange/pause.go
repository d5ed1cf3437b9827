package exchange

import "time"

// Pause returns how long to wait before the next round, after so many rounds in
// a row that came to nothing: any time from the shortest up to a bound that
// doubles from 2 s to 5 min, so that phones that lost one office do not all come
// back at once. Random is 64 random bits. An office that named a time is waited
// for at least that long.
func Pause(failed int, random uint64, asked time.Duration) time.Duration {
	const shortest, first, longest = time.Second, 2 * time.Second, 5 * time.Minute
	bound := longest
	if failed < 9 { // 2 s doubled eight times is more than 5 min
		bound = min(first<<max(failed-1, 0), longest)
	}
	return max(shortest+time.Duration(random%uint64(bound-shortest+1)), min(asked, time.Hour))
}
