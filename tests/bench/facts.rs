//! One fact in every format: sixty lines whose page, JSON, script map and table give the same names and the same values.

use std::collections::BTreeSet;
use std::rc::Rc;

use benchrule::fact::rows;
use benchrule::host::Memory;
use benchrule::lang::Value;
use benchrule::measure::read;
use benchrule::plan::Stick;
use benchrule::session::{Reply, Session};
use benchrule::shop::{Part, Settings};
use benchrule::show::{Press, answer, json};
use serde_json::Value as Json;

/// How wide pages are: nothing gives way.
const WIDTH: usize = 200;

const STOCK: &str = "what,length,width,count,cost,wood,section\n\
    stick,96in,,3,12.50,cherry,3/4in x 1 5/8in\n\
    offcut,40in,,1,,cherry,3/4in x 1 5/8in\n\
    board,96in,7in,2,31.00,walnut,4/4\n\
    sheet,48in,36in,4,20.00,glass,2mm\n";

/// Works, each framed in a way of its own.
const WORKS: &[&[&str]] = &[
    &["art 16 x 20 x 3/4"],
    &["art 16 1/64 x 20 x 3/4", "wood cherry"],
    &["art 8 x 10 x 1/2", "wood walnut"],
    &["art 300mm x 400mm x 20mm"],
    &["art 9 x 12 x 3/4", "depth 3/8"],
    &["art 24 x 36 x 1 1/2", "reveal 1/2", "quantity 4"],
    &["art 16 x 20 x 3/4", "wood cherry", "quantity 9"],
    &["art 5 x 7 x 3/4", "face 1 1/4"],
    &["art 16 x 20 x 3/4", "slope 15deg"],
    &["new rabbeted", "art 16 x 20 x 1/16"],
    &["new rabbeted", "art 16 x 20 x 1/16", "glazing.kind glass", "wood cherry"],
    &["new rabbeted", "art 11 x 14 x 1/8", "quantity 2"],
    &["new box", "art 16 x 20 x 3/4"],
    &["new box", "art 16 x 20 x 3/4", "wood walnut"],
    &["new shadowbox", "art 8 x 10 x 1"],
    &["new shadowbox", "art 12 x 12 x 3/4", "reveal 1"],
    &["art 16 x 20 x 3/4", "moulding reversible"],
    &["art 20 x 20 x 3/4", "strip.joint mitred"],
    &["art 16 x 20 x 3/4", "name moth", "client Two Lanterns"],
    &["art 12 5/16 x 17 3/32 x 7/8", "wood cherry", "setback 1/8"],
];

struct Bench {
    session: Session,
}

impl Bench {
    fn with(lines: &[&str]) -> Self {
        let host = Rc::new(Memory::with(&[("/home/stock.csv", STOCK)]));
        let session = Session::new(host, Settings::default(), Rc::new(Press { width: WIDTH }));
        let mut bench = Self { session };
        lines.iter().for_each(|line| drop(bench.reply(line)));
        bench
    }

    #[track_caller]
    fn reply(&mut self, line: &str) -> Reply {
        self.session.line(line).reply.unwrap_or_else(|found| panic!("{line}: {found:?}"))
    }

    /// What a line answers as a page and as JSON.
    fn both(&mut self, line: &str) -> (String, Json, Reply) {
        let reply = self.reply(line);
        let manner = self.session.manner();
        (answer::page(&reply, &manner, WIDTH).render(WIDTH, false), json::reply(&reply, &manner), reply)
    }

    /// What a script gets.
    fn value(&mut self, line: &str) -> Value {
        let Reply::Value(value) = self.reply(line) else { panic!("{line} has no value") };
        value
    }
}

