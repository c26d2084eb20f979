package crossfall_test

import "strings"

// How the figures of a source are known.
const (
	inSource   = "read in the source"
	inQuote    = "read where others quote it"
	fromMemory = "from memory"
	dataSet    = "data set"
	program    = "reference program"
)

// publication is a source that tests name.
type publication struct {
	cited string // as tests write it
	title string
	known string
}

// String is the source as the table has it, its first letter made a capital where
// it is no program's name.
func (p publication) String() string {
	name := p.cited
	if p.known != program {
		name = strings.ToUpper(name[:1]) + name[1:]
	}
	if p.title == "" {
		return name
	}
	return name + ", " + p.title
}

// bibliography are the sources that tests name.
var bibliography = []publication{
	{"Agnew & Leonard 2003", "The physical properties of compost", inQuote},
	{"Agriculture Handbook 537", "Wischmeier & Smith 1978, Predicting rainfall erosion losses", inQuote},
	{"Agriculture Handbook 703", "Renard and others 1997, Predicting soil erosion by water", inQuote},
	{"Arnoldus 1980", "the modified index, in Assessment of Erosion", inQuote},
	{"Bect et al. 2012", "Statistics and Computing 22:773-793", fromMemory},
	{"Bellman 1958", "On a routing problem", fromMemory},
	{"Beven & Kirkby 1979", "Hydrological Sciences Bulletin 24", fromMemory},
	{"Auerswald et al. 2014", "Catena 118:220-225", fromMemory},
	{"axe-core", "", program},
	{"BRE Digest 365", "Soakaway design (1991), and calculations to it", inQuote},
	{"Broms 1964", "Lateral resistance of piles in cohesive soils", inQuote},
	{"Brown & Foster 1987", "Storm erosivity using idealized intensity distributions", inQuote},
	{"BS 5837", "Trees in relation to design, demolition and construction (2012)", inQuote},
	{"BS 5930", "Code of practice for ground investigations", inQuote},
	{"Chow, Maidment & Mays 1988", "Applied Hydrology", inQuote},
	{"CIRIA Report 156", "Infiltration drainage (1996)", fromMemory},
	{"City of Boroondara", "guide to retaining walls", inQuote},
	{"Coles & Tawn 1996", "A Bayesian analysis of extreme rainfall data", dataSet},
	{"Coles 2001", "An Introduction to Statistical Modeling of Extreme Values", "data set; fits printed there from memory"},
	{"Cook & Weisberg 1982", "Residuals and Influence in Regression", fromMemory},
	{"Cooper 1969", "The absorption of radiation in solar stills", fromMemory},
	{"Coulomb 1776", "Essai sur une application des règles de maximis et minimis", fromMemory},
	{"CP 2004:1972", "Foundations", inQuote},
	{"data set volcano of the R package datasets", "", dataSet},
	{"Davis 1973", "Statistics and Data Analysis in Geology (data set topo of the R package MASS)", dataSet},
	{"Di Giammarco, Todini & Consuegra 1996", "Journal of Hydrology 175:267-291", inQuote},
	{"DIN 19708", "Erosion of soils by water", fromMemory},
	{"District of Sechelt", "guide to retaining walls", inQuote},
	{"Duffie & Beckman", "Solar Engineering of Thermal Processes", fromMemory},
	{"EN 1995-1-1", "Design of timber structures", inQuote},
	{"EN 338", "Structural timber, strength classes (2016)", inQuote},
	{"EN 350", "Durability of wood", inQuote},
	{"Engineering Aid Basic", "U.S. Navy", inSource},
	{"Evans 1972", "General geomorphometry", fromMemory},
	{"exempt development code of New South Wales 2014", "clauses 2.29 and 2.30", inSource},
	{"Fieller 1954", "Some problems in interval estimation", fromMemory},
	{"Food and Agriculture Organization, R7021E", "", inSource},
	{"Food and Agriculture Organization, Training Series 16/1", "", inSource},
	{"Food and Agriculture Organization, U3160E", "", inSource},
	{"Ford 1956", "Network flow theory", fromMemory},
	{"Fournier 1960", "Climat et érosion", inQuote},
	{"Franke 1979", "report NPS-53-79-003 of the Naval Postgraduate School", fromMemory},
	{"Freeman 1991", "Computers & Geosciences 17:413-422", fromMemory},
	{"Gallant & Hutchinson 2011", "A differential equation for specific catchment area", fromMemory},
	{"GDAL", "", program},
	{"glpsol", "of the GNU Linear Programming Kit", program},
	{"Green & Ampt 1911", "Studies on soil physics", inQuote},
	{"Gringorten 1963", "A plotting rule for extreme probability paper", fromMemory},
	{"Hawkins et al. 2009", "Curve Number Hydrology", fromMemory},
	{"Health and Safety Executive's HSG47", "Avoiding danger from underground services (2014)", fromMemory},
	{"Health and Safety Executive, guidance on pushing and pulling", "", inQuote},
	{"Health and Safety Executive, INDG143", "Manual handling at work", inQuote},
	{"Highways Act 1980", "section 167", fromMemory},
	{"HEC-15 2005", "Design of roadside channels with flexible linings", fromMemory},
	{"Hershfield 1961", "Rainfall Frequency Atlas of the United States", fromMemory},
	{"HiGHS", "", program},
	{"Horn 1981", "Hill shading and the reflectance map", fromMemory},
	{"Hosking & Wallis 1987", "Technometrics 29:339-349", fromMemory},
	{"Hosking 1990", "L-moments", fromMemory},
	{"Hosking, Wallis & Wood 1985", "Technometrics 27:251-261", fromMemory},
	{"India Meteorological Department", "rule of the cube root", fromMemory},
	{"International Building Code", "", inSource},
	{"international yard and pound agreement of 1959", "", fromMemory},
	{"ISO 13249-3", "SQL multimedia, spatial", fromMemory},
	{"Johnson, Kotz & Balakrishnan 1995", "Continuous Univariate Distributions 2", fromMemory},
	{"Jones 1998", "Computers & Geosciences 24:315-323", inQuote},
	{"Kerby 1959", "Time of concentration for overland flow", inQuote},
	{"Krueger 1912", "Konforme Abbildung des Erdellipsoids in der Ebene", fromMemory},
	{"Lane 1935", "Security from under-seepage", fromMemory},
	{"Langbein 1949", "Annual floods and the partial-duration flood series", fromMemory},
	{"LAS specification 1.4 R15", "", inSource},
	{"Levenshtein 1966", "Binary codes capable of correcting deletions, insertions, and reversals", fromMemory},
	{"librsvg", "", program},
	{"levelling specification of the Australian Height Datum", "", inQuote},
	{"MacDonald et al. 1997", "Analytic benchmark solutions for open-channel flows", inQuote},
	{"J. Mahun", "open notes on surveying, chapter I", inSource},
	{"Manning 1891", "On the flow of water in open channels and pipes", fromMemory},
	{"Mardia & Jupp 2000", "Directional Statistics", fromMemory},
	{"McGregor et al. 1995", "Transactions of the ASAE 38:1039-1047", inQuote},
	{"Meeus 1998", "Astronomical Algorithms", fromMemory},
	{"Mein & Larson 1973", "Modeling infiltration during a steady rain", inQuote},
	{"National Engineering Handbook, section 4", "table 10.1", fromMemory},
	{"NAVEDTRA 14071", "U.S. Navy, Engineering Aid Intermediate/Advanced", inQuote},
	{"New Zealand Building Act 2004", "schedule 1", inQuote},
	{"Nielson & Hamann 1991", "The asymptotic decider", fromMemory},
	{"Ordnance Survey, A guide to coordinate systems in Great Britain", "annexe C", inSource},
	{"Oregon State University Extension", "weights of compost", inQuote},
	{"Phien 1987", "Journal of Hydrology 90", fromMemory},
	{"Planchon & Darboux 2001", "Catena 46:159-176", fromMemory},
	{"Poleni 1717", "De motu aquae mixto", fromMemory},
	{"Poppler", "", program},
	{"PROJ", "", program},
	{"Qin et al. 2007", "International Journal of Geographical Information Science 21:443-458", fromMemory},
	{"Quinn et al. 1991", "Hydrological Processes 5:59-79", fromMemory},
	{"R 4.2.2", "", program},
	{"R package evd", "", program},
	{"R package terra", "elevations of Luxembourg", dataSet},
	{"R. Rode", "Collimation method explained", inSource},
	{"Rankine 1857", "On the stability of loose earth", fromMemory},
	{"Rasmussen & Williams 2006", "Gaussian Processes for Machine Learning", fromMemory},
	{"Rawls, Brakensiek & Miller 1983", "Green-Ampt infiltration parameters from soils data", inQuote},
	{"Reda & Andreas 2008", "Solar Position Algorithm, NREL/TP-560-34302", inQuote},
	{"Renard & Freimund 1994", "Journal of Hydrology 157:287-306", fromMemory},
	{"RFC 7946", "The GeoJSON format", inSource},
	{"Richardson, Foster & Wright 1983", "Estimation of erosion index from daily rainfall amount", inQuote},
	{"Sacks et al. 1989", "Design and analysis of computer experiments", fromMemory},
	{"Shields 1936", "Anwendung der Aehnlichkeitsmechanik auf die Geschiebebewegung", fromMemory},
	{"simplefeatures", "", program},
	{"Skempton & DeLory 1957", "Stability of natural slopes in London Clay", fromMemory},
	{"source was not noted", "a published example", inSource},
	{"Sneyers 1977", "rain at Uccle, in the R package evd", dataSet},
	{"Snyder 1987", "Map projections: a working manual", fromMemory},
	{"ADA Standards for Accessible Design 2010", "405.2", fromMemory},
	{"Stewart et al. 1975", "Control of Water Pollution from Cropland", inQuote},
	{"Tarboton 1997", "Water Resources Research 33:309-319", fromMemory},
	{"Technical Paper 149", "of the United States Soil Conservation Service", inQuote},
	{"Thien 1979", "A flow diagram for teaching texture-by-feel analysis", fromMemory},
	{"TR-55", "Urban hydrology for small watersheds (1986)", inQuote},
	{"training module 206D", "of the Natural Resources Conservation Service", inSource},
	{"Verheijen et al. 2009", "Earth-Science Reviews 94:23-38", fromMemory},
	{"Wahba 1990", "Spline Models for Observational Data", fromMemory},
	{"Williams 1995", "in Computer Models of Watershed Hydrology, chapter 25", fromMemory},
	{"Wischmeier, Johnson & Cross 1971", "A soil erodibility nomograph for farmland and construction sites", inQuote},
	{"Woolhiser & Liggett 1967", "Unsteady, one-dimensional flow over a plane", fromMemory},
	{"Zevenbergen & Thorne 1987", "Quantitative analysis of land surface topography", fromMemory},
}
