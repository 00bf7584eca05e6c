//! What is answered of a plan, of all that is cut in it, and of the stock.

use super::boards::{Block, Board, Cut};
use super::buy::{Purchase, purchases};
use super::job::{Cutting, Left, Piece, Stick};
use super::material::Material;
use super::price::Pricing;
use super::rack::{Item, WHATS};
use super::sheets::Sheeting;
use super::whole::Whole;
use super::why::because;
use super::work::WantedSheet;
use crate::cut::sheet::Placed;
use crate::fact::{Datum, Fact, Field, Kind, Level, field};
use crate::measure::Real;

/// An amount of cost.
fn cost<'a>(pricing: Pricing, amount: u64) -> Datum<'a> {
    Datum::Cost { amount, money: pricing.is_money() }
}

/// A price in cents, where there is one.
fn price<'a>(cents: Option<u64>) -> Datum<'a> {
    Datum::maybe(cents, |amount| Datum::Cost { amount, money: true })
}

const fn each(kind: &'static Kind) -> Kind {
    Kind::Each(kind)
}

/// A plan with the seconds that it took.
impl Fact for Whole {
    type Of<'a> = (&'a Self, f64);
    const NAME: &'static str = "plan";
    const DOC: &'static str = "A cutting plan.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>(
            "cost",
            Kind::Cost,
            "what the stock costs, or how many pieces of it where nothing has a price",
            |(whole, _), _| cost(whole.sticks.order.pricing, whole.cost().0),
        )
        .at(Level::Key),
        field::<Self>("bound", Kind::Cost, "no plan that yields these parts costs less", |(whole, _), _| {
            cost(whole.sticks.order.pricing, whole.cost().1)
        }),
        field::<Self>("proven", Kind::Truth, "whether the cost is the bound", |(whole, _), _| {
            let (cost, bound) = whole.cost();
            Datum::Truth(cost == bound)
        }),
        field::<Self>(
            "proofs",
            each(&Kind::One(Proof::SHAPE)),
            "the same for sticks, boards and sheets",
            |(whole, _), _| proofs(whole),
        ),
        field::<Self>(
            "stock_recorded",
            Kind::Truth,
            "whether the shop has recorded its stock, or the usual sticks are assumed",
            |(whole, _), _| Datum::Truth(whole.is_said),
        )
        .formerly(&["stock_said"]),
        field::<Self>("seconds", Kind::Seconds, "how long the search took", |(_, seconds), _| {
            Datum::Seconds((seconds * 1000.0).round() / 1000.0)
        }),
        field::<Self>(
            "buy",
            each(&Kind::One(Purchase::SHAPE)),
            "what is taken from the rack or bought",
            |(whole, _), _| Datum::Each(Box::new(purchases(whole).into_iter().map(Datum::fact::<Purchase>))),
        ),
        field::<Self>(
            "sticks",
            each(&Kind::One(Stick::SHAPE)),
            "the sticks, in the order of cutting",
            |(whole, _), _| sticks(&whole.sticks),
        ),
        field::<Self>(
            "boards",
            each(&Kind::One(Board::SHAPE)),
            "the boards that parts are ripped from",
            |(whole, _), _| {
                let whole = *whole;
                Datum::facts::<Board>(whole.boards.boards.iter().enumerate().map(move |(at, board)| (whole, at, board)))
            },
        ),
        field::<Self>(
            "sheets",
            each(&Kind::One(Layout::SHAPE)),
            "the sheets that pieces are cut from",
            |(whole, _), _| {
                let whole = *whole;
                let of_one = move |one: &'_ Sheeting| 0..one.plan.layouts.len();
                let all = whole.sheeting.iter().flat_map(move |one| of_one(one).map(move |at| (whole, one, at)));
                Datum::facts::<Layout>(all.enumerate())
            },
        ),
        field::<Self>(
            "sheets_to_get",
            each(&Kind::One(WantedSheet::SHAPE)),
            "pieces of sheets that the shop has none of",
            |(whole, _), _| Datum::facts::<WantedSheet>(whole.sheets_to_get()),
        ),
        field::<Self>(
            "unplanned",
            each(&Kind::One(Unplanned::SHAPE)),
            "parts that no stock yields",
            |(whole, _), _| unplanned(whole),
        ),
    ];
}

