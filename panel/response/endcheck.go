package response

import "crossgrain/moisture"

// EndCheck is the humidity at which checks could start at the bare ends of a board when the air falls there at once: the ends dry
// first, want to shrink across the grain and are held by the board behind them, which has not followed.
type EndCheck struct {
	Part string
	RH   moisture.RH // 0: not even in air without moisture
}

// EndChecks finds it for every board, from balance with the used-to humidity: where the free strain of the end reaches what the wood
// bears held for a season. Own estimate, untested: hours are shorter than a season and bear more, while the outermost fibres feel
// more than the mean. Nothing where the ends are coated or covered.
func (c *Case) EndChecks() (out []EndCheck) {
	if c.o.Ends == "coated" || c.o.Ends == "covered" {
		return nil
	}
	for i := range c.boards {
		b := &c.boards[i]
		pulled := func(rh moisture.RH) float64 { return -b.across(b.mc(rh, c.o.Temperature)-b.used) / b.breaks }
		e := EndCheck{Part: "board." + b.Name}
		if pulled(0) >= 1 {
			low, high := moisture.RH(0), c.o.UsedTo
			for range 40 {
				mid := (low + high) / 2
				if pulled(mid) >= 1 {
					low = mid
				} else {
					high = mid
				}
			}
			e.RH = low
		}
		out = append(out, e)
	}
	return out
}
