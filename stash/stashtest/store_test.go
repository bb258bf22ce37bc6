package stashtest_test

import (
	"testing"

	"tallycloth/stash/stashtest"
)

func TestStore(t *testing.T) {
	stashtest.Run(t, func(t *testing.T) stashtest.Subject {
		ids := stashtest.IDs()
		return stashtest.Subject{Store: stashtest.New(stashtest.Clock(), ids), NewID: ids, Garment: ids}
	})
}
