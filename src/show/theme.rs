//! How each label looks, for dark and for light terminals alike.

use super::text::Label;

/// The look of a label.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Look {
    /// One of the 256 standard colors of terminals, or the terminal's own.
    pub colour: Option<u8>,
    /// Heavier letters.
    pub bold: bool,
    /// A line below the letters.
    pub underlined: bool,
}

const PLAIN: Look = Look { colour: None, bold: false, underlined: false };
const BOLD: Look = Look { bold: true, ..PLAIN };

const fn coloured(colour: u8) -> Look {
    Look { colour: Some(colour), ..PLAIN }
}

const fn bold(colour: u8) -> Look {
    Look { bold: true, ..coloured(colour) }
}

const GREY: u8 = 243;
const RED: u8 = 161;
const BROWN: u8 = 130;
const TEAL: u8 = 30;
const GREEN: u8 = 28;
const VIOLET: u8 = 133;

/// The look of every label. The colors have a middle brightness, so that they are readable on black and on white; what
/// matters is shown by a word or a shape as well.
pub const THEME: &[(Label, Look)] = &[
    (Label::Plain, PLAIN),
    (Label::Heading, Look { underlined: true, ..BOLD }),
    (Label::Name, PLAIN),
    (Label::Value, BOLD),
    (Label::Other, coloured(GREY)),
    (Label::Given, coloured(TEAL)),
    (Label::Dim, coloured(GREY)),
    (Label::Stop, bold(RED)),
    (Label::Warn, bold(BROWN)),
    (Label::Note, bold(TEAL)),
    (Label::Good, bold(GREEN)),
    (Label::Mark, bold(VIOLET)),
    (Label::Error, bold(RED)),
    (Label::Hint, coloured(TEAL)),
];

/// How text of `label` looks.
pub fn look(label: Label) -> Look {
    THEME.iter().find(|row| row.0 == label).map_or(PLAIN, |row| row.1)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Red, green and blue of the fixed part of the 256 colors: a cube of 6 × 6 × 6, then 24 grays.
    fn parts(colour: u8) -> [f64; 3] {
        let step = |n: u8| if n == 0 { 0.0 } else { f64::from(55 + 40 * u16::from(n)) };
        match colour {
            232.. => [f64::from(8 + 10 * (colour - 232)); 3],
            16.. => [(colour - 16) / 36, (colour - 16) / 6 % 6, (colour - 16) % 6].map(step),
            _ => panic!("a color that each terminal has its own idea of"),
        }
    }

    /// Relative luminance, as the Web Content Accessibility Guidelines 2.1 define it (from memory).
    fn luminance(colour: u8) -> f64 {
        let linear = parts(colour).map(|part| {
            let part = part / 255.0;
            if part <= 0.03928 { part / 12.92 } else { ((part + 0.055) / 1.055).powf(2.4) }
        });
        0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
    }

    #[test]
    fn every_colour_is_legible_on_black_and_on_white() {
        for (label, look) in THEME {
            let Some(colour) = look.colour else { continue };
            let light = luminance(colour) + 0.05;
            // The guidelines ask 4.5 of small text and 3 of bold; 4.58 on both is the most that there can be.
            assert!(light / 0.05 > 4.0 && 1.05 / light > 4.0, "{label:?}: {:.2} {:.2}", light / 0.05, 1.05 / light);
        }
    }

    #[test]
    fn every_label_has_one_look_and_what_matters_a_word() {
        for label in Label::ALL {
            assert_eq!(THEME.iter().filter(|row| row.0 == *label).count(), 1, "{label:?}");
        }
        for label in [Label::Stop, Label::Warn, Label::Note, Label::Error, Label::Hint] {
            assert!(label.word().is_some());
        }
    }
}
