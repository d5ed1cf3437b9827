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
// the rest is never visited. Nodes numbered along a ladder keep reach at 3.
type nodes struct {
	size  int
	reach int
	g     []float64 // size × size, row by row
	i     []float64
}

func newNodes(size int) *nodes {
	return &nodes{size: size, g: make([]float64, size*size), i: make([]float64, size)}
}

// join puts a resistance between two nodes, in series with a voltage that
// drives current out at from: the stamp of a Norton source.
func (n *nodes) join(from, to int, ohm, volt float64) {
	siemens := 1 / ohm
	n.reach = max(n.reach, from-to, to-from)
	n.g[from*n.size+from] += siemens
	n.g[to*n.size+to] += siemens
	n.g[from*n.size+to] -= siemens
	n.g[to*n.size+from] -= siemens
	n.i[from] += volt * siemens
	n.i[to] -= volt * siemens
}

// ground makes node k the zero of all voltages.
func (n *nodes) ground(k int) {
	row := n.g[k*n.size : (k+1)*n.size]
	clear(row)
	row[k] = 1
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
			if math.Abs(g[row*size+col]) > math.Abs(g[pivot*size+col]) {
				pivot = row
			}
		}
		if g[pivot*size+col] == 0 {
			return nil, errSingular
		}
		if pivot != col {
			for k := col; k < right; k++ {
				g[pivot*size+k], g[col*size+k] = g[col*size+k], g[pivot*size+k]
			}
			v[pivot], v[col] = v[col], v[pivot]
		}
		for row := col + 1; row < below; row++ {
			factor := g[row*size+col] / g[col*size+col]
			for k := col; k < right; k++ {
				g[row*size+k] -= factor * g[col*size+k]
			}
			v[row] -= factor * v[col]
		}
	}
	for row := size - 1; row >= 0; row-- {
		for k := row + 1; k < min(size, row+2*n.reach+1); k++ {
			v[row] -= g[row*size+k] * v[k]
		}
		v[row] /= g[row*size+row]
	}
	return v, nil
}
