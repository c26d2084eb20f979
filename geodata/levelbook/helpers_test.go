package levelbook_test

import "crossfall/geodata/levelbook"

// written is a figure that was given.
func written(v float64) levelbook.Figure { return levelbook.Figure{Value: v, Given: true} }
