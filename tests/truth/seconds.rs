//! Second methods: the same figures by another road, from the fields as they are typed. Nothing here comes from the program.

use crate::arithmetic::printed;
use num_traits::ToPrimitive;

/// The fields of a design as they are typed.
pub struct Fields<'t>(&'t [(&'t str, &'t str)]);

impl<'t> Fields<'t> {
    /// Those of a row.
    pub fn new(fields: &'t [(&'t str, &'t str)]) -> Self {
        Self(fields)
    }

    /// The text of a field.
    pub fn text(&self, name: &str) -> Option<&'t str> {
        self.0.iter().rev().find(|(one, _)| *one == name).map(|(_, text)| *text)
    }

    /// A number of a field; where the design does not set it, `usual`.
    pub fn number(&self, name: &str, usual: f64) -> f64 {
        self.text(name).map_or(usual, number)
    }

    /// The numbers of a size: `16 x 20 x 3/4`.
    pub fn size(&self, name: &str) -> Vec<f64> {
        self.text(name).map(|text| text.split(" x ").map(number).collect()).unwrap_or_default()
    }
}

fn number(text: &str) -> f64 {
    printed(text).and_then(|exact| exact.to_f64()).unwrap_or_else(|| panic!("{text} is no number"))
}

/// A second method: from the fields and the name of the figure.
pub type Method = fn(&Fields, &str) -> f64;

/// Every second method by its name.
pub const METHODS: &[(&str, Method)] = &[("rings", rings)];

/// Girth and area of a rectangular ring or sheet by corners: the shoelace sum over its points.
fn rings(fields: &Fields, figure: &str) -> f64 {
    let art = fields.size("art");
    let (width, height) = (art[0], art[1]);
    let corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)];
    let next = corners.iter().cycle().skip(1);
    let pairs = corners.iter().zip(next);
    match figure {
        "work.area" => pairs.map(|(a, b)| (a.0 * b.1 - b.0 * a.1) / 2.0).sum::<f64>().abs(),
        "work.girth" => pairs.map(|(a, b)| f64::hypot(b.0 - a.0, b.1 - a.1)).sum(),
        _ => panic!("rings know nothing of {figure}"),
    }
}
