//! Points and directions of the plane.

use std::ops::{Add, Mul, Sub};

/// A point, or the way from one to another: x to the right, y down, in inches.
///
/// As a direction it is a unit vector; turning goes clockwise as seen, since y goes down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Down.
    pub y: f64,
}

impl Point {
    /// Where x and y are zero.
    pub const ORIGIN: Self = Self::new(0.0, 0.0);

    /// The point at x and y.
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// The direction at an angle from the x axis, clockwise as seen.
    pub fn direction(angle: f64) -> Self {
        Self::new(angle.cos(), angle.sin())
    }

    /// The distance from the origin.
    pub fn length(self) -> f64 {
        self.x.hypot(self.y)
    }

    /// The distance from another point.
    pub fn distance(self, other: Self) -> f64 {
        (other - self).length()
    }

    /// The point halfway to another.
    pub fn middle(self, other: Self) -> Self {
        (self + other) * 0.5
    }

    /// The distance along `direction`.
    pub fn along(self, direction: Self) -> f64 {
        self.x * direction.x + self.y * direction.y
    }

    /// The area of the parallelogram over two vectors: above zero where `other` lies clockwise of this one.
    pub fn cross(self, other: Self) -> f64 {
        self.x * other.y - self.y * other.x
    }

    /// Turned around the origin as far as `direction` is turned from the x axis.
    pub fn turned(self, direction: Self) -> Self {
        Self::new(self.x * direction.x - self.y * direction.y, self.x * direction.y + self.y * direction.x)
    }

    /// The opposite turn.
    pub fn turned_back(self, direction: Self) -> Self {
        self.turned(Self::new(direction.x, -direction.y))
    }

    /// The direction from the origin; the x axis for the origin itself.
    pub fn heading(self) -> Self {
        let length = self.length();
        if length > 0.0 { Self::new(self.x / length, self.y / length) } else { Self::new(1.0, 0.0) }
    }
}

impl Add for Point {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self::new(self.x + other.x, self.y + other.y)
    }
}

impl Sub for Point {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        Self::new(self.x - other.x, self.y - other.y)
    }
}

impl Mul<f64> for Point {
    type Output = Self;

    fn mul(self, factor: f64) -> Self {
        Self::new(self.x * factor, self.y * factor)
    }
}
