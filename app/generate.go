package app

//go:generate go tool vugugen -skip-go-mod -skip-main .
