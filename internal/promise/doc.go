// Package promise waits for what a browser promises. It exists only in a
// browser (js and wasm).
package promise
