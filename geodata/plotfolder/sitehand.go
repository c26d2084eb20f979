package plotfolder

import "crossfall/geodata"

// textures are the classes of the texture triangle of the United States
// Department of Agriculture.
var textures = []string{
	"sand", "loamy sand", "sandy loam", "loam", "silt loam", "silt",
	"sandy clay loam", "clay loam", "silty clay loam", "sandy clay", "silty clay", "clay",
}

// checkHandTests tells of a hand test, an analysis or a test pit of which a part is
// missing.
func (d *siteText) checkHandTests(g geodata.GroundWords, c *collector) {
	if g.Texture == "" && g.Feel == "" && (g.Ribbon == "under 25 mm" || g.Ribbon == "25 to 50 mm" || g.Ribbon == "over 50 mm") {
		pos, read := d.find("ground.ribbon", 0)
		c.problem(pos, "site-hand-test-half", read, "the ribbon is told, and not how the soil feels", `write feel = "gritty", "smooth" or "neither" under [ground]`)
	}
	if g.Texture == "" && g.Feel != "" && g.Ribbon == "" {
		pos, read := d.find("ground.feel", 0)
		c.problem(pos, "site-hand-test-half", read, "the feel is told, and not how long a ribbon the soil makes", `write ribbon = "under 25 mm", "25 to 50 mm" or "over 50 mm" under [ground]`)
	}
	if a := g.Analysis; a != nil && (a.Sand == nil || a.Silt == nil || a.Clay == nil || a.Organic == nil) {
		pos, read := d.find("ground.analysis", 0)
		c.problem(pos, "site-analysis-half", read, "a figure of the soil analysis is missing", "write sand_percent, silt_percent, clay_percent and organic_percent")
	}
	if p := g.TestPit; p != nil {
		pos, read := d.find("ground.test_pit", 0)
		switch {
		case p.Length == nil || p.Width == nil || p.From == nil || p.To == nil || p.Minutes == nil:
			c.problem(pos, "site-test-pit-half", read, "a figure of the test pit is missing", "write length_m, width_m, from_m, to_m and minutes")
		case *p.From <= *p.To:
			c.problem(pos, "site-test-pit-half", read, "the water of the test pit does not fall", "write from_m, the depth of water at three quarters, over to_m, that at a quarter")
		}
	}
}
