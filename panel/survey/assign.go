package survey

import "math"

// assign puts every row into one column so that the sum of cost is least, room[j] rows into column j at most. A
// cost of +Inf forbids the column. ok is false when the rows do not all find a place.
//
// It is the Hungarian method for places that come in lots (H. W. Kuhn, The Hungarian method for the assignment
// problem, Naval Research Logistics Quarterly 2, 1955, 83-97; J. Munkres, Algorithms for the assignment and
// transportation problems, Journal of the SIAM 5, 1957, 32-38), in the form of shortest augmenting paths: rows come in one
// by one, and each pushes others along the cheapest chain that ends in a free place. After every row the rows so
// far stand at the least cost, so the whole does in the end. Paths are found among the columns (Bellman and
// Ford), for n rows and m columns in about n(nm + m^3) steps. Equal sums give the first column.
func assign(cost [][]float64, room []int) (at []int, total float64, ok bool) {
	const rounding = 1e-9
	at, held := make([]int, len(cost)), make([]int, len(room))
	for r := range cost {
		step, who := pushes(cost[:r], at, len(room))
		dist, from := append([]float64(nil), cost[r]...), make([]int, len(room))
		for j := range from {
			from[j] = -1
		}
		for range room {
			for j := range room {
				for k := range room {
					if d := dist[j] + step[j][k]; d < dist[k]-rounding {
						dist[k], from[k] = d, j
					}
				}
			}
		}
		end := -1
		for j := range room {
			if held[j] < room[j] && !math.IsInf(dist[j], 1) && (end < 0 || dist[j] < dist[end]-rounding) {
				end = j
			}
		}
		if end < 0 {
			return nil, math.Inf(1), false
		}
		held[end]++
		j := end
		for ; from[j] >= 0; j = from[j] {
			at[who[from[j]][j]] = j
		}
		at[r] = j
	}
	for r, j := range at {
		total += cost[r][j]
	}
	return at, total, true
}

// pushes are the least costs of moving a row from each column to each other, and which row that is.
func pushes(cost [][]float64, at []int, columns int) (step [][]float64, who [][]int) {
	step, who = make([][]float64, columns), make([][]int, columns)
	for j := range step {
		step[j], who[j] = make([]float64, columns), make([]int, columns)
		for k := range step[j] {
			step[j][k] = math.Inf(1)
		}
	}
	for i := range cost {
		j := at[i]
		for k, c := range cost[i] {
			if by := c - cost[i][j]; k != j && by < step[j][k] {
				step[j][k], who[j][k] = by, i
			}
		}
	}
	return step, who
}