/// What is proven of the sticks, the boards, and the sheets of each material of a plan.
fn proofs(whole: &Whole) -> Datum<'_> {
    let Whole { sticks, boards, .. } = whole;
    let of_sticks = (!sticks.sticks.is_empty()).then(|| Proof {
        of: "sticks".into(),
        pricing: sticks.order.pricing,
        cost: sticks.cost,
        bound: sticks.bound,
    });
    let of_boards = (!boards.boards.is_empty()).then(|| Proof {
        of: "boards".into(),
        pricing: boards.pricing,
        cost: boards.cost,
        bound: boards.bound,
    });
    let of_sheets = whole.sheeting.iter().map(|one| {
        let material = one.rows.first().map_or_else(String::new, |row| whole.sheets[*row].material.words());
        let of = format!("sheets of {material}");
        Proof { of, pricing: one.pricing, cost: one.plan.cost, bound: one.plan.bound }
    });
    Datum::facts::<Proof>(of_sticks.into_iter().chain(of_boards).chain(of_sheets))
}

/// What is proven of a part of a plan.
pub struct Proof {
    of: String,
    pricing: Pricing,
    cost: u64,
    bound: u64,
}

impl Fact for Proof {
    type Of<'a> = Self;
    const NAME: &'static str = "proof";
    const DOC: &'static str = "What is proven of the sticks, boards or sheets of a plan.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("of", Kind::Text, "what it is about", |proof, _| Datum::text(proof.of.clone())).at(Level::Key),
        field::<Self>("cost", Kind::Cost, "what they cost", |proof, _| cost(proof.pricing, proof.cost)),
        field::<Self>("bound", Kind::Cost, "no plan for the same parts costs less", |proof, _| {
            cost(proof.pricing, proof.bound)
        }),
        field::<Self>("proven", Kind::Truth, "whether the cost is the bound", |proof, _| {
            Datum::Truth(proof.cost == proof.bound)
        }),
    ];
}

/// The sticks of a plan, numbered.
pub fn sticks(cutting: &Cutting) -> Datum<'_> {
    Datum::facts::<Stick>(cutting.sticks.iter().enumerate().map(move |(at, stick)| (cutting, at, stick)))
}

impl Fact for Purchase {
    type Of<'a> = Self;
    const NAME: &'static str = "purchase";
    const DOC: &'static str = "Pieces of one kind that a plan takes from the rack or that have to be bought.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>(
            "what",
            Kind::Word(&["stick", "offcut", "board", "sheet", "part", "piece"]),
            "what it is",
            |one, _| Datum::text(one.what),
        )
        .at(Level::Key),
        field::<Self>("count", Kind::Count, "how many", |one, _| Datum::Count(one.count)).at(Level::Key),
        field::<Self>("length", Kind::LENGTH, "length of each", |one, _| Datum::inches(&one.length)).at(Level::Key),
        field::<Self>("width", Kind::LENGTH, "width of each", |one, _| Datum::maybe(one.width.as_ref(), Datum::inches))
            .optional(),
        field::<Self>("of", Kind::Text, "wood and section in words", |one, _| of(&one.material)).optional(),
        field::<Self>("wood", Kind::Text, "wood or other material", |one, _| wood(&one.material))
            .optional()
            .at(Level::Detail),
        field::<Self>("section", Kind::Text, "section of a stick, thickness of a board or sheet", |one, _| {
            section(&one.material)
        })
        .optional()
        .at(Level::Detail),
        field::<Self>("each", Kind::Cost, "what one costs", |one, _| price(one.each)).optional(),
        field::<Self>("sum", Kind::Cost, "what all of them cost", |one, _| {
            price(one.each.map(|each| each * one.count))
        })
        .optional(),
    ];
}

/// The width of a board or a sheet, each of which has one.
fn across<'a>(item: &Item) -> Datum<'a> {
    Datum::inches(item.width.as_ref().unwrap_or(&Real::ZERO))
}

/// Wood and section in words.
fn of<'a>(material: &Material) -> Datum<'a> {
    some_text(&material.words())
}

