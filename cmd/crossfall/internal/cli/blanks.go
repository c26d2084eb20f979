package cli

import "fmt"

// blankHeights is heights.csv without a height.
func blankHeights(unit string) []byte {
	return fmt.Appendf(nil, `# Spot heights, one a row; three at least, ten or more tell much better.
# x and y are distances along two lines at right angles from one corner of the
# plot (x to the right of y), z is the height above any one fixed point, all in %[2]s.
# Names and notes may be left empty. A line that begins with # is not read.
# Example:
# a1,0.5,0.5,10.12,by the gate post
name,x (%[1]s),y (%[1]s),z (%[1]s),note
`, unit, spelled(unit))
}

// blankFeatures is features.csv without a feature.
func blankFeatures(unit string) []byte {
	return fmt.Appendf(nil, `# What stands, lies or is buried on the plot, in the lines of heights.csv and in
# %[2]s. One corner a row; rows of one name make one shape, and what belongs to
# the shape stands in its first row. A line that begins with # is not read.
# Kinds: boundary, no-go, obstacle, tree, service, path, gate, heap, break-line, mark, bed.
# A tree, a gate, a heap and a mark are one point. Compost is carried from the heap, or from the gate.
# Draw two marks or more: beds are taped from them.
# Examples:
# boundary,plot,0,0,,,,,,,,
# boundary,plot,12,0,,,,,,,,
# boundary,plot,12,20,,,,,,,,
# boundary,plot,0,20,,,,,,,,
# obstacle,south hedge,0,0.3,hedge,1.8,,,,,,
# obstacle,south hedge,12,0.3,,,,,,,,
# tree,apple,7.2,11.6,,3.5,0.14,false,,,,
# service,power to shed,12,9.4,,,,,electricity,false,,0.45
# service,power to shed,9,6.4,,,,,,,,
# mark,gate post,11.9,13.2,,,,,,,,
kind,name,x (%[1]s),y (%[1]s),what,height_m,stem_diameter_m,evergreen,carries,overhead,located,depth_m
`, unit, spelled(unit))
}

func spelled(unit string) string {
	if unit == "ft" {
		return "feet"
	}
	return "metres"
}
