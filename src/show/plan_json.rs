//! A cutting plan as one JSON object.

use serde::{Serialize, Serializer};
use serde_json::{Value as Json, json};

use super::answer::because;
use super::engineering::of_cautions;
use super::finding_json;
use super::json::{quantity, with_checks};
use crate::diag::Diagnostic;
use crate::measure::write::Manner;
use crate::measure::{Quantity, Real};
use crate::plan::{Block, Board, Boarding, Cut, Cutting, Left, Pricing, Rack, Sheeting, Stick, WHATS, WantedSheet};
use crate::session::Planned;

/// What is written of a plan. Sticks are turned into JSON one by one as they are written: a large plan is some hundred
/// megabytes otherwise.
#[derive(Serialize)]
struct Whole<'a> {
    plan: Plan<'a>,
    #[serde(skip_serializing_if = "<[String]>::is_empty")]
    notes: &'a [String],
    #[serde(skip_serializing_if = "Vec::is_empty")]
    errors: Vec<Json>,
    cautions: Json,
}

#[derive(Serialize)]
struct Plan<'a> {
    cost: String,
    bound: String,
    proven: bool,
    seconds: f64,
    sticks: Sticks<'a>,
    unplanned: Unplanned<'a>,
    #[serde(skip_serializing_if = "Option::is_none")]
    boards: Option<Json>,
    #[serde(skip_serializing_if = "Option::is_none")]
    sheet_plans: Option<Json>,
    #[serde(skip_serializing_if = "Option::is_none")]
    sheets: Option<Json>,
    stock_said: bool,
}

struct Sticks<'a>(&'a Cutting, &'a Manner);
struct Unplanned<'a>(&'a Cutting, &'a Manner);

impl Serialize for Sticks<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq(self.0.sticks.iter().map(|stick| of_stick(self.0, stick, self.1)))
    }
}

impl Serialize for Unplanned<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq(self.0.left.iter().map(|left| of_left(self.0, left, self.1)))
    }
}

/// A plan for everything: `{"plan":{"cost":…,"bound":…,"proven":…,"seconds":…,"sticks":[…],"unplanned":[…]}}`, boards and
/// sheets beside the sticks, and under `errors` what else was found wrong.
pub fn plan_json<'a>(planned: &'a Planned, manner: &'a Manner) -> impl Serialize + use<'a> {
    let whole = &planned.whole;
    let (cost, bound) = whole.cost();
    let some = |there: bool, json: fn(&crate::plan::Whole, &Manner) -> Json| there.then(|| json(whole, manner));
    let plan = Plan {
        cost: whole.sticks.text(cost),
        bound: whole.sticks.text(bound),
        proven: cost == bound,
        seconds: (planned.seconds * 1000.0).round() / 1000.0,
        sticks: Sticks(&whole.sticks, manner),
        unplanned: Unplanned(&whole.sticks, manner),
        boards: some(!whole.boards.boards.is_empty(), boards),
        sheet_plans: some(!whole.sheeting.is_empty(), sheet_plans),
        sheets: some(!whole.sheets.is_empty(), sheets),
        stock_said: whole.is_said,
    };
    let errors = planned.found.iter().map(error).collect();
    Whole { plan, notes: &planned.notes, errors, cautions: of_cautions(&planned.cautions).into() }
}

/// `{"error":…}` with what kept a plan from being made, all else under `more`.
pub fn no_plan_json(found: &[Diagnostic]) -> Json {
    let mut errors = found.iter().map(error);
    let mut object = json!({ "error": errors.next() });
    let more: Vec<Json> = errors.collect();
    if !more.is_empty() {
        object["more"] = more.into();
    }
    object
}

fn error(one: &Diagnostic) -> Json {
    let mut error = finding_json(one, "")["error"].take();
    if let Some(source) = &one.source {
        error["in"] = source.name.as_str().into();
    }
    error
}

fn length(inches: &Real, manner: &Manner) -> Json {
    quantity(&Quantity::inches(inches.clone()), manner)
}

fn of_left(cutting: &Cutting, left: &Left, manner: &Manner) -> Json {
    let part = &cutting.order.parts[left.part];
    json!({
        "name": part.name,
        "length": length(&part.length, manner),
        "quantity": left.quantity,
        "because": because(cutting, left, manner),
    })
}

fn of_stick(cutting: &Cutting, stick: &Stick, manner: &Manner) -> Json {
    let held = &cutting.order.stock[stick.stock];
    let part = |piece: &crate::plan::Piece| {
        let part = &cutting.order.parts[piece.part];
        json!({ "name": part.name, "length": length(&part.length, manner) })
    };
    let mut object = json!({
        "stock": length(&held.length, manner),
        "cost": cutting.text(cutting.cost_of(stick.stock)),
        "parts": stick.pieces.iter().map(part).collect::<Vec<_>>(),
        "offcut": length(&stick.offcut, manner),
        "waste": length(&stick.waste, manner),
    });
    for (name, text) in [("wood", &held.material.wood), ("section", &held.material.section)] {
        if !text.is_empty() {
            object[name] = text.as_str().into();
        }
    }
    object
}

