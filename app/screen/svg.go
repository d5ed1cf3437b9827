package screen

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// svg puts a picture of core/draw on the page. It is the only place where
// markup enters as text: core/draw escapes every text it is given, and a
// picture of many hundred elements costs one comparison instead of a tree.
func svg(markup string) app.UI { return app.Raw(markup) }
