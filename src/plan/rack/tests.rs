//! Racks read and written.

use super::*;

fn rack(text: &str) -> (Rack, Vec<String>) {
    let mut found = Vec::new();
    let rack = Rack::read("stock.csv", text, Unit::named("in"), &mut found).unwrap();
    (rack, found.into_iter().map(|one| one.message()).collect())
}

const TABLE: &str = "what,length,width,count,cost,wood,section\n\
    stick,8ft,,4,14.40,cherry,3/4 x 1 1/2\n\
    stick,10ft,,,1.80/ft,cherry,3/4 x 1 1/2\n\
    board,96,6,2,9.50/bdft,walnut,4/4\n\
    sheet,32,40,10,6,mat board,1/16\n";

#[test]
fn costs_are_by_piece_foot_and_board_foot() {
    let (rack, found) = rack(TABLE);
    assert_eq!(found, <[String; 0]>::default());
    let costs: Vec<Option<u32>> = rack.items.iter().map(|item| item.cost).collect();
    // 10 ft at 1.80; 96 x 6 x 1 / 144 = 4 board feet at 9.50.
    assert_eq!(costs, [Some(1440), Some(1800), Some(3800), Some(600)]);
    assert_eq!(rack.items[1].count, None);
}

/// By hand: 1.80 x 100 / 12 = 15 even; 1.79 x 97 / 12 = 14.4691..; 0.01 x 13 / 12 = 0.0108..; a board of
/// 97 x 5.5 x 1 / 144 = 3.70486.. board feet at 9.49 = 35.1591..
#[test]
fn a_cost_that_does_not_come_out_even_is_the_next_cent() {
    let (rack, found) = rack(
        "what,length,width,count,cost,wood,section\n\
        stick,100,,,1.80/ft,cherry,3/4 x 1 1/2\n\
        stick,97,,,1.79/ft,cherry,3/4 x 1 1/2\n\
        stick,13,,,0.01/ft,cherry,3/4 x 1 1/2\n\
        board,97,5 1/2,2,9.49/bdft,walnut,4/4\n",
    );
    assert_eq!(found, <[String; 0]>::default());
    let costs: Vec<Option<u32>> = rack.items.iter().map(|item| item.cost).collect();
    assert_eq!(costs, [1500, 1447, 2, 3516].map(Some));
}

#[test]
fn what_is_written_reads_back() {
    let (mut one, _) = rack(TABLE);
    one.book_out(0);
    one.book_in(&Real::ratio(45, 2), &Material::new("cherry", "3/4\" x 1 1/2\""));
    one.book_in(&Real::ratio(45, 2), &Material::new("cherry", "3/4\" x 1 1/2\""));
    let (other, found) = rack(&one.text());
    assert_eq!(found, <[String; 0]>::default());
    assert_eq!(other.text(), one.text());
    assert_eq!((other.items[0].count, other.items[4].count), (Some(3), Some(2)));
}

#[test]
fn what_is_no_stock_is_said() {
    let (rack, found) = rack("what,length,width,count,cost\nplank,8ft,,1,2\nboard,8ft,,1,2\nstick,8ft,,1,2/yd\n");
    assert!(rack.items.is_empty());
    assert_eq!(
        found,
        [
            "stock is a stick, an offcut, a board or a sheet, not plank",
            "a board has a width, as in 6in",
            "the section of a board is its thickness in quarters, as in 4/4",
            "a cost is by ft or bdft, as in 1.80/ft, not by yd"
        ]
    );
}

#[test]
fn what_a_cost_needs_is_told() {
    let table = "what,length,width,count,cost,wood,section\nstick,8ft,,,9.50/bdft,oak,3/4 x 2\n\
        sheet,40,32,,9.50/bdft,mdf,6mm\nboard,8ft,6,,9.50/bdft,oak,\n";
    let (rack, found) = rack(table);
    assert!(rack.items.is_empty());
    assert_eq!(
        found,
        [
            "a cost by the board foot takes a width, and this row has none",
            "a cost by the board foot takes a thickness in quarters, and the section gives none",
            "the section of a board is its thickness in quarters, as in 4/4"
        ]
    );
}

