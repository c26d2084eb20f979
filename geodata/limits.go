package geodata

// Limits of what is read. Each is a default of ours, set where a person's plot
// is far behind and a laptop is not yet in trouble; what is over one is refused
// before memory is spent on it, with its place and what to do instead.
const (
	// MostFileBytes is the greatest size of one file of a plot but the hillside.
	MostFileBytes = 64 << 20
	// MostHillsideBytes is that of the ground around, which is read by window.
	MostHillsideBytes = 2 << 30
	// MostSiteBytes is that of site.toml, and MostSettings the greatest number of
	// settings in it.
	MostSiteBytes = 256 << 10
	MostSettings  = 5000

	// MostRows is the greatest number of rows of a table, and MostColumns that of
	// cells in one.
	MostRows    = 1_000_000
	MostColumns = 500
	// MostBookRows is the greatest number of rows of a level book and of a book of
	// ties.
	MostBookRows = 10_000
	// MostValues is the greatest number of values in a GeoJSON file: numbers,
	// words, lists and objects.
	MostValues = 1_000_000
	// MostPoints is the greatest number of points, with heights and without, in a
	// GPX, KML, LandXML, DXF or WKT file.
	MostPoints = 1_000_000

	// MostCells is the greatest number of cells of a height grid that are read at
	// once, and MostCloudPoints that of points without rows and columns.
	MostCells       = 25_000_000
	MostCloudPoints = 5_000_000

	// MostHeights is the greatest number of spot heights. A ground model may have
	// more: every second, third and so on is taken.
	MostHeights = 10_000
	// WidestPlot is the greatest extent of a plot, m. Beyond it local metres are
	// no longer exact to a few hundredths of a millimetre.
	WidestPlot = 2000.0

	// MostFeatures is the greatest number of features drawn, MostCorners that of
	// corners of one, and MostAllCorners that of the corners of all.
	MostFeatures   = 1000
	MostCorners    = 5000
	MostAllCorners = 10_000
	// MostBeds is the greatest number of beds drawn, and of beds wished for.
	MostBeds = 200

	// MostListed is the greatest number of items in a list of site.toml, but for
	// MostAcknowledged acknowledgements.
	MostListed       = 100
	MostAcknowledged = 1000
	// MostLetters is the greatest length of a name or a note.
	MostLetters = 1000
)
