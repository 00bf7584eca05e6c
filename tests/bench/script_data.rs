//! What scripts get as data: parts, checks, plans, and what the functions of the program find.

use std::collections::BTreeMap;

use crate::bench::Bench;
use benchrule::lang::Value;
use benchrule::rules::{NATIVES, Type};
use benchrule::session::Reply;
use benchrule::show::spoken;

/// Sticks, boards and sheets with prices.
const STOCK: &str = "what,length,width,count,cost,wood,section\n\
    stick,96in,,3,12.50,cherry,1 1/4in x 11/16in\n\
    offcut,40in,,1,,cherry,1 1/4in x 11/16in\n\
    board,96in,7in,2,31.00,walnut,4/4\n\
    sheet,48in,36in,1,20.00,glass,2mm\n";

const FILE: &str = "/home/stock.csv";

/// The value that a line answers.
#[track_caller]
fn value(bench: &mut Bench, line: &str) -> Value {
    let shown = bench.line(line);
    match shown.outcome.reply {
        Ok(Reply::Value(value)) => value,
        _ => panic!("{line}: {}", shown.text),
    }
}

/// What a line shows, without the other unit.
#[track_caller]
fn shown(bench: &mut Bench, line: &str) -> String {
    let shown = bench.line(line);
    assert!(!shown.failed(), "{line}: {}", shown.text);
    shown.text.trim_end().split("   ").next().unwrap().to_string()
}

#[track_caller]
fn refused(bench: &mut Bench, line: &str, wanted: &str) {
    let shown = bench.line(line);
    assert!(shown.failed() && shown.text.starts_with(&format!("error: {wanted}")), "{line}: {}", shown.text);
}

fn framed(lines: &[&str]) -> Bench {
    let mut bench = Bench::with(&[(FILE, STOCK)]);
    for line in lines {
        let shown = bench.line(line);
        assert!(!shown.failed(), "{line}: {}", shown.text);
    }
    bench
}

/// By hand: opening = 16 + 2/4 by 20 + 2/4, rails 3/4 wider on each side.
#[test]
fn parts_by_hand() {
    let mut bench = framed(&["art 16 x 20 x 3/4", "quantity 3", "wood cherry"]);
    assert_eq!(shown(&mut bench, "parts(design).map(|p| p.quantity)"), "[6, 6, 6, 6]");
    assert_eq!(
        shown(&mut bench, "let p = parts(design)[0]; [p.short, p.long, p.section.width]"),
        "[16 1/2\", 18\", 3/4\"]"
    );
    assert_eq!(shown(&mut bench, "let p = parts(design)[1]; [p.short, p.long, p.mitre]"), "[20 1/2\", 22\", 45°]");
    assert_eq!(shown(&mut bench, "parts(design)[1].long - parts(design)[1].short == 2 * face"), "true");
    let named = "parts(design).filter(|p| p.material == \"cherry\").len()";
    assert_eq!(shown(&mut bench, named), "4");
    // What it is asked of is a design.
    refused(&mut bench, "parts(5)", "d is a design, and 5 is a number");
    refused(&mut bench, "planned([5])", "planned takes a list of designs");
}

/// Checks of a design are those that its sheet shows.
#[test]
fn checks_are_those_of_the_sheet() {
    let mut bench = framed(&["art 16 x 20 x 3/4", "face 1/4"]);
    let found = bench.0.design().findings();
    assert!(!found.is_empty());
    let Value::List(reported) = value(&mut bench, "checks(design)") else { panic!("no list") };
    assert_eq!(reported.len(), found.len());
    for (reported, found) in reported.iter().zip(found) {
        let Value::Map(reported) = reported else { panic!("no map") };
        assert_eq!(reported["level"].text().unwrap(), found.level.to_string());
        assert_eq!(reported["name"].text().unwrap(), found.name);
        assert_eq!(reported["says"].text().unwrap(), spoken(&found.says));
        assert_eq!(reported["mend"].text(), found.mend.as_deref());
    }
}

fn get<'a>(map: &'a Value, name: &str) -> Option<&'a Value> {
    let Value::Map(map) = map else { panic!("no map: {map:?}") };
    map.get(name)
}

fn list<'a>(map: &'a Value, name: &str) -> &'a [Value] {
    let Value::Map(map) = map else { panic!("no map: {map:?}") };
    let Value::List(list) = &map[name] else { panic!("no list: {name}") };
    list
}

fn number(map: &Value, name: &str) -> String {
    let Value::Map(map) = map else { panic!("no map: {map:?}") };
    map[name].quantity().unwrap_or_else(|| panic!("{name}")).amount.to_text()
}

