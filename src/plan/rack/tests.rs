//! Racks read and written.

use super::*;

fn rack(text: &str) -> (Rack, Vec<String>) {
    let mut found = Vec::new();
    let rack = Rack::read(text, Unit::named("in"), &mut found).unwrap();
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

#[test]
fn what_is_written_reads_back() {
    let (mut one, _) = rack(TABLE);
    one.book_out(0);
    one.book_in(&Real::ratio(45, 2), &Material::new("cherry", "3/4 x 1 1/2"));
    one.book_in(&Real::ratio(45, 2), &Material::new("cherry", "3/4 x 1 1/2"));
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
            "a board has a width",
            "a cost is by ft or bdft, not by yd"
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
            "a cost by the board foot takes a thickness in quarters, and the section tells none",
            "the section of a board is its thickness in quarters"
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
