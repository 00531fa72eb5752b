package exchange

// mostClashes is how many are listed.
const mostClashes = 20