/// A JSON value and that of a script are the same: names, kinds, amounts.
#[track_caller]
fn same(place: &str, json: &Json, value: &Value) {
    match (json, value) {
        (Json::String(text), Value::Text(own)) => assert_eq!(text, own, "{place}"),
        (Json::Bool(truth), Value::Truth(own)) => assert_eq!(truth, own, "{place}"),
        (Json::Number(number), Value::Quantity(own)) => assert_eq!(number.to_string(), own.amount.to_text(), "{place}"),
        // A cost: dollars and cents, or a count.
        (Json::String(cost), Value::Quantity(own)) => {
            let text = if cost.contains('.') { own.amount.to_fixed(2) } else { own.amount.to_text() };
            assert_eq!(*cost, text, "{place}");
        }
        (Json::Object(object), Value::Quantity(own)) => {
            let exact = object.get("cut").or(object.get("exact")).and_then(Json::as_str);
            assert_eq!(exact, Some(own.amount.to_text().as_str()), "{place}");
            assert_eq!(object["kind"].as_str(), Some(own.kind.to_string().as_str()), "{place}");
        }
        (Json::Object(object), Value::Size(own)) => {
            same(place, &object["width"], &Value::Quantity(own.width.clone()));
            same(place, &object["height"], &Value::Quantity(own.height.clone()));
        }
        (Json::Object(object), Value::Map(own)) => {
            let names: BTreeSet<&String> = object.keys().collect();
            assert_eq!(names, own.keys().collect(), "{place}");
            // The clock does not go the same way twice.
            for (name, inner) in object.iter().filter(|(name, _)| *name != "seconds") {
                same(&format!("{place}.{name}"), inner, &own[name]);
            }
        }
        (Json::Array(items), Value::List(own)) => {
            assert_eq!(items.len(), own.len(), "{place}");
            items
                .iter()
                .zip(own)
                .enumerate()
                .for_each(|(at, (one, other))| same(&format!("{place}[{at}]"), one, other));
        }
        (json, value) => panic!("{place}: {json} and {value:?}"),
    }
}

/// A cell of a table is the value that JSON has; an empty one is left out there.
#[track_caller]
fn cell(place: &str, json: Option<&Json>, cell: &str) {
    match json {
        None => assert_eq!(cell, "", "{place}"),
        Some(Json::String(text)) => assert_eq!(cell, text, "{place}"),
        Some(Json::Object(object)) if object["kind"] == "size" => {
            let sides = cell.split_once(" x ").unwrap_or_else(|| panic!("{place}: {cell}"));
            self::cell(place, object.get("width"), sides.0);
            self::cell(place, object.get("height"), sides.1);
        }
        Some(Json::Object(object)) => {
            let quantity = read::quantity(cell, None).unwrap_or_else(|found| panic!("{place}: {cell}: {found:?}"));
            let exact: f64 = read::quantity(object["exact"].as_str().unwrap(), None).unwrap().amount.to_f64();
            assert!((quantity.amount.to_f64() - exact).abs() < 1e-12, "{place}: {cell} and {exact}");
        }
        Some(other) => assert_eq!(cell, other.to_string(), "{place}"),
    }
}

/// What a page must have of a quantity: the text that JSON calls shown.
#[track_caller]
fn on_page(page: &str, object: &Json) {
    let shown = object["shown"].as_str().unwrap();
    assert!(page.contains(shown), "{shown} is not on the page:\n{page}");
}

#[test]
fn parts_agree_in_every_format() {
    for lines in WORKS {
        let mut bench = Bench::with(lines);
        let (page, json, reply) = bench.both("parts");
        let parts = json["parts"].as_array().unwrap();
        // A list of one design has alike pieces in one row, as the function for scripts has not.
        let value = bench.value("parts(design)");
        let Value::List(maps) = &value else { panic!("{value:?}") };
        if maps.len() == parts.len() {
            same("parts", &json["parts"], &value);
        }
        assert!(!parts.is_empty(), "{lines:?}");
        for part in parts {
            assert!(
                page.contains(part["name"].as_str().unwrap()) && page.contains(part["material"].as_str().unwrap()),
                "{page}"
            );
            for name in ["short", "long", "width", "height", "thickness"] {
                part.get(name).into_iter().for_each(|size| on_page(&page, size));
            }
        }
        let Reply::Parts(list, ..) = reply else { panic!("{lines:?}") };
        let manner = bench.session.manner();
        let rows: Vec<Vec<String>> = rows::table::<Part>(list.iter(), &manner).collect();
        let (head, rows) = rows.split_first().unwrap();
        assert_eq!(rows.len(), parts.len());
        for (row, part) in rows.iter().zip(parts) {
            let names: BTreeSet<&String> = part.as_object().unwrap().keys().collect();
            assert!(names.iter().all(|name| head.contains(name)), "{head:?} and {names:?}");
            head.iter().zip(row).for_each(|(name, own)| cell(name, part.get(name), own));
        }
    }
}