/// The same with the checks that stop its designs.
pub fn whole_json(planned: &Planned, manner: &Manner) -> Json {
    with_checks(serde_json::to_value(plan_json(planned, manner)).unwrap_or_default(), &planned.stops)
}

fn boards(whole: &crate::plan::Whole, manner: &Manner) -> Json {
    let board = |board: &Board| {
        let item = &whole.rack.items[board.item];
        json!({
            "length": length(&item.length, manner),
            "width": item.width.as_ref().map(|width| length(width, manner)),
            "of": item.material.words(),
            "block": of_block(&whole.boards, &board.block, manner),
        })
    };
    json!({
        "cost": whole.boards.pricing.text(whole.boards.cost),
        "bound": whole.boards.pricing.text(whole.boards.bound),
        "proven": whole.boards.cost == whole.boards.bound,
        "boards": whole.boards.boards.iter().map(board).collect::<Vec<_>>(),
    })
}

fn sheet_plans(whole: &crate::plan::Whole, manner: &Manner) -> Json {
    let length = |inches: &Real| length(inches, manner);
    let sheeting = |one: &Sheeting| {
        let layouts = one.plan.layouts.iter().enumerate().map(|(at, layout)| {
            let item = &whole.rack.items[one.items[layout.sheet]];
            let pieces = one.placed(at, &whole.sticks.saw).into_iter().filter_map(|(placed, [left, bottom])| {
                let (row, turned) = placed.piece?;
                let name = &whole.sheets[one.rows[row]].name;
                Some(json!({ "name": name, "turned": turned, "left": length(&left), "bottom": length(&bottom) }))
            });
            json!({ "length": length(&item.length), "width": item.width.as_ref().map(length), "pieces": pieces.collect::<Vec<_>>() })
        });
        let text = |cost: u64| one.pricing.text(cost);
        json!({
            "cost": text(one.plan.cost), "bound": text(one.plan.bound), "proven": one.plan.is_proven(),
            "layouts": layouts.collect::<Vec<_>>(),
        })
    };
    whole.sheeting.iter().map(sheeting).collect::<Vec<_>>().into()
}

fn sheets(whole: &crate::plan::Whole, manner: &Manner) -> Json {
    let sheet = |sheet: &WantedSheet| {
        json!({
            "name": sheet.name, "quantity": sheet.quantity, "width": length(&sheet.width, manner),
            "height": length(&sheet.height, manner), "of": sheet.material.words(),
        })
    };
    whole.sheets.iter().map(sheet).collect::<Vec<_>>().into()
}

/// What becomes of a block of a board: a part, an offcut, a rest, or the blocks that it is ripped or crosscut into.
fn of_block(boards: &Boarding, block: &Block, manner: &Manner) -> Json {
    let mut object = json!({ "length": length(&block.length, manner), "width": length(&block.width, manner) });
    let all = |blocks: &[Block]| blocks.iter().map(|block| of_block(boards, block, manner)).collect::<Vec<_>>();
    match &block.cut {
        Cut::Rest => object["rest"] = true.into(),
        Cut::Offcut(_, milled) => object["offcut"] = length(milled, manner),
        Cut::Part(part) => object["part"] = boards.parts[*part].name.as_str().into(),
        Cut::Ripped(blocks) => object["ripped"] = all(blocks).into(),
        Cut::Crosscut(blocks) => object["crosscut"] = all(blocks).into(),
    }
    object
}

/// What the shop has, row by row.
pub fn stock_json(rack: &Rack, said: Option<&str>, manner: &Manner) -> Json {
    let length = |inches: &Real| quantity(&Quantity::inches(inches.clone()), manner);
    let rows = rack.items.iter().map(|item| {
        let what = WHATS.iter().find(|(_, what)| *what == item.what).map_or("", |(word, _)| word);
        json!({
            "what": what, "length": length(&item.length), "width": item.width.as_ref().map(length),
            "count": item.count, "cost": item.cost.map(|cost| Pricing::Money.text(u64::from(cost))),
            "of": item.material.words(),
        })
    });
    let mut object = json!({ "stock": rows.collect::<Vec<_>>() });
    if let Some(said) = said {
        object["said"] = said.into();
    }
    object
}

/// Stock whose lengths have no unit, in both readings, a row as it stands in the table.
pub fn bare_stock_json(rows: &[[Vec<String>; 2]]) -> Json {
    let of = |nth: usize| rows.iter().map(|row| Json::from(row[nth].clone())).collect::<Vec<_>>();
    json!({ "stock_in": of(0), "stock_mm": of(1), "hint": "stock unit in" })
}
