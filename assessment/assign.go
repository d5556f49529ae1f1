package assessment

// AssignLeast gives each row of a cost table a column of its own, so that the costs sum
// to the least; it answers the columns and the sum. There are at least as many columns as
// rows, all rows are as long as the first, and sums stay below 2^60. It is the method of
// shortest augmenting paths with potentials (Kuhn 1955, Munkres 1957; Jonker and
// Volgenant 1987), in rows² × columns steps.
func AssignLeast(cost [][]int) ([]int, int) {
	if len(cost) == 0 {
		return nil, 0
	}
	a := assigning{cost: cost, rows: make([]int, len(cost)+1), columns: make([]int, len(cost[0])+1), of: make([]int, len(cost[0])+1)}
	for row := 1; row <= len(cost); row++ {
		a.place(row)
	}
	chosen, sum := make([]int, len(cost)), 0
	for column, row := range a.of {
		if column > 0 && row > 0 {
			chosen[row-1] = column - 1
			sum += cost[row-1][column-1]
		}
	}
	return chosen, sum
}

// assigning counts rows and columns from 1; 0 is none.
type assigning struct {
	cost          [][]int
	rows, columns []int // potentials
	of            []int // the row of each column
}

// place finds the cheapest way to give one more row a column, moving others.
func (a *assigning) place(row int) {
	const far = 1 << 61
	n := len(a.columns)
	least, from, done := make([]int, n), make([]int, n), make([]bool, n)
	for j := range least {
		least[j] = far
	}
	a.of[0] = row
	at := 0
	for a.of[at] != 0 {
		done[at] = true
		next, step := 0, far
		for j := 1; j < n; j++ {
			if done[j] {
				continue
			}
			if over := a.cost[a.of[at]-1][j-1] - a.rows[a.of[at]] - a.columns[j]; over < least[j] {
				least[j], from[j] = over, at
			}
			if least[j] < step {
				next, step = j, least[j]
			}
		}
		for j := range n {
			if done[j] {
				a.rows[a.of[j]] += step
				a.columns[j] -= step
			} else {
				least[j] -= step
			}
		}
		at = next
	}
	for at != 0 {
		a.of[at] = a.of[from[at]]
		at = from[at]
	}
}
