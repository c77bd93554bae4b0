package assessment

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestAFaultComesToTheOneWhoWaits(t *testing.T) {
	assert.PanicsWithValue(t, "broken", func() {
		_, _ = each(context.Background(), 8, nil, func(i int) error {
			if i == 3 {
				panic("broken")
			}
			return nil
		})
	})
}
