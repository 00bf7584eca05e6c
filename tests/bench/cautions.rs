//! Cautions are on every page that sends a framer to a hazard, as lines and as data.

use std::rc::Rc;

use benchrule::host::Memory;
use benchrule::session::Session;
use benchrule::shop::Settings;
use benchrule::show::{Press, answer, json};

const DESIGN: &[&str] = &[
    "new rabbeted",
    "art.kind paper",
    "art 36 x 48 x 1/64",
    "glazing glass 1/8in",
    "backing mdf 1/4in",
    "wood red cedar",
    "wall.centre 80in",
];

/// A hazard as the page has to name it, and the pages that have it.
const PAGES: &[(&str, &str)] = &[
    ("parts", "Wood dust causes cancer:"),
    ("plan", "Wood dust causes cancer:"),
    ("movement", "Wood dust causes cancer:"),
    ("parts", "Dust of red cedar causes asthma (ACGIH limit 0.5 mg/m3):"),
    ("plan", "Dust of red cedar causes asthma (ACGIH limit 0.5 mg/m3):"),
    ("parts", "Dust of mdf holds formaldehyde"),
    ("plan", "Dust of mdf holds formaldehyde"),
    ("parts", "Saws cut hands:"),
    ("plan", "Saws cut hands:"),
    ("parts", "Glass edges cut:"),
    ("plan", "Glass edges cut:"),
    ("fixings", "Glass edges cut:"),
    ("parts", "Large glass breaks:"),
    ("plan", "Large glass breaks:"),
    ("parts", "Routers grab:"),
    ("plan", "Routers grab:"),
    ("parts", "Finishes burn:"),
    ("hang", "Lifting strains backs:"),
    ("hang", "Ladders tip:"),
    ("hang", "Frames fall:"),
];

/// The page of a line at 80 columns, and the short lines in its JSON.
fn both(session: &mut Session, line: &str) -> (String, Vec<String>) {
    let reply = session.line(line).reply.unwrap_or_else(|found| panic!("{line}: {found:?}"));
    let manner = session.manner();
    let object = json::reply(&reply, &manner);
    let page = object.get(line).filter(|page| page.is_object()).map_or(&object, |page| page);
    let cautions = page.get("cautions").or(object.get("cautions")).and_then(|all| all.as_array());
    let short = cautions.into_iter().flatten().map(|one| one["short"].as_str().unwrap().to_string());
    (answer::page(&reply, &manner, 80).render(80, false), short.collect())
}

#[test]
fn every_page_has_its_cautions_in_text_and_json() {
    let press = Rc::new(Press { width: 80 });
    let mut session = Session::new(Rc::new(Memory::default()), Settings::default(), press);
    for line in DESIGN {
        assert!(session.line(line).reply.is_ok(), "{line}");
    }
    for (line, hazard) in PAGES {
        let (page, short) = both(&mut session, line);
        assert!(page.lines().any(|shown| shown.starts_with(hazard)), "{line}: {hazard}\n{page}");
        assert!(short.iter().any(|short| short.starts_with(hazard)), "{line} in JSON: {hazard} in {short:?}");
        assert!(short.iter().all(|short| short.chars().count() <= 80 && page.contains(short)), "{line}: {short:?}");
    }
    // The sheet has the whole text, and so has `cautions`, with sources.
    for line in ["sheet", "cautions"] {
        let (page, short) = both(&mut session, line);
        let flat = page.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(flat.contains("Wood dust of any species can cause cancer of the nose"), "{page}");
        assert!(short.len() >= 10, "{short:?}");
    }
    let (page, _) = both(&mut session, "cautions");
    assert!(page.contains("IARC, Wood dust, group 1"), "{page}");
}
