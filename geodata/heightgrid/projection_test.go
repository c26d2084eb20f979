package heightgrid_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/geodata"
	"crossfall/geodata/heightgrid"
)

const britishText = `PROJCS["British_National_Grid",GEOGCS["GCS_OSGB_1936",DATUM["D_OSGB_1936",SPHEROID["Airy_1830",6377563.396,299.3249646]],` +
	`PRIMEM["Greenwich",0.0],UNIT["Degree",0.0174532925199433]],PROJECTION["Transverse_Mercator"],PARAMETER["Scale_Factor",0.9996012717],UNIT["Meter",1.0]]`

func TestProjectionText(t *testing.T) {
	for name, c := range map[string]struct {
		text string
		want heightgrid.Reference
	}{
		"old, metres": {britishText, heightgrid.Reference{Unit: geodata.Metre}},
		"old, with codes, feet, heights": {`COMPD_CS["x", PROJCS["y", GEOGCS["z", AUTHORITY["EPSG","4269"]], UNIT["US survey foot",0.3048006096012192],
			AUTHORITY["EPSG","2263"]], VERT_CS["v", UNIT["US survey foot",0.3048006096012192], AUTHORITY["EPSG","6360"]]]`,
			heightgrid.Reference{EPSG: 2263, VerticalEPSG: 6360, Unit: geodata.SurveyFoot, HeightUnit: geodata.SurveyFoot}},
		"two side by side": {britishText + `,VERTCS["ODN",VDATUM["ODN"],PARAMETER["Vertical_Shift",0.0],UNIT["Foot",0.3048]]`,
			heightgrid.Reference{Unit: geodata.Metre, HeightUnit: geodata.Foot}},
		"new": {`PROJCRS["n",BASEGEOGCRS["b",ID["EPSG",4277]],CONVERSION["c"],CS[Cartesian,2],AXIS["(E)",east,ORDER[1],LENGTHUNIT["metre",1]],
			AXIS["(N)",north,ORDER[2],LENGTHUNIT["metre",1]],ID["EPSG",27700]]`, heightgrid.Reference{EPSG: 27700, Unit: geodata.Metre}},
		"degrees":        {`GEOGCS["WGS 84",UNIT["degree",0.0174532925199433],AUTHORITY["EPSG","4326"]]`, heightgrid.Reference{EPSG: 4326, Geographic: true}},
		"round brackets": {`PROJCS("x",GEOGCS("y"),UNIT("foot",0.3048))`, heightgrid.Reference{Unit: geodata.Foot}},
	} {
		t.Run(name, func(t *testing.T) {
			src, err := open([]byte(header+"1 2 3 4 5 6"), "hill.asc")
			require.NoError(t, err)
			require.NoError(t, src.ReadProjection(c.text))
			r, err := src.All(t.Context())
			require.NoError(t, err)
			assert.Equal(t, c.want, r.Reference)
			if c.want.Unit != 0 {
				assert.InDelta(t, 2*float64(c.want.Unit), r.CellX, 1e-12)
				assert.InDelta(t, 101*float64(c.want.Unit), r.Origin[0], 1e-12)
			}
		})
	}
}

func TestProjectionDoesNotOverrideTheFile(t *testing.T) {
	src, err := open(plain().write(), "hill.tif")
	require.NoError(t, err)
	require.NoError(t, src.ReadProjection(`PROJCS["x",GEOGCS["y"],UNIT["foot",0.3048]]`))
	assert.Equal(t, geodata.Metre, src.Info().Unit)
	assert.Equal(t, 27700, src.Info().EPSG)
}

func TestProjectionFaults(t *testing.T) {
	for text, code := range map[string]string{
		"": "projection-not-read", "PROJCS[": "projection-not-read", `PROJCS["a]`: "projection-not-read",
		"+proj=utm +zone=30": "projection-not-read", `SPHEROID["a",1,2]`: "projection-not-read", `PROJCS["a"]]`: "projection-not-read",
		strings.Repeat("A[", 10_000): "projection-not-read",
		`PROJCS["WGS_1984_Web_Mercator_Auxiliary_Sphere",GEOGCS["GCS_WGS_1984"],UNIT["Meter",1.0]]`: "grid-web-mercator",
		`GEOCCS["WGS 84",UNIT["metre",1]]`: "grid-unit",
	} {
		src, err := open([]byte(header+"1 2 3 4 5 6"), "hill.asc")
		require.NoError(t, err)
		var faults geodata.Faults
		require.ErrorAs(t, src.ReadProjection(text), &faults, text)
		assert.Equal(t, []string{code}, codes(faults), text)
	}
}
