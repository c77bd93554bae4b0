package response

import (
	"fmt"
	"time"

	"crossgrain/moisture"
)

// Been returns the panel when the air at its faces went at once from the used-to humidity to another and has stayed there for a
// time: the mean of each board as far as it has followed, what is held counted as over a season. A time of 0 or less is a season.
func (c *Case) Been(rh moisture.RH, since time.Duration) (State, error) {
	if !(rh >= 0 && rh <= 1) {
		return State{}, fmt.Errorf("response: humidity must lie between 0 and 100 %% RH, got %g", rh.Percent())
	}
	by := make([]moisture.RH, len(c.boards))
	for i := range by {
		share := 1.0
		if since > 0 {
			share = c.slab(&c.boards[i]).Uptake(since.Seconds())
		}
		by[i] = c.o.UsedTo + moisture.RH(share)*(rh-c.o.UsedTo)
	}
	return c.settle(by)
}

// UsedTo returns the humidity the realised panel is used to.
func (c *Case) UsedTo() moisture.RH { return c.o.UsedTo }
