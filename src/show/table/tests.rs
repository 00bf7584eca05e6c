use proptest::prelude::*;

use super::*;

fn parts() -> Table {
    let head = |text| Cell::right(Text::of(Label::Dim, text));
    let part = |name: &str, quantity: &str, short: &str, long: &str, mitre: &str, note: &str| {
        vec![
            Cell::left(name),
            Cell::right(quantity),
            Cell::right(short),
            Cell::right(long),
            Cell::right(mitre).yielding(1),
            Cell::flowing(note).yielding(2),
        ]
    };
    Table::new()
        .row([
            Cell::of(Label::Dim, "part"),
            head("of"),
            head("short"),
            head("long"),
            head("mitre").yielding(1),
            Cell::of(Label::Dim, "note").yielding(2),
        ])
        .row(part("rail top", "2", "16 13/16\"", "18 7/16\"", "45°", ""))
        .row(part("rail side", "2", "20\"", "21 5/8\"", "45°", "grain matched with the top rail, same stick"))
}

#[track_caller]
fn check(table: &Table, width: usize, expected: &str) {
    let shown: Vec<String> = table.lines(width).iter().map(|text| text.letters().to_string()).collect();
    let expected: Vec<&str> = expected.lines().skip(1).collect();
    assert_eq!(shown, expected, "\n{}", shown.join("\n"));
}

#[test]
fn columns_stand_under_one_another() {
    check(
        &parts(),
        100,
        r#"
part       of      short      long  mitre  note
rail top    2  16 13/16"  18 7/16"    45°
rail side   2        20"   21 5/8"    45°  grain matched with the top rail, same stick"#,
    );
}

#[test]
fn running_text_is_broken_where_there_is_room() {
    check(
        &parts(),
        72,
        r#"
part       of      short      long  mitre  note
rail top    2  16 13/16"  18 7/16"    45°
rail side   2        20"   21 5/8"    45°  grain matched with the top
                                           rail, same stick"#,
    );
}

#[test]
fn a_narrow_terminal_moves_the_lesser_columns_below() {
    check(
        &parts(),
        40,
        r#"
part       of      short      long
    mitre  note
rail top    2  16 13/16"  18 7/16"
      45°
rail side   2        20"   21 5/8"
      45°  grain matched with the top
           rail, same stick"#,
    );
}

#[test]
fn a_line_across_does_not_widen_a_column() {
    let table = Table::new()
        .line("a heading that is wider than all of it")
        .row([Cell::left("lip"), Cell::right("1/4\"")])
        .row([Cell::left("rabbet"), Cell::right("")]);
    check(
        &table,
        40,
        r#"
a heading that is wider than all of it
lip     1/4"
rabbet"#,
    );
}

fn any_cell() -> impl Strategy<Value = Cell> {
    ("[a-z額é]{0,9}( [a-z0-9/]{1,12}){0,4}", any::<bool>(), any::<bool>(), 0..4_u8).prop_map(
        |(text, right, flows, rank)| {
            let cell = if right { Cell::right(text) } else { Cell::left(text) };
            Cell { flows, ..cell.yielding(rank) }
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn nothing_is_lost_and_nothing_is_too_wide(
        rows in prop::collection::vec(prop::collection::vec(any_cell(), 1..7), 1..5),
        width in 12..100_usize,
    ) {
        let table = rows.iter().fold(Table::new(), |table, row| table.row(row.clone()));
        let lines = table.lines(width);
        for line in &lines {
            prop_assert!(line.width() <= width, "{:?}", line.letters());
        }
        let letters = |text: &str| {
            let mut letters: Vec<char> = text.chars().filter(|letter| *letter != ' ').collect();
            letters.sort_unstable();
            letters
        };
        let shown: String = lines.iter().map(|text| text.letters().to_string()).collect();
        let given: String = rows.iter().flatten().map(|cell| cell.text.letters()).collect();
        prop_assert_eq!(letters(&shown), letters(&given));
    }
}
