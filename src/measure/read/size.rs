//! Two or three lengths that belong together: `18 x 24`, `18" x 24" x 1 1/2"`.

use super::extent::{Extent, Mark};
use super::misread::Misread;
use crate::diag::{Span, list};
use crate::measure::{Kind, Quantity, Unit};

pub use crate::measure::Size;

impl Size {
    /// The extents in the order written.
    pub fn extents(&self) -> impl Iterator<Item = &Quantity> {
        [&self.width, &self.height].into_iter().chain(self.depth.as_ref())
    }

    /// The size of extents that were read with `bare` as the unit of a number without one.
    pub(super) fn of(extents: &[Extent], bare: Option<&Unit>, span: Span) -> Result<Self, Misread> {
        for extent in extents {
            fits(extent)?;
        }
        same_units(extents, bare, &span)?;
        match extents {
            [width, height] => Ok(Self::sides(width, height, None)),
            [width, height, depth] => Ok(Self::sides(width, height, Some(depth))),
            _ => Err(Misread::new(span, format!("a size has two or three values, not {}", extents.len()))),
        }
    }

    fn sides(width: &Extent, height: &Extent, depth: Option<&Extent>) -> Self {
        let depth = depth.map(|depth| depth.quantity.clone());
        Self { width: width.quantity.clone(), height: height.quantity.clone(), depth }
    }
}

/// A side is a length, or a number if there is no unit.
fn fits(extent: &Extent) -> Result<(), Misread> {
    let kind = extent.quantity.kind;
    match extent.mark {
        Mark::Percent => Err(Misread::new(extent.span.clone(), format!("a size takes lengths, not {}", extent.text))),
        Mark::Bare => Ok(()),
        Mark::Unit(..) if kind == Kind::LENGTH => Ok(()),
        Mark::Unit(..) => {
            let what = kind.with_article();
            Err(Misread::new(extent.span.clone(), format!("a size takes lengths, and {} is {what}", extent.text)))
        }
    }
}

/// `450 x 600mm` on an inch bench may be 450 in or 450 mm wide, so it is refused with both readings.
fn same_units(extents: &[Extent], bare: Option<&Unit>, span: &Span) -> Result<(), Misread> {
    let written = extents.iter().find_map(|extent| match extent.mark {
        Mark::Unit(unit, name) if bare.is_none_or(|bare| bare.names != unit.names) => Some(name),
        Mark::Bare | Mark::Percent | Mark::Unit(..) => None,
    });
    let Some(bare_extent) = extents.iter().find(|extent| matches!(extent.mark, Mark::Bare)) else {
        return Ok(());
    };
    let Some(name) = written else {
        return Ok(());
    };
    let readings: Vec<&str> = std::iter::once(name).chain(bare.and_then(|unit| unit.names.first().copied())).collect();
    let message = if bare.is_some() {
        format!("{} can be read two ways here: in {}", bare_extent.text, list(&readings, "or in"))
    } else {
        format!("{} has no unit, and another side of the size has one", bare_extent.text)
    };
    let whole =
        readings.iter().fold(Misread::new(span.clone(), message), |misread, name| misread.or(spelled(extents, name)));
    Err(whole)
}

/// The size with `name` after every number without a unit.
fn spelled(extents: &[Extent], name: &str) -> String {
    let sides: Vec<String> = extents
        .iter()
        .map(|extent| match extent.mark {
            Mark::Bare => format!("{}{name}", extent.text),
            Mark::Percent | Mark::Unit(..) => extent.text.to_string(),
        })
        .collect();
    sides.join(" x ")
}
