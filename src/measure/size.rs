//! Two or three lengths that belong together: `18 x 24`, `18" x 24" x 1 1/2"`.

use std::fmt;

use super::{Kind, Quantity, Real, Unlike};
use crate::diag::Fault;

/// Width and height, and depth if given.
#[derive(Clone, Debug)]
pub struct Size {
    /// Across.
    pub width: Quantity,
    /// From top to bottom.
    pub height: Quantity,
    /// From face to back.
    pub depth: Option<Quantity>,
}

/// The fault of a size.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Sizing {
    /// The volume needs a depth, and only width and height are given.
    Flat,
    /// The sides are of different kinds.
    Unlike(Unlike),
}

impl fmt::Display for Sizing {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Flat => f.write_str("this size has no depth"),
            Self::Unlike(why) => why.fmt(f),
        }
    }
}

impl Fault for Sizing {
    fn code(&self) -> &'static crate::diag::Code {
        &crate::diag::codes::value::SIZE
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }
}

impl From<Unlike> for Sizing {
    fn from(why: Unlike) -> Self {
        Self::Unlike(why)
    }
}

impl Size {
    /// Face area: `width × height`.
    ///
    /// # Errors
    /// The number is too large.
    pub fn area(&self) -> Result<Quantity, Unlike> {
        self.width.multiply(&self.height)
    }

    /// `width × height × depth`.
    ///
    /// # Errors
    /// There is no depth, or the number is too large.
    pub fn volume(&self) -> Result<Quantity, Sizing> {
        let depth = self.depth.as_ref().ok_or(Sizing::Flat)?;
        Ok(self.area()?.multiply(depth)?)
    }

    /// The diagonal of the face: `√(width² + height²)`, exact where the root is.
    ///
    /// # Errors
    /// Width and height are of different kinds, or the number is too large.
    pub fn diagonal(&self) -> Result<Quantity, Unlike> {
        self.width.power(2)?.add(&self.height.power(2)?)?.root()
    }

    /// The volume in board feet, a plain number: `volume / 144 in³`.
    ///
    /// # Errors
    /// The sides are not lengths, there is no depth, or the number is too large.
    pub fn board_feet(&self) -> Result<Quantity, Sizing> {
        let foot = Quantity::new(Real::whole(144), Kind::VOLUME);
        let feet = self.volume()?.divide(&foot)?;
        if feet.kind == Kind::NUMBER {
            Ok(feet)
        } else {
            Err(Unlike::Wants("board_feet", "three lengths", self.width.kind).into())
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn size(width: i64, height: i64, depth: Option<i64>) -> Size {
        let inches = |value| Quantity::inches(Real::whole(value));
        Size { width: inches(width), height: inches(height), depth: depth.map(inches) }
    }

    #[test]
    fn a_size_gives_what_its_sides_give() {
        assert_eq!(size(3, 4, None).diagonal().unwrap().amount.to_text(), "5");
        assert!(size(1, 1, None).diagonal().unwrap().amount.is_approximate());
        assert_eq!(size(3, 4, None).area().unwrap().kind, Kind::AREA);
        assert_eq!(size(3, 4, None).volume().unwrap_err(), Sizing::Flat);
        assert_eq!(size(1, 12, Some(12)).board_feet().unwrap().amount.to_text(), "1");
    }

    #[test]
    fn board_feet_are_of_lengths() {
        let mut plain = size(1, 12, Some(12));
        plain.width = Quantity::number(Real::ONE);
        assert!(plain.board_feet().unwrap_err().to_string().contains("three lengths"));
    }
}
