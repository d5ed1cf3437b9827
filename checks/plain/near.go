package plain

import "strings"

// nearest gives the known name that is fewest slips away from name; "" when
// even that one shares too little with it. Of equals the first wins.
func nearest(name string, known []string) string {
	best, least := "", len(name)/2+2
	for _, k := range known {
		if d := slips(name, k, least); d < least {
			best, least = k, d
		}
	}
	return best
}

// slips counts the letters to add, leave out, change or swap with their
// neighbour on the way from a to b (optimal string alignment), ignoring case;
// it gives up at most.
func slips(a, b string, most int) int {
	a, b = strings.ToLower(a), strings.ToLower(b)
	if len(a)-len(b) >= most || len(b)-len(a) >= most {
		return most
	}
	if a == b {
		return 0
	}
	before, last, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return min(last[len(b)], most)
}