fn text<'a>(map: &'a Value, name: &str) -> &'a str {
    let Value::Map(map) = map else { panic!("no map: {map:?}") };
    map[name].text().unwrap()
}

/// Every part of the design is somewhere in its plan, so many times as it is wanted, whatever it comes from; what it costs
/// is what is taken, by the prices of the table.
#[test]
fn a_plan_has_every_part_once() {
    for (wood, rails) in [("cherry", 0), ("walnut", 1)] {
        planned_once(&format!("wood {wood}"), rails);
    }
}

fn planned_once(wood: &str, rails: usize) {
    let lines = ["build rabbeted", "art 16 x 20 x 1/16", "art.kind paper", "quantity 2", wood];
    let mut bench = framed(&[&lines[..], &["glazing glass 2mm", "backing 1/8"]].concat());
    let plan = value(&mut bench, "planned([design])");
    let mut counts: BTreeMap<String, i64> = BTreeMap::new();
    let mut met = [0, 0, 0];
    let add = |met: &mut [usize; 3], counts: &mut BTreeMap<String, i64>, part: &Value, place: usize| {
        met[place] += 1;
        *counts.entry(text(part, "name").into()).or_default() += 1;
    };
    for stick in list(&plan, "sticks") {
        list(stick, "parts").iter().for_each(|part| add(&mut met, &mut counts, part, 0));
    }
    let mut blocks: Vec<&Value> = list(&plan, "boards").iter().filter_map(|board| get(board, "block")).collect();
    while let Some(block) = blocks.pop() {
        if let Some(Value::Text(name)) = get(block, "part") {
            met[1] += 1;
            *counts.entry(name.clone()).or_default() += 1;
        }
        for way in ["ripped", "crosscut"] {
            if let Some(Value::List(inner)) = get(block, way) {
                blocks.extend(inner);
            }
        }
    }
    for sheet in list(&plan, "sheets") {
        list(sheet, "parts").iter().for_each(|part| add(&mut met, &mut counts, part, 2));
    }
    for left in list(&plan, "unplanned") {
        *counts.entry(text(left, "name").into()).or_default() += number(left, "quantity").parse::<i64>().unwrap();
        assert!(!text(left, "because").is_empty());
    }
    for pane in list(&plan, "sheets_to_get") {
        *counts.entry(text(pane, "name").into()).or_default() += number(pane, "quantity").parse::<i64>().unwrap();
    }
    let wanted: BTreeMap<String, i64> =
        benchrule::shop::parts(&bench.0.design()).into_iter().map(|part| (part.name, part.quantity)).collect();
    assert_eq!(counts, wanted);
    assert!(met[rails] > 0 && met[2] > 0, "{met:?}");
    // A stick costs 12.50, an offcut nothing, a sheet 20.00.
    let sticks = list(&plan, "sticks").iter().filter(|stick| number(stick, "length") == "96").count();
    let cents = 1250 * sticks + 2000 * list(&plan, "sheets").len() + 3100 * list(&plan, "boards").len();
    let cost = format!("planned([design]).cost == ${}.{:02}", cents / 100, cents % 100);
    assert_eq!(shown(&mut bench, &cost), "true");
    assert_eq!(shown(&mut bench, "let p = planned([design]); p.bound <= p.cost && p.stock_recorded"), "true");
    // The page stays what it is.
    let page = shown(&mut bench, "plan([design])");
    assert!(page.contains("proven best"), "{page}");
}

/// A style may list parts and ask the checks, of what it frames and of what its house judges.
#[test]
fn styles_use_parts_and_checks() {
    let style = "// A style that counts.\n\
        fn build_for(art, asks) { let d = new_design(); d.build = \"float\"; d.note = `${parts(d).len()} kinds`; d }\n\
        fn check(design) {\n\
          let stops = checks(design).filter(|c| c.level == \"stop\").len();\n\
          [#{level: \"note\", says: `${stops} stops, ${planned([design]).sticks.len()} sticks`}]\n\
        }\n";
    let mut bench = Bench::with(&[("/home/styles/counting.rhai", style)]);
    for line in ["art 16 x 20 x 3/4", "style counting"] {
        let shown = bench.line(line);
        assert!(!shown.failed(), "{line}: {}", shown.text);
    }
    let sheet = bench.line("sheet").text;
    assert!(sheet.contains("4 kinds") && sheet.contains("0 stops, 2 sticks"), "{sheet}");
    assert_eq!(shown(&mut bench, "checks(design).filter(|c| c.says.contains(\"sticks\")).len()"), "1");
}