#[test]
fn checks_agree_in_every_format() {
    for lines in WORKS {
        let mut bench = Bench::with(lines);
        let (page, json, _) = bench.both("sheet");
        let checks = &json["design"]["checks"];
        same("checks", checks, &bench.value("checks(design)"));
        let flat = page.split_whitespace().collect::<Vec<_>>().join(" ");
        for check in checks.as_array().unwrap() {
            let says = check["says"].as_str().unwrap().split_whitespace().collect::<Vec<_>>().join(" ");
            assert!(flat.contains(&says), "{says} is not on the page:\n{page}");
        }
    }
}

#[test]
fn plans_agree_in_every_format() {
    for lines in WORKS {
        let mut bench = Bench::with(lines);
        let (page, json, reply) = bench.both("plan");
        same("plan", &json["plan"], &bench.value("planned([design])"));
        let Reply::Plan(planned) = reply else { panic!("{lines:?}") };
        let (whole, manner) = (&planned.whole, bench.session.manner());
        let sticks = whole.sticks.sticks.iter().enumerate().map(|(at, stick)| (&whole.sticks, at, stick));
        let rows: Vec<Vec<String>> = rows::table::<Stick>(sticks, &manner).collect();
        let (head, rows) = rows.split_first().unwrap();
        let sticks = json["plan"]["sticks"].as_array().unwrap();
        let cuts =
            sticks.iter().flat_map(|stick| stick["parts"].as_array().unwrap().iter().map(move |cut| (stick, cut)));
        assert_eq!(rows.len(), cuts.clone().count());
        for (row, (stick, cut)) in rows.iter().zip(cuts) {
            for (name, own) in head.iter().zip(row) {
                match name
                    .strip_prefix("cut.")
                    .or(cut.get(name).map(|_| name.as_str()))
                    .filter(|name| cut.get(name).is_some())
                {
                    Some(inner) if name.starts_with("cut.") || stick.get(name).is_none() => {
                        cell(name, cut.get(inner), own)
                    }
                    _ => cell(name, stick.get(name), own),
                }
            }
        }
        for stick in sticks {
            on_page(&page, &stick["length"]);
            on_page(&page, &stick["waste"]);
        }
        for left in json["plan"]["unplanned"].as_array().unwrap() {
            assert!(page.contains(left["name"].as_str().unwrap()), "{page}");
        }
    }
}

/// 3 answers of 20 works each.
#[test]
fn there_are_sixty_lines() {
    assert!(WORKS.len() * 3 >= 60);
}

/// Reading a name that a field of a map no longer has names the one that it has.
#[test]
fn an_old_name_is_an_error_that_names_the_new() {
    let mut bench = Bench::with(WORKS[0]);
    for (before, behind) in [
        ("planned([design]).", ""),
        ("planned([design])?.", ""),
        ("planned([design])[\"", "\"]"),
        ("let p = planned([design]); p[\"", "\"]"),
        ("[planned([design])][0][\"", "\"] == true"),
    ] {
        let [old, new] = ["stock_said", "stock_recorded"].map(|name| format!("{before}{name}{behind}"));
        let found = bench.session.line(&old).reply.unwrap_err();
        let shown = benchrule::show::finding(&found[0], &old, 80).render(80, false);
        let carets = format!("{}{}", " ".repeat(before.len()), "^".repeat("stock_said".len()));
        assert_eq!(
            shown,
            format!("error: `stock_said` is now called `stock_recorded`\n  {old}\n  {carets}\n  try: {new}\n")
        );
        assert!(bench.session.line(&new).reply.is_ok(), "{new}");
    }
    // A list of texts reads no field.
    assert!(bench.session.line("[\"stock_said\"]").reply.is_ok());
}

