package light

import "math"

// Vec is a point or direction in metres.
type Vec struct{ X, Y, Z float64 }

// Add returns a+b.
func (a Vec) Add(b Vec) Vec { return Vec{a.X + b.X, a.Y + b.Y, a.Z + b.Z} }

// Sub returns a-b.
func (a Vec) Sub(b Vec) Vec { return Vec{a.X - b.X, a.Y - b.Y, a.Z - b.Z} }

// Mul returns k·a.
func (a Vec) Mul(k float64) Vec { return Vec{k * a.X, k * a.Y, k * a.Z} }

// Dot returns the scalar product.
func (a Vec) Dot(b Vec) float64 { return a.X*b.X + a.Y*b.Y + a.Z*b.Z }

// Len returns the length.
func (a Vec) Len() float64 { return math.Sqrt(a.Dot(a)) }

// Unit returns a/|a|, the zero vector for the zero vector.
func (a Vec) Unit() Vec {
	if d := a.Len(); d > 0 {
		return a.Mul(1 / d)
	}
	return Vec{}
}

// Up is the normal of a horizontal plane seen from above.
var Up = Vec{0, 0, 1}

// rotation is an orthonormal matrix as its three columns: where the axes of
// the lamp frame point in the world.
type rotation struct{ x, y, z Vec }

// to returns the world direction of a lamp-frame direction.
func (r *rotation) to(e Vec) Vec {
	return r.x.Mul(e.X).Add(r.y.Mul(e.Y)).Add(r.z.Mul(e.Z))
}

// from returns the lamp-frame direction of a world direction.
func (r *rotation) from(u Vec) Vec { return Vec{r.x.Dot(u), r.y.Dot(u), r.z.Dot(u)} }
