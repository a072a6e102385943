package network

import q "duskwire/calc/quantity"

// DeviceKind is the product standard a protective device is made to.
type DeviceKind int

const (
	Breaker     DeviceKind = iota // EN 60898 circuit-breaker
	FuseBS1362                    // plug-top and spur-unit fuse link
	FuseBS88_3                    // household cartridge fuse, system C
	FuseBS3036                    // rewirable fuse
	ResidualRCD                   // EN 61008 residual current device, no overcurrent part
	RCBO                          // EN 61009 both in one
)

// Device is one protective device.
type Device struct {
	Kind      DeviceKind
	Label     string   // "B16 RCBO at the board"
	Curve     string   // "B", "C", "D" for breakers
	Rating    q.Ampere // In
	Breaking  q.Ampere // Icn; 0 unknown
	Residual  q.Ampere // IΔn; 0 without residual part
	Type      string   // residual type "AC", "A", "F", "B"; "" unknown
	Delayed   bool     // type S
	Switching bool     // opens all live conductors: usable for isolation
}

// Overcurrent reports whether the device interrupts overcurrent.
func (d Device) Overcurrent() bool { return d.Kind != ResidualRCD }

// ResidualPart reports whether the device has a residual-current part.
func (d Device) ResidualPart() bool { return d.Residual > 0 }
