package levelbook

import (
	"crossfall/geodata"
	"crossfall/geodata/csvtable"
)

// Column is where a table keeps one thing, and in what unit its bare numbers are.
type Column struct {
	At   int // from 0
	Unit geodata.Unit
}

// LevelColumns finds the columns of a level book by their headers, as ReadLevels
// does, under the keys station, back, inter, fore, level, distance, back length,
// fore length, instrument and note; one that the table has not is left out. bare
// is the unit of columns that name none. With a Problem among the faults the
// columns cannot be used.
func LevelColumns(t *csvtable.Table, bare geodata.Unit) (map[string]Column, geodata.Faults) {
	return boundColumns(t, levelColumns, bare)
}

// TieColumns finds the columns of a file of ties as LevelColumns does, under the
// keys that ReadTies lists.
func TieColumns(t *csvtable.Table, bare geodata.Unit) (map[string]Column, geodata.Faults) {
	return boundColumns(t, tieColumns, bare)
}

func boundColumns(t *csvtable.Table, columns []column, bare geodata.Unit) (map[string]Column, geodata.Faults) {
	s := &sheet{table: t, place: map[string]int{}, unit: map[string]geodata.Unit{}, bare: bare}
	var faults geodata.Faults
	s.bind(columns, &faults)
	out := map[string]Column{}
	for key, at := range s.place {
		unit, named := s.unit[key]
		if !named {
			unit = bare
		}
		out[key] = Column{At: at, Unit: unit}
	}
	return out, faults
}
