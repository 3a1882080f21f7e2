package inventory

// Stamped is a requalification stamp read on a cylinder, and the month in
// which it is due by the rule in force then.
type Stamped struct {
	Stamp string `json:"stamp"`
	Shell string `json:"shell,omitempty"` // specification: 3AL
	Due   string `json:"due,omitempty"`   // 2026-06; empty: no test is required
	Rule  string `json:"rule,omitempty"`  // where the rule is from
}

// Says implements Statement.
func (*Stamped) Says() string { return "stamped" }