#[test]
fn all_that_is_bought_has_a_price_or_nothing_has() {
    let (priced, found) = rack("what,length,width,count,cost\nstick,8ft,,,12\nsheet,40,32,2,\noffcut,30,,1,\n");
    assert_eq!(found, ["this row has no cost, and others have one"]);
    assert_eq!((priced.items.len(), priced.pricing()), (2, Pricing::Money));
    let (counted, found) = rack("what,length,width,count,cost\nstick,8ft,,,\noffcut,30,,1,0\n");
    assert_eq!((found.len(), counted.pricing()), (0, Pricing::Count));
    assert!(counted.may_take(&priced.items[0]).is_err() && priced.may_take(&counted.items[0]).is_err());
    assert!(counted.may_take(&counted.items[0]).is_ok() && priced.may_take(&counted.items[1]).is_ok());
}

/// Sticks and boards are sold from 1 ft to 40 ft; an offcut may be of any length (common practice, no source).
#[test]
fn a_length_that_nobody_sells_is_asked_about() {
    let head = "what,length,width,count,cost,wood,section\n";
    for (row, said) in [
        ("stick,8,,4,,oak,", Some("a bought stick of 8\" is under 1 ft; if that is right, call it a short stick")),
        (",96mm,,4,,oak,", Some("a bought stick of 96mm is under 1 ft; if that is right, call it a short stick")),
        (
            "board,41ft,6,1,,oak,4/4",
            Some("a bought board of 41ft is over 40 ft; if that is right, call it a long board"),
        ),
        ("stick,12,,4,,oak,", None),
        ("stick,40ft,,4,,oak,", None),
        ("offcut,8,,4,,oak,", None),
        ("sheet,8,10,4,,glass,2mm", None),
    ] {
        let found = |row: &str| {
            let mut found = Vec::new();
            let made = Rack::read("stock.csv", format!("{head}{row}\n"), Unit::named("in"), &mut found).unwrap();
            (made.items.len(), found)
        };
        let (items, faults) = found(row);
        assert_eq!(
            (items, faults.first().map(|one| one.message())),
            (usize::from(said.is_none()), said.map(String::from)),
            "{row}"
        );
        // The row with the answer in it is taken, and reads back.
        if let Some(hint) = faults.first().and_then(|one| one.line()) {
            let (items, faults) = found(&hint);
            assert_eq!((items, faults.len()), (1, 0), "{hint}");
        }
    }
}

#[test]
fn stock_of_another_version_or_kind_is_refused() {
    let refused = |first: &str| {
        let text = format!("{first}\n{TABLE}");
        Rack::read("stock.csv", &text, Unit::named("in"), &mut Vec::new()).map_err(|found| found.message())
    };
    assert!(refused("# benchrule stock 1").is_ok());
    // As a spreadsheet saves it.
    assert!(refused("\"# benchrule stock 1\",,,,,,").is_ok());
    assert_eq!(
        refused("# benchrule stock 2").unwrap_err(),
        "this is stock of version 2, and this program reads version 1; use the newer program that wrote it"
    );
    assert_eq!(refused("# benchrule parts 1").unwrap_err(), "this file is not a table of stock");
}

#[test]
fn lengths_without_a_unit_are_seen_and_read_both_ways() {
    assert!(rack(TABLE).0.is_bare);
    let text = Rack::with_units("stock.csv", TABLE, Unit::named("mm").unwrap()).unwrap();
    assert!(text.contains("\nboard,96mm,6mm,2,9.50/bdft,walnut,4/4\n"), "{text}");
    let inches = Rack::with_units("stock.csv", TABLE, Unit::named("in").unwrap()).unwrap();
    let (mut found, mm) = (Vec::new(), Unit::named("mm"));
    let metric = Rack::read("stock.csv", &inches, mm, &mut found).unwrap();
    assert!(!metric.is_bare && found.is_empty());
    // The same stock on a bench of either unit.
    assert_eq!(metric.text(), rack(TABLE).0.text());
    assert_eq!(Rack::likely_unit("stock.csv", TABLE), "in");
    assert_eq!(Rack::likely_unit("stock.csv", "length,count,cost\n2400,4,9\n"), "mm");
}
