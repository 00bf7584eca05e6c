//! Everything that has a name, in one text, so that no change to the tables goes unseen.
//!
//! With `BLESS=1` the text is written anew, and the difference is reviewed like code.

use std::fmt::Write;
use std::path::Path;

use benchrule::lang::builtin::topics;
use benchrule::measure::UNITS;
use benchrule::measure::write::Manner;
use benchrule::rules::{Design, Input, Role, Type, shipped};
use benchrule::session::WORDS;
use benchrule::session::style::{SHIPPED, first_line};
use benchrule::shop::Settings;

type Said = Result<String, std::fmt::Error>;

fn words() -> Said {
    let mut text = String::from("== Words ==\n");
    for word in WORDS {
        writeln!(text, "\n{}\n    {}", word.usage(), word.brief)?;
        for arg in word.args() {
            writeln!(text, "    {}: {}", arg.name, arg.doc)?;
        }
        word.example.0.iter().try_for_each(|line| writeln!(text, "    > {line}"))?;
        if !word.example.1.is_empty() {
            writeln!(text, "    {} …", word.example.1)?;
        }
    }
    Ok(text)
}

/// Fields and figures of a build, in the order of the sheet.
fn build(name: &str) -> Said {
    let mut design = Design::new(shipped(), Manner::default());
    design.set("build", Input::Text(name.into())).unwrap();
    let book = design.book();
    let build = &book.builds[usize::from(design.build())];
    let mut text = format!("== {name}: {} ==\n", build.doc);
    for slot in &build.order {
        let name = book.name(*slot);
        let rule = design.rule(*slot).unwrap();
        let role = match name.role {
            Role::Field => "field",
            Role::Figure => "figure",
            Role::Either if rule.given => "figure, may be given",
            Role::Either => "figure",
            Role::Gather => "several",
        };
        let heading = book.groups.get(usize::from(name.group)).map_or("", |group| group.name.as_str());
        writeln!(text, "\n{} ({}, {role}; {heading})\n    {}", name.text, name.of, name.doc)?;
        if name.role == Role::Gather || name.of == Type::Size {
            let parts: Vec<&str> = rule.reads.iter().map(|part| book.name(*part).text.as_str()).collect();
            writeln!(text, "    is {}", parts.join(", "))?;
        } else if let Some(formula) = design.formula(*slot) {
            writeln!(text, "    {} {formula}", if rule.given { "usually" } else { "=" })?;
        }
        if let Some(toward) = rule.toward {
            writeln!(text, "    rounded to the marks of the tape, {toward}")?;
        }
        if let Some(words) = book.words(rule) {
            writeln!(text, "    one of {}", words.join(", "))?;
        }
    }
    Ok(text)
}

fn checks() -> Said {
    let book = shipped();
    let mut text = String::from("== Checks ==\n");
    for check in &book.checks {
        let builds: Vec<&str> = check.builds.iter().map(|build| &*book.builds[usize::from(*build)].name).collect();
        let mend = check.mend.as_ref().map(|(slot, ..)| format!(", mends {}", book.name(*slot).text));
        let mut design = Design::new(book.clone(), Manner::default());
        design.set("build", Input::Text(builds[0].into())).unwrap();
        let fires = if check.fires_if { "if" } else { "unless" };
        writeln!(text, "\n{} {}: {}{}", check.level, check.name, builds.join(", "), mend.unwrap_or_default())?;
        writeln!(text, "    {fires} {}", design.condition(check))?;
    }
    Ok(text)
}

fn functions() -> Said {
    let mut text = String::from("== Functions ==\n");
    for (topic, rows) in topics() {
        writeln!(text, "\n-- {topic} --")?;
        for row in rows {
            writeln!(text, "\n{}\n    {}", row.signature(), row.brief)?;
            let gives = row.shape.is_some() || !row.gives.is_empty();
            for param in row.params.iter().filter(|param| !param.brief.is_empty() || gives) {
                writeln!(text, "    {}: {}", param.name, param.about())?;
            }
            if gives {
                writeln!(text, "    {}", row.returns.of_each())?;
            }
            for part in row.gives {
                writeln!(text, "        {}: {}", part.name, part.about())?;
            }
            for head in row.shape.into_iter().flat_map(|shape| shape.heads()) {
                writeln!(text, "        {}: {}", head.name, head.doc)?;
            }
            for (line, answer) in row.examples {
                writeln!(text, "    > {line}")?;
                if !answer.is_empty() {
                    writeln!(text, "    {answer}")?;
                }
            }
        }
    }
    Ok(text)
}

fn units() -> Said {
    let mut text = String::from("== Units ==\n\n");
    for unit in UNITS {
        let (above, below) = unit.factor;
        let zero = if unit.zero == (0, 1) { String::new() } else { format!(", from {}/{}", unit.zero.0, unit.zero.1) };
        writeln!(text, "{}: {}, {} ({above}/{below}{zero})", unit.names.join(" "), unit.kind, unit.brief)?;
    }
    Ok(text)
}

fn shop() -> Said {
    let mut text = String::from("== Settings ==\n\n");
    for setting in Settings::default().all() {
        writeln!(text, "{}: {}: {}", setting.name, setting.brief, setting.example)?;
    }
    text += "\n== Styles ==\n\n";
    for (name, style) in SHIPPED {
        writeln!(text, "{name}: {}", first_line(style))?;
    }
    Ok(text)
}

#[test]
fn the_reference_is_as_written() {
    let mut parts = vec![words()];
    let book = shipped();
    parts.extend(book.builds.iter().map(|each| build(&each.name)));
    parts.extend([checks(), functions(), units(), shop()]);
    let reported = parts.into_iter().map(Result::unwrap).collect::<Vec<_>>().join("\n");
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/bench/registry/reference.txt");
    if std::env::var_os("BLESS").is_some() {
        std::fs::write(&file, &reported).unwrap();
    }
    let written = std::fs::read_to_string(&file).unwrap_or_default();
    let differs = written.lines().zip(reported.lines()).find(|(written, reported)| written != reported);
    assert_eq!(differs, None, "BLESS=1 writes it anew");
    assert_eq!(written.lines().count(), reported.lines().count(), "BLESS=1 writes it anew");
}
