package circuit

import (
	"errors"
	"math"
)

var errSingular = errors.New("circuit: a part of the network is not connected")

// nodes is G·v = i, the nodal equations of a small network [S, V, A]. Row and
// column 0 to size-1 are nodes; one of them is earthed by ground.
//
// No entry of G stands further than reach from the diagonal. Elimination with
// row exchanges spreads that to twice reach on the right, and no further, so
// nothing else is stored. Nodes numbered along a ladder keep reach at 3, unless
// one of its sides is a bus bar.
type nodes struct {
	size  int
	reach int
	band  int       // numbers in a row: reach to the left, the diagonal, twice reach to the right
	g     []float64 // size rows of band
	i     []float64
}

func newNodes(size, reach int) *nodes {
	band := 3*reach + 1
	return &nodes{size: size, reach: reach, band: band, g: make([]float64, size*band), i: make([]float64, size)}
}

// at is where G[row][col] is stored, for a column within the band of the row.
func (n *nodes) at(row, col int) int { return row*n.band + col - row + n.reach }

// join puts a resistance between two nodes, in series with a voltage that
// drives current out at from: the stamp of a Norton source.
func (n *nodes) join(from, to int, ohm, volt float64) {
	siemens := 1 / ohm
	n.g[n.at(from, from)] += siemens
	n.g[n.at(to, to)] += siemens
	n.g[n.at(from, to)] -= siemens
	n.g[n.at(to, from)] -= siemens
	n.i[from] += volt * siemens
	n.i[to] -= volt * siemens
}

// ground makes node k the zero of all voltages.
func (n *nodes) ground(k int) {
	clear(n.g[k*n.band : (k+1)*n.band])
	n.g[n.at(k, k)] = 1
	n.i[k] = 0
}

// solve gives the voltage of every node by Gauss elimination with partial
// pivoting, and uses up n.
func (n *nodes) solve() ([]float64, error) {
	size, g, v := n.size, n.g, n.i
	for col := range size {
		below := min(size, col+n.reach+1)
		right := min(size, col+2*n.reach+1)
		pivot := col
		for row := col + 1; row < below; row++ {
			if math.Abs(g[n.at(row, col)]) > math.Abs(g[n.at(pivot, col)]) {
				pivot = row
			}
		}
		if g[n.at(pivot, col)] == 0 {
			return nil, errSingular
		}
		if pivot != col {
			for k := col; k < right; k++ {
				g[n.at(pivot, k)], g[n.at(col, k)] = g[n.at(col, k)], g[n.at(pivot, k)]
			}
			v[pivot], v[col] = v[col], v[pivot]
		}
		for row := col + 1; row < below; row++ {
			factor := g[n.at(row, col)] / g[n.at(col, col)]
			for k := col; k < right; k++ {
				g[n.at(row, k)] -= factor * g[n.at(col, k)]
			}
			v[row] -= factor * v[col]
		}
	}
	for row := size - 1; row >= 0; row-- {
		for k := row + 1; k < min(size, row+2*n.reach+1); k++ {
			v[row] -= g[n.at(row, k)] * v[k]
		}
		v[row] /= g[n.at(row, row)]
	}
	return v, nil
}