fn wood<'a>(material: &Material) -> Datum<'a> {
    some_text(&material.wood)
}

fn section<'a>(material: &Material) -> Datum<'a> {
    some_text(&material.section)
}

/// A text, or nothing where it is empty.
fn some_text<'a>(text: &str) -> Datum<'a> {
    if text.is_empty() { Datum::Nothing } else { Datum::text(text.to_string()) }
}

/// What a stick is of, known by what is cut from it where the stock does not say.
fn of_stick(cutting: &Cutting, stick: &Stick) -> Material {
    let held = &cutting.order.stock[stick.stock].material;
    let own = stick.pieces.first().map_or(held, |piece| &cutting.order.parts[piece.part].material);
    let known = |held: &String, own: &String| if held.is_empty() { own.clone() } else { held.clone() };
    Material { wood: known(&held.wood, &own.wood), section: known(&held.section, &own.section) }
}

impl Fact for Stick {
    type Of<'a> = (&'a Cutting, usize, &'a Self);
    const NAME: &'static str = "stick";
    const DOC: &'static str = "A stick of a plan and what is cut from it.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("stick", Kind::Count, "number of the stick", |(_, at, _), _| Datum::count(at + 1)).at(Level::Key),
        field::<Self>("length", Kind::LENGTH, "length of the stick", |(cutting, _, stick), _| {
            Datum::inches(&cutting.order.stock[stick.stock].length)
        })
        .at(Level::Key),
        field::<Self>("of", Kind::Text, "wood and section in words", |(cutting, _, stick), _| {
            of(&of_stick(cutting, stick))
        })
        .optional(),
        field::<Self>("wood", Kind::Text, "wood of the stick", |(cutting, _, stick), _| {
            wood(&of_stick(cutting, stick))
        })
        .optional()
        .at(Level::Detail),
        field::<Self>("section", Kind::Text, "section of the stick", |(cutting, _, stick), _| {
            section(&of_stick(cutting, stick))
        })
        .optional()
        .at(Level::Detail),
        field::<Self>("cost", Kind::Cost, "what the stick costs", |(cutting, _, stick), _| {
            cost(cutting.order.pricing, cutting.cost_of(stick.stock))
        }),
        field::<Self>(
            "parts",
            each(&Kind::One(Piece::SHAPE)),
            "what is cut from it, in order",
            |(cutting, _, stick), _| {
                let (cutting, stick) = (*cutting, *stick);
                Datum::facts::<Piece>(stick.pieces.iter().enumerate().map(move |(at, piece)| (cutting, at, piece)))
            },
        ),
        field::<Self>("offcut", Kind::LENGTH, "what is left and worth keeping, or 0", |(_, _, stick), _| {
            Datum::inches(&stick.offcut)
        }),
        field::<Self>("waste", Kind::LENGTH, "what is neither part nor offcut", |(_, _, stick), _| {
            Datum::inches(&stick.waste)
        }),
    ];
}

impl Fact for Piece {
    type Of<'a> = (&'a Cutting, usize, &'a Self);
    const NAME: &'static str = "cut";
    const DOC: &'static str = "A part in a stick.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("cut", Kind::Count, "number of the part in its stick", |(_, at, _), _| Datum::count(at + 1)),
        field::<Self>("name", Kind::Text, "name of the part", |(cutting, _, piece), _| {
            Datum::text(cutting.order.parts[piece.part].name.as_str())
        })
        .at(Level::Key),
        field::<Self>(
            "length",
            Kind::LENGTH,
            "length of the part between the long points",
            |(cutting, _, piece), _| Datum::inches(&cutting.order.parts[piece.part].length),
        )
        .at(Level::Key),
        field::<Self>("from", Kind::LENGTH, "where the part begins, from the end of the stick", |(_, _, piece), _| {
            Datum::inches(&piece.from)
        }),
    ];
}

