package spectrum

// ReadUpTo reads with another limit of rows.
var ReadUpTo = readUpTo
