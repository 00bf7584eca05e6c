//! Pieces, cautions and lines of labels as the book has them, names looked up.

use std::sync::Arc;

use serde::{Deserialize, Serialize};

use super::node::{Node, Slot, Type};
use super::term::Pieces;

/// How a piece comes of the figures of a design.
#[derive(Debug, Serialize, Deserialize)]
pub struct PieceRule {
    /// As a cut list has it: `rail top, bottom`.
    pub name: String,
    /// What it is, in one line.
    pub doc: String,
    /// The builds that have it, by place in [`super::Book::builds`].
    pub builds: Vec<u8>,
    /// When the frame has it.
    pub when: Option<Node>,
    /// How many a frame has; one where nothing is said.
    pub count: Option<Node>,
    /// The word of what it is made of.
    pub material: Node,
    /// Of a stick its width as it lies in the frame; of a sheet its width.
    pub width: Node,
    /// Through it.
    pub thickness: Node,
    /// What it is cut from.
    pub cut: CutRule,
}

/// What a piece is cut from, with the details that only such a piece has.
#[derive(Debug, Serialize, Deserialize)]
pub enum CutRule {
    /// A stick.
    Stick {
        /// Between the long points.
        long: Node,
        /// Between the short points; as long as `long` where nothing is said.
        short: Option<Node>,
        /// Turn of the saw from square.
        mitre: Option<Node>,
        /// Lean of the blade from upright.
        tilt: Option<Node>,
        /// The face that is seen.
        shows: Option<Node>,
        /// Its molding: one that is `reversible` may be turned end for end.
        profile: Option<Node>,
    },
    /// A sheet.
    Sheet {
        /// Up and down.
        height: Node,
    },
}

/// A caution, the pages that show it, and when it applies.
#[derive(Debug, Serialize, Deserialize)]
pub struct CautionRule {
    /// Its name.
    pub name: String,
    /// The builds it is for, by place in [`super::Book::builds`].
    pub builds: Vec<u8>,
    /// The pages that show its short line.
    pub pages: Vec<String>,
    /// The pieces it is about, if it is about any.
    pub about: Option<About>,
    /// A condition of the design.
    pub when: Option<Node>,
    /// The short line: the hazard and what to do.
    pub says: Vec<Words>,
    /// The whole text.
    pub full: Vec<Words>,
    /// Where it is from.
    pub source: String,
}

/// Pieces that a caution is about.
#[derive(Debug, Serialize, Deserialize)]
pub struct About {
    /// Sticks, sheets, or both.
    pub shape: Pieces,
    /// Which materials.
    pub of: Option<Materials>,
    /// Fields whose material counts too.
    pub or: Vec<Slot>,
    /// Only sticks shorter than this between their short points.
    pub under: Option<Node>,
}

/// Materials that a caution is about.
#[derive(Debug, Serialize, Deserialize)]
pub enum Materials {
    /// This one.
    Word(Arc<str>),
    /// Every word of a table, by its place.
    Table(u16),
    /// Every word whose row has something in the column: table and column by place.
    Column(Vec<(u16, u16)>),
}

/// A piece of a caution's text.
#[derive(Debug, Serialize, Deserialize)]
pub enum Words {
    /// As it stands.
    Plain(String),
    /// The value of an expression.
    Value(Node, Type),
    /// The material of the piece that it is about.
    Material,
    /// What its column has for that material.
    Cell,
}

/// A line of a label or a list: a word and the names whose values follow, with `x` between them.
#[derive(Debug, Serialize, Deserialize)]
pub struct LabelRule {
    /// The word.
    pub word: String,
    /// Where the line is shown.
    pub pages: Vec<String>,
    /// The names.
    pub names: Vec<Slot>,
}
