package plotfolder_test

import (
	"fmt"
	"os"
	"path/filepath"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"

	"github.com/paulmach/orb"
)

func ExampleBookHeight() {
	dir, _ := os.MkdirTemp("", "plot")
	defer os.RemoveAll(dir)
	reading := plotfolder.NewReading{Name: "r1", X: 3.5, Y: 2, Z: 29.31, Note: "by the gate"}
	for range 2 { // the phone had no answer and sends it again
		again, err := plotfolder.BookHeight(dir, "phone-0001", geodata.Site{}, reading)
		fmt.Println(again, err)
	}
	text, _ := os.ReadFile(filepath.Join(dir, "heights.csv"))
	fmt.Print(string(text))
	// Output:
	// false <nil>
	// true <nil>
	// name,x (m),y (m),z (m),note
	// r1,3.5,2,29.31,by the gate
}

func ExampleEditSite() {
	dir, _ := os.MkdirTemp("", "plot")
	defer os.RemoveAll(dir)
	path := filepath.Join(dir, "site.toml")
	_ = os.WriteFile(path, []byte("# wishes\n[beds]\n# count = 4   # as many as we can dig\nwidth_m = 1.20\n"), 0o600)
	seen, _ := plotfolder.Fingerprint(dir)
	err := plotfolder.EditSite(dir, seen, []plotfolder.Setting{{Key: "beds.count", Value: 6}})
	fmt.Println(err)
	text, _ := os.ReadFile(path)
	fmt.Print(string(text))
	// Output:
	// <nil>
	// # wishes
	// [beds]
	// count = 6   # as many as we can dig
	// width_m = 1.20
}

func ExampleEditFeatures() {
	dir, _ := os.MkdirTemp("", "plot")
	defer os.RemoveAll(dir)
	path := filepath.Join(dir, "features.csv")
	_ = os.WriteFile(path, []byte("kind,name,x (ft),y (ft)\nmark,gate post,0,0   \n"), 0o600)
	seen, _ := plotfolder.Fingerprint(dir)
	err := plotfolder.EditFeatures(dir, seen, []plotfolder.FeatureEdit{{
		Kind: geodata.TreeKind, Name: "apple",
		Put: &geodata.Fixture{Shape: orb.Point{3.048, 6.096}, TopHeight: 3.5},
	}})
	fmt.Println(err)
	text, _ := os.ReadFile(path)
	fmt.Print(string(text))
	// Output:
	// <nil>
	// kind,name,x (ft),y (ft),height_m
	// mark,gate post,0,0,
	// tree,apple,10,20,3.5
}
