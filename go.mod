module ratchetmark

go 1.26.8

require (
	github.com/andybalholm/brotli v1.2.8
	github.com/syumai/workers v0.32.0
	github.com/vugu/vjson v0.0.0-20200505061711-f9cbed27d3d9
	github.com/vugu/vugu v0.4.0
	golang.org/x/net v0.47.0
	golang.org/x/text v0.31.0
	gonum.org/v1/gonum v0.17.0
)

require (
	github.com/vugu/html v0.0.0-20190914200101-c62dc20b8289 // indirect
	github.com/vugu/xxhash v0.0.0-20191111030615-ed24d0179019 // indirect
)

tool (
	github.com/syumai/workers/cmd/workers-assets-gen
	github.com/vugu/vugu/cmd/vugugen
)