/// The maps that scripts got before any name changed: the lines of a bench, what leads to the map, and the names in it.
const READ_BEFORE: &[(&[&str], &str, &str)] = &[
    (CHERRY, "parts(design)[0]", "name quantity material cut_from section short long mitre tilt show"),
    (WALNUT, "parts(design).filter(|p| p.cut_from == \"sheet\")[0]", "name quantity material width height thickness"),
    (LOW, "checks(design)[0]", "level name says mend"),
    (CHERRY, "planned([design])", "cost bound proven stock_said sticks boards sheets unplanned"),
    (CHERRY, "planned([design]).sticks[0]", "length of cost parts offcut waste"),
    (CHERRY, "planned([design]).sticks[0].parts[0]", "name length from"),
    (WALNUT, "planned([design]).boards[0]", "length width of block"),
    (WALNUT, "planned([design]).boards[0].block", "length width"),
    (WALNUT, "planned([design]).sheets[0]", "length width of parts"),
    (WALNUT, "planned([design]).sheets[0].parts[0]", "name width height turned left bottom"),
    (OAK, "planned([design]).unplanned[0]", "name quantity because"),
];
const CHERRY: &[&str] = &["art 16 x 20 x 3/4", "wood cherry"];
const WALNUT: &[&str] = &["new rabbeted", "art 8 x 10 x 1/16", "wood walnut", "glazing glass 2mm"];
const LOW: &[&str] = &["art 9 x 12 x 3/4", "depth 3/8"];
const OAK: &[&str] = &["art 16 x 20 x 3/4", "wood oak"];

/// Every name that a script could read is read still, or is an error that names the new one; and the README's list of
/// changed names holds exactly the latter as names of scripts.
#[test]
fn no_name_of_a_script_went_without_a_word() {
    let mut gone = Vec::new();
    for (lines, map, names) in READ_BEFORE {
        let mut bench = Bench::with(lines);
        for old in names.split(' ') {
            let line = format!("{map}.{old}");
            let Err(found) = bench.session.line(&line).reply else { continue };
            let says = rows::spoken(&found[0].says);
            let new = says.strip_prefix(&format!("`{old}` is now called `")).and_then(|rest| rest.strip_suffix('`'));
            let new = new.unwrap_or_else(|| panic!("{line}: {says}"));
            assert!(bench.session.line(&format!("{map}.{new}")).reply.is_ok(), "{map}.{new}");
            gone.push((format!("`{old}`"), format!("`{new}`")));
        }
    }
    let readme = include_str!("../../README.md");
    let table = readme.split_once("| where | before | now |").unwrap().1.split_once("\n\n").unwrap().0;
    let rows = table.lines().map(|line| line.split('|').map(str::trim).collect::<Vec<_>>());
    let scripts = rows.filter(|row| row.len() == 5 && row[1].contains("scripts"));
    let listed: Vec<(String, String)> = scripts.map(|row| (row[2].into(), row[3].into())).collect();
    assert_eq!(gone, listed);
}

/// A field that is set and does nothing names the value that turns it off.
#[test]
fn a_field_without_effect_names_the_reason() {
    for (lines, line, note) in [
        (&["art 16 x 20 x 3/4", "hanger cleat"][..], "hook.count 1", "hook.count does nothing here: hanger is cleat"),
        (&["art 16 x 20 x 3/4", "hanger hooks"], "wire 20", "wire does nothing here: hanger is hooks"),
    ] {
        let (page, _, _) = Bench::with(lines).both(line);
        assert!(page.contains(note), "{page}");
    }
}