impl Fact for Board {
    type Of<'a> = (&'a Whole, usize, &'a Self);
    const NAME: &'static str = "board";
    const DOC: &'static str = "A board of a plan and how it is ripped and crosscut.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("board", Kind::Count, "number of the board", |(_, at, _), _| Datum::count(at + 1)).at(Level::Key),
        field::<Self>("length", Kind::LENGTH, "length of the board", |(whole, _, board), _| {
            Datum::inches(&whole.rack.items[board.item].length)
        })
        .at(Level::Key),
        field::<Self>("width", Kind::LENGTH, "width of the board", |(whole, _, board), _| {
            across(&whole.rack.items[board.item])
        }),
        field::<Self>("of", Kind::Text, "wood and section in words", |(whole, _, board), _| {
            of(&whole.rack.items[board.item].material)
        }),
        field::<Self>("wood", Kind::Text, "wood of the board", |(whole, _, board), _| {
            wood(&whole.rack.items[board.item].material)
        })
        .optional()
        .at(Level::Detail),
        field::<Self>("section", Kind::Text, "thickness of the board in quarters", |(whole, _, board), _| {
            section(&whole.rack.items[board.item].material)
        })
        .at(Level::Detail),
        field::<Self>("block", Kind::One(Block::SHAPE), "the board between its trims", |(whole, _, board), _| {
            Datum::fact::<Block>((*whole, &board.block))
        }),
    ];
}

/// The blocks that a block is cut into.
fn blocks<'a>(whole: &'a Whole, blocks: &'a [Block]) -> Datum<'a> {
    Datum::facts::<Block>(blocks.iter().map(move |block| (whole, block)))
}

impl Fact for Block {
    type Of<'a> = (&'a Whole, &'a Self);
    const NAME: &'static str = "block";
    const DOC: &'static str =
        "A rectangle of a board and what becomes of it: one of part, offcut, rest, ripped, crosscut.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("length", Kind::LENGTH, "length along the grain", |(_, block), _| Datum::inches(&block.length)),
        field::<Self>("width", Kind::LENGTH, "width across the grain", |(_, block), _| Datum::inches(&block.width)),
        field::<Self>("part", Kind::Text, "name of the part that it is the blank of", |(whole, block), _| match block
            .cut
        {
            Cut::Part(part) => Datum::text(whole.boards.parts[part].name.as_str()),
            Cut::Rest | Cut::Offcut(..) | Cut::Ripped(_) | Cut::Crosscut(_) => Datum::Nothing,
        })
        .optional(),
        field::<Self>("offcut", Kind::LENGTH, "length of the offcut that it becomes once milled", |(_, block), _| {
            match &block.cut {
                Cut::Offcut(_, milled) => Datum::inches(milled),
                Cut::Rest | Cut::Part(_) | Cut::Ripped(_) | Cut::Crosscut(_) => Datum::Nothing,
            }
        })
        .optional(),
        field::<Self>("rest", Kind::Truth, "whether it is left over", |(_, block), _| match block.cut {
            Cut::Rest => Datum::Truth(true),
            Cut::Part(_) | Cut::Offcut(..) | Cut::Ripped(_) | Cut::Crosscut(_) => Datum::Nothing,
        })
        .optional(),
        field::<Self>("ripped", each(&Kind::One(Self::SHAPE)), "blocks that it is ripped into", |(whole, block), _| {
            match &block.cut {
                Cut::Ripped(inner) => blocks(whole, inner),
                Cut::Rest | Cut::Part(_) | Cut::Offcut(..) | Cut::Crosscut(_) => Datum::Nothing,
            }
        })
        .optional(),
        field::<Self>(
            "crosscut",
            each(&Kind::One(Self::SHAPE)),
            "blocks that it is crosscut into",
            |(whole, block), _| match &block.cut {
                Cut::Crosscut(inner) => blocks(whole, inner),
                Cut::Rest | Cut::Part(_) | Cut::Offcut(..) | Cut::Ripped(_) => Datum::Nothing,
            },
        )
        .optional(),
    ];
}

/// A sheet of a plan and what is cut from it.
pub struct Layout;

/// The row of the rack that a sheet comes from.
fn item<'a>((whole, one, at): &(&'a Whole, &'a Sheeting, usize)) -> &'a Item {
    &whole.rack.items[one.items[one.plan.layouts[*at].sheet]]
}

