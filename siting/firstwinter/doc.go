// Package firstwinter is the order of work of the first year: what must be done
// before the wet season, what over it and what after, and which beds to cover
// against which weeds. Months are those of the place; years count from the one in
// which the beds are built.
package firstwinter
