package widgets

// Used is called on every key that reaches an input or a list: somebody is
// there. It is the window's to set.
var Used = func() {}