impl Fact for Layout {
    type Of<'a> = (usize, (&'a Whole, &'a Sheeting, usize));
    const NAME: &'static str = "layout";
    const DOC: &'static str = "A sheet of a plan and what is cut from it.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("sheet", Kind::Count, "number of the sheet", |(at, _), _| Datum::count(at + 1)).at(Level::Key),
        field::<Self>("length", Kind::LENGTH, "length of the sheet", |(_, of), _| Datum::inches(&item(of).length))
            .at(Level::Key),
        field::<Self>("width", Kind::LENGTH, "width of the sheet", |(_, of), _| across(item(of))),
        field::<Self>("of", Kind::Text, "wood and section in words", |(_, sheet), _| of(&item(sheet).material)),
        field::<Self>("wood", Kind::Text, "material of the sheet", |(_, of), _| wood(&item(of).material))
            .at(Level::Detail),
        field::<Self>("section", Kind::Text, "thickness of the sheet", |(_, of), _| section(&item(of).material))
            .optional()
            .at(Level::Detail),
        field::<Self>(
            "parts",
            each(&Kind::One(PlacedPiece::SHAPE)),
            "the pieces on the sheet",
            |(_, (whole, one, at)), _| {
                let (whole, one) = (*whole, *one);
                let placed = one.placed(*at, &whole.sticks.saw).into_iter();
                let pieces = placed.filter_map(move |(placed, corner)| {
                    let (row, _) = placed.piece?;
                    Some((&whole.sheets[one.rows[row]], placed, corner))
                });
                Datum::facts::<PlacedPiece>(pieces)
            },
        ),
    ];
}

/// A piece in its place on a sheet.
pub struct PlacedPiece;

impl Fact for PlacedPiece {
    type Of<'a> = (&'a WantedSheet, Placed, [Real; 2]);
    const NAME: &'static str = "placed";
    const DOC: &'static str = "A piece in its place on a sheet.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("name", Kind::Text, "name of the piece", |(piece, ..), _| Datum::text(piece.name.as_str()))
            .at(Level::Key),
        field::<Self>("width", Kind::LENGTH, "width of the piece", |(piece, ..), _| Datum::inches(&piece.width)),
        field::<Self>("height", Kind::LENGTH, "height of the piece", |(piece, ..), _| Datum::inches(&piece.height)),
        field::<Self>("turned", Kind::Truth, "whether it lies on its side", |(_, placed, _), _| {
            Datum::Truth(placed.piece.is_some_and(|(_, turned)| turned))
        }),
        field::<Self>("left", Kind::LENGTH, "distance from the left edge of the sheet", |(.., [left, _]), _| {
            Datum::inches(left)
        }),
        field::<Self>("bottom", Kind::LENGTH, "distance from the bottom edge of the sheet", |(.., [_, bottom]), _| {
            Datum::inches(bottom)
        }),
    ];
}

impl Fact for WantedSheet {
    type Of<'a> = &'a Self;
    const NAME: &'static str = "pane";
    const DOC: &'static str = "Pieces of a sheet, bought in their own size.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("name", Kind::Text, "name of the piece", |piece, _| Datum::text(piece.name.as_str()))
            .at(Level::Key),
        field::<Self>("quantity", Kind::Count, "how many", |piece, _| Datum::Count(piece.quantity.into()))
            .at(Level::Key),
        field::<Self>("width", Kind::LENGTH, "width of the piece", |piece, _| Datum::inches(&piece.width))
            .at(Level::Key),
        field::<Self>("height", Kind::LENGTH, "height of the piece", |piece, _| Datum::inches(&piece.height))
            .at(Level::Key),
        field::<Self>("of", Kind::Text, "wood and section in words", |piece, _| Datum::text(piece.material.words())),
        field::<Self>("wood", Kind::Text, "material of the piece", |piece, _| {
            Datum::text(piece.material.wood.as_str())
        })
        .at(Level::Detail),
        field::<Self>("section", Kind::Text, "thickness of the piece", |piece, _| {
            Datum::text(piece.material.section.as_str())
        })
        .at(Level::Detail),
    ];
}

/// Parts that a plan leaves out.
pub struct Unplanned;

/// Whether it comes from a stick or a sheet, and how many are left out.
pub enum LeftOut<'a> {
    /// A part that no stick or board yields.
    Part(&'a Cutting, &'a Left),
    /// So many pieces that no sheet yields.
    Piece(&'a WantedSheet, u32),
}

