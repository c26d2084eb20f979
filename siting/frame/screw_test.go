package frame_test

import (
	"testing"

	"crossfall/siting/frame"

	"github.com/stretchr/testify/assert"
)

// EN 1995-1-1 (from memory), 8.2.2 and 8.7.2 worked by hand for C16. The first: hold
// 0.082 (1 - 0.044) 310 = 24.3 N/mm2, bending 180 x 4.4^2.6 = 8480 N mm; one
// hinge in the peg governs, 1.05 x 2673 / 3 x (sqrt(4 + 1.522) - 1) = 1263 N.
func TestScrews(t *testing.T) {
	assert.InEpsilon(t, 1263, frame.DefaultScrew(25).Sideways(310), half)
	thin := frame.Screw{Diameter: 3.3, Steel: 600, Board: 22, Peg: 35}
	assert.InEpsilon(t, 626, thin.Sideways(310), half)

	// in thick timber the screw bends twice: 1.15 sqrt(2 x 8477 x 24.30 x 4.4) = 1548 N
	thick := frame.Screw{Diameter: 4.4, Steel: 600, Board: 60, Peg: 80, Predrilled: true}
	assert.InEpsilon(t, 1548, thick.Sideways(310), half)

	assert.InEpsilon(t, 2601, frame.Withdrawal(6, 40, 310, 1), half)
	assert.InEpsilon(t, 5394, frame.Withdrawal(8, 50, 350, 1), half)
	assert.InEpsilon(t, 1978, frame.Withdrawal(5, 40, 310, 1), half)
	assert.InEpsilon(t, 1.866, frame.Withdrawal(6, 40, 310, 2)/frame.Withdrawal(6, 40, 310, 1), half)
	assert.InEpsilon(t, 1000, frame.PermanentDesign(2601), half)
}
