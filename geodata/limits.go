package geodata

// Limits of what is read. Each is a default of ours, set where a person's plot
// is far behind and a laptop is not yet in trouble; what is over one is refused
// before memory is spent on it, with its place and what to do instead. Times are
// of one x86-64 core, for what is hardest within the limit.
const (
	// MostFileBytes is the greatest size of one file of a plot but the hillside: a
	// JSON file of that size is refused or read within 3 s and 550 MB.
	MostFileBytes = 64 << 20
	// MostHillsideBytes is that of the ground around, which is read by window: a
	// text grid of that size is gone through in about 15 s.
	MostHillsideBytes = 2 << 30
	// MostSiteBytes is that of site.toml, and MostSettings the greatest number of
	// settings in it: as many that are not known, each with the nearest that is,
	// take 2.4 s. Four times as many took over 10 s.
	MostSiteBytes = 256 << 10
	MostSettings  = 5000

	// MostRows is the greatest number of rows of a table: rain of ten minutes for
	// 19 years takes 3 s and 440 MB. MostColumns is that of cells in a row; a row of
	// nothing but commas would take 100 times its size.
	MostRows    = 1_000_000
	MostColumns = 500
	// MostBookRows is the greatest number of rows of a level book and of a book of
	// ties: as many ties of one station take 2.8 s, twice as many 10 s.
	MostBookRows = 10_000
	// MostValues is the greatest number of values in a GeoJSON file: numbers,
	// words, lists and objects. Reading them takes 2 s and 330 MB.
	MostValues = 1_000_000
	// MostPoints is the greatest number of points, with heights and without, in a
	// GPX, KML, LandXML, DXF or WKT file: 2.5 s (DXF) to 4.2 s (GPX) and 500 MB.
	MostPoints = 1_000_000

	// MostCells is the greatest number of cells of a height grid that are read at
	// once, 200 MB, and MostCloudPoints that of points without rows and columns: a
	// whole answer from a text grid of 5000 by 5000 takes 8 s and 540 MB, from a
	// list of 4.6 million points 13 s and 560 MB.
	MostCells       = 25_000_000
	MostCloudPoints = 5_000_000

	// MostHeights is the greatest number of spot heights. A ground model may have
	// more: every second, third and so on is taken. A smooth surface merges heights
	// over 2000 into blocks, so that as many over 200 m of uneven ground take 16 s
	// and 210 MB, over 2 km 29 s and 220 MB.
	MostHeights = 10_000
	// WidestPlot is the greatest extent of a plot, m. Beyond it local metres are
	// no longer exact to a few hundredths of a millimetre.
	WidestPlot = 2000.0

	// MostFeatures is the greatest number of features drawn: as many trees take
	// 2 s with 49 heights, three times as many 8 s. MostCorners is that of the
	// corners of one: with MostHeights of uneven ground a boundary of as many takes
	// 21 s, one of five times as many over a minute. MostAllCorners is that of the
	// corners of all.
	MostFeatures   = 1000
	MostCorners    = 1000
	MostAllCorners = 10_000
	// MostBeds is the greatest number of beds drawn, and of beds wished for: as
	// many drawn on MostHeights of uneven ground take 46 s and 180 MB, as many to be
	// placed there 157 s and 160 MB; 200 drawn among MostFeatures with a boundary of
	// MostCorners 110 s and 150 MB.
	MostBeds = 200

	// MostListed is the greatest number of items in a list of site.toml, but for
	// MostAcknowledged acknowledgements: five for each of as many beds as are read.
	MostListed       = 100
	MostAcknowledged = 1000
	// MostLetters is the greatest length of a name or a note; the tables of
	// GIS allow 254 (dBASE, from memory).
	MostLetters = 1000
)