/// What a plan leaves out.
fn unplanned(whole: &Whole) -> Datum<'_> {
    let parts = whole.sticks.left.iter().map(|left| LeftOut::Part(&whole.sticks, left));
    let rows = whole.sheeting.iter().flat_map(|one| one.rows.iter().zip(&one.plan.left));
    let pieces = rows.filter(|(_, left)| **left > 0).map(|(row, left)| LeftOut::Piece(&whole.sheets[*row], *left));
    Datum::facts::<Unplanned>(parts.chain(pieces))
}

impl Fact for Unplanned {
    type Of<'a> = LeftOut<'a>;
    const NAME: &'static str = "unplanned";
    const DOC: &'static str = "Parts that a plan leaves out.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("name", Kind::Text, "name of the part", |of, _| match of {
            LeftOut::Part(cutting, left) => Datum::text(cutting.order.parts[left.part].name.as_str()),
            LeftOut::Piece(piece, _) => Datum::text(piece.name.as_str()),
        })
        .at(Level::Key),
        field::<Self>("length", Kind::LENGTH, "length of the part, or height of the piece", |of, _| match of {
            LeftOut::Part(cutting, left) => Datum::inches(&cutting.order.parts[left.part].length),
            LeftOut::Piece(piece, _) => Datum::inches(&piece.height),
        }),
        field::<Self>("width", Kind::LENGTH, "width of a piece of a sheet", |of, _| match of {
            LeftOut::Part(..) => Datum::Nothing,
            LeftOut::Piece(piece, _) => Datum::inches(&piece.width),
        })
        .optional(),
        field::<Self>("quantity", Kind::Count, "how many are left out", |of, _| match of {
            LeftOut::Part(_, left) => Datum::Count(left.quantity.into()),
            LeftOut::Piece(_, left) => Datum::Count((*left).into()),
        })
        .at(Level::Key),
        field::<Self>("because", Kind::Text, "the reason", |of, manner| {
            Datum::text(match of {
                LeftOut::Part(cutting, left) => because(cutting, left, manner),
                LeftOut::Piece(_, 1) => "1 piece does not fit the sheets in stock".into(),
                LeftOut::Piece(_, left) => format!("{left} pieces do not fit the sheets in stock"),
            })
        })
        .at(Level::Key),
    ];
}

impl Fact for Item {
    type Of<'a> = (usize, &'a Self);
    const NAME: &'static str = "stock row";
    const DOC: &'static str = "A row of the stock: pieces of one kind that the shop has.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("row", Kind::Count, "number of the row, as `stock drop` takes it", |(at, _), _| {
            Datum::count(at + 1)
        })
        .at(Level::Key),
        field::<Self>("what", Kind::Word(&["stick", "offcut", "board", "sheet"]), "what it is", |(_, item), _| {
            Datum::text(WHATS.iter().find(|(_, what)| *what == item.what).map_or("", |(word, _)| word))
        })
        .at(Level::Key),
        field::<Self>("length", Kind::LENGTH, "length of each", |(_, item), _| Datum::inches(&item.length))
            .at(Level::Key),
        field::<Self>("width", Kind::LENGTH, "width of each", |(_, item), _| {
            Datum::maybe(item.width.as_ref(), Datum::inches)
        })
        .optional(),
        field::<Self>("count", Kind::Count, "how many; as many as needed where it is left out", |(_, item), _| {
            Datum::maybe(item.count, |count| Datum::Count(count.into()))
        })
        .at(Level::Key)
        .optional(),
        field::<Self>("cost", Kind::Cost, "what one costs", |(_, item), _| price(item.cost.map(u64::from))).optional(),
        field::<Self>("of", Kind::Text, "wood and section in words", |(_, item), _| of(&item.material)).optional(),
        field::<Self>("wood", Kind::Text, "wood or other material", |(_, item), _| wood(&item.material))
            .optional()
            .at(Level::Detail),
        field::<Self>("section", Kind::Text, "section of a stick, thickness of a board or sheet", |(_, item), _| {
            section(&item.material)
        })
        .optional()
        .at(Level::Detail),
    ];
}