/// Moisture of wood in air: Wood Handbook FPL-GTR-190 (2010), Table 4-2, the row of 70 °F, rounded to a tenth as there.
#[test]
fn a_script_finds_what_the_handbook_prints() {
    let mut bench = Bench::new();
    for (humidity, content) in [(5, "1.3"), (35, "6.9"), (50, "9.2"), (65, "12"), (95, "23.9")] {
        let line = format!("round(moisture(70degF, {humidity}%).content * 1000, 1) / 10 == {content}");
        assert_eq!(shown(&mut bench, &line), "true", "{humidity}");
    }
}

/// What a script finds is what a design finds, by its own figures: one function, two callers.
#[test]
fn a_script_finds_what_a_design_finds() {
    let mut bench = framed(&["art 24 x 30 x 3/4", "art.kind panel", "key.depth 1/2", "built.diagonals 38 1/2, 38 5/8"]);
    for line in [
        "moisture(climate.before.temperature, climate.before.humidity).content == moisture.before",
        "screw(screw.through, screw.bite, art.bar, screw.clear, strip.reach, 70%, [3/4in, 1in, 1 1/4in, 1 1/2in, 7/8in, 5/8in, 1/2in]).length == screw.length",
        "places(art.width, screw.first, screw.pitch, 8in).list == made(design, \"screw.top.at\")",
        "places(art.width, screw.first, screw.pitch, 8in).count + places(art.height, screw.first, screw.pitch, 8in).count == screw.count / 2",
        "key(face, 45°, key.depth).left == key.left",
        "racked(outside.width, outside.height, built.diagonal.1, built.diagonal.2).angle == rack.angle",
        "brad(brad.wall, 45°, brad.length, brad.at, brad.cover, brad.skew).bite == brad.holds",
        "swelling(face, 4, rail.swells).side == mitre.opens",
    ] {
        assert_eq!(shown(&mut bench, line), "true", "{line}");
    }
}

#[test]
fn what_cannot_be_found_is_said_in_the_words_of_the_function() {
    let mut bench = Bench::new();
    for (line, said) in [
        ("moisture(70degF, 120%)", "the relative humidity is 120 %, and must be from 0 to 100 %"),
        ("moisture(70, 35%)", "temperature is a temperature, and 70 has no unit"),
        ("places(20in, 2in, 0in, 8in)", "places need some distance between them, but the pitch is 0\""),
        ("places(20in, 2in, 1/1000000in, 8in)", "a pitch of 0\" + under 0.0001\" gives more places than any side has"),
        ("swelling(2in, -3, 1%)", "the number of sides is 0, and must be from 3 to 12"),
        ("swelling(2in, 4.5, 1%)", "sides is a whole number, and 4.5 is not"),
        ("key(2in, 45°, 5in)", "a slot 5\" deep cuts through the miter"),
        (
            "screw(1/2in, 1/2in, 3/4in, 1/8in, 1in, 70%, [1in, 2])",
            "stocked is a list of lengths, and in this one is a number",
        ),
        ("screw(1/2in, 1/2in, 1/2in, 1/8in, 1in, 70%, [1in])", "a stretcher of 1/2\" has no room for a bite of 1/2\""),
    ] {
        refused(&mut bench, line, said);
    }
}

/// Whatever a script gives them, the functions of the program answer or refuse; none breaks.
#[test]
fn nothing_breaks_a_function_of_the_program() {
    let mut bench = Bench::new();
    let amounts = ["0", "-1", "1/1000000000", "3", "1000000000000", "10 ** 60"];
    for native in NATIVES {
        for amount in amounts {
            for odd in 0..=native.takes.len() {
                let argument = |(at, (_, of, _)): (usize, &(&str, Type, &str))| {
                    let amount = if odd == native.takes.len() || at == odd { amount } else { "2" };
                    match of {
                        Type::Quantity(kind) if kind.unit().is_empty() => format!("({amount})"),
                        Type::Quantity(kind) => format!("({amount}) * 1{}", kind.unit()),
                        Type::List(kind) => format!("[({amount}) * 1{}]", kind.unit()),
                        Type::Whole
                        | Type::Share
                        | Type::Word
                        | Type::Text
                        | Type::Record(_)
                        | Type::Truth
                        | Type::Size
                        | Type::Nothing => format!("({amount})"),
                    }
                };
                let arguments: Vec<String> = native.takes.iter().enumerate().map(argument).collect();
                let line = format!("{}({})", native.name, arguments.join(", "));
                let shown = bench.line(&line).text;
                assert!(!shown.contains("internal error") && !shown.is_empty(), "{line}: {shown}");
                assert!(!shown.contains("no function"), "{line}: {shown}");
            }
        }
    }
}
