// Package rain turns the rain figures of a plot into those that siting needs:
// the rain of the winter half-year (WinterHalf), the storms of three return
// periods in any duration and laid out step by step (DesignStorms, Burst.In,
// Burst.Hyetograph), how rare which day of rain is (FrequencyOfDays), and how
// strongly the rain of a year washes soil away (ErosivityOf).
//
// Depths are millimetres, rates millimetres per hour, durations minutes,
// return periods years. A return period of T years means "met or passed once
// in T years on average"; of greatest days of winters or years, a chance of 1 in
// T in each. MT-D is the depth of duration D and return period T. Shapes of
// distributions are in the sign of Coles (2001): over 0 is a heavy tail.
package rain
