//! Words and their forms: an argument missing or too many, names of the wanted kind alone, and what a Tab offers.

use benchrule::session::{WORDS, Word, complete};
use benchrule::word::{Kind, reserved};

use crate::bench::Bench;

/// A bench on which every form has something to work with.
fn bench() -> Bench {
    let export = "{\"file\":\"benchrule design book\",\"format\":1}\n";
    let files = [
        ("show.rhai", "1"),
        ("book.jsonl", export),
        ("shows/spring fair.rhai", "1"),
        ("shows/.hidden.rhai", "1"),
        ("my parts.csv", "1"),
    ];
    let mut bench = Bench::with(&files);
    for line in [
        "wall.width 12ft",
        "art 16 x 20 x 3/4",
        "keep moth-07",
        "reveal 3/8",
        "keep moth-07 \"a wider gap\"",
        "keep lantern",
        "keep old-gate",
        "retire old-gate",
        "stock add stick, 8ft, , 4, 12.50, poplar, 3/4 x 1 1/2",
        "reveal 1/2",
        "undo",
    ] {
        let shown = bench.line(line);
        assert!(!shown.failed(), "{line}: {}", shown.text);
    }
    bench
}

/// Every line of a word, part by part.
fn lines(word: &Word) -> Vec<Vec<(Option<Kind>, &'static str)>> {
    word.forms.iter().flat_map(|form| form.samples()).collect()
}

fn line(word: &Word, parts: &[(Option<Kind>, &'static str)]) -> String {
    let texts = parts.iter().map(|(kind, text)| if *kind == Some(Kind::Retired) { "old-gate" } else { *text });
    [word.name].into_iter().chain(texts).collect::<Vec<_>>().join(" ")
}

/// The line is refused at `place`, and what is offered instead runs.
#[track_caller]
fn refused(bench: &mut Bench, line: &str, place: std::ops::Range<usize>) {
    let found = bench.0.line(line).reply.map(|_| ()).expect_err(line);
    assert_eq!(found.len(), 1, "{line}");
    assert_eq!(found[0].span, Some(place), "{line}: {:?}", found[0]);
    let Some(hint) = &found[0].fixed(line).into_iter().next() else { panic!("{line} offers nothing: {:?}", found[0]) };
    // A style is checked by thousands of designs, and a backup goes to the disk; tests of their own do that.
    if hint.starts_with("style check") || hint.starts_with("book backup") {
        return;
    }
    // There is no plan to take, none to put back, and no length without a unit; the lines themselves are right.
    if ["plan take", "plan put back", "stock unit"].iter().any(|begin| hint.starts_with(begin)) {
        return;
    }
    let shown = self::bench().line(hint);
    assert!(!shown.failed(), "{line} offers {hint}: {}", shown.text);
}

#[test]
fn a_missing_argument_is_pointed_at_in_every_form() {
    let mut bench = bench();
    let mut tried = 0;
    for word in WORDS {
        let all = lines(word);
        for parts in &all {
            for kept in 0..parts.len() {
                let line = line(word, &parts[..kept]);
                let rest = word.name.len()..line.len();
                if word.read(&line, rest).is_ok() {
                    continue;
                }
                refused(&mut bench, &line, line.len()..line.len());
                tried += 1;
            }
        }
    }
    assert!(tried > 40, "{tried}");
}

#[test]
fn an_argument_too_many_is_pointed_at_in_every_form() {
    const MORE: &str = "zzz";
    let mut bench = bench();
    let mut tried = 0;
    for word in WORDS {
        for parts in lines(word) {
            let whole = line(word, &parts);
            let line = format!("{whole} {MORE}");
            let rest = word.name.len()..line.len();
            // Some forms end in text of any length, or in one name after another.
            let Err(stuck) = word.read(&line, rest) else { continue };
            // `figure zzz` begins another form, of which the rest is missing.
            let place = if stuck.found().is_empty() { line.len() } else { whole.len() + 1 };
            refused(&mut bench, &line, place..line.len());
            tried += 1;
        }
    }
    assert!(tried > 30, "{tried}");
}

#[test]
fn a_new_design_is_not_called_like_a_literal() {
    let names: Vec<&str> = reserved(WORDS).into_iter().collect();
    assert_eq!(names, ["all", "if", "put", "take", "to"]);
    for name in names {
        for line in [format!("keep {name}"), format!("rename lantern {name}"), format!("copy lantern {name}")] {
            let mut bench = bench();
            refused(&mut bench, &line, line.len() - name.len()..line.len());
        }
        let script = format!("let d = new_design(); d.art = 5in x 7in; keep(d, \"{name}\")");
        assert!(bench().line(&script).failed(), "{script}");
    }
}

/// A book from before such names were refused.
const TAKE: &str = concat!(
    "{\"file\":\"benchrule design book\",\"format\":1}\n",
    "{\"design\":\"take\",\"revision\":1,\"time\":\"2026-03-02T12:01:00Z\",\"note\":\"\",\"program\":\"0.1.0\",",
    "\"tape\":\"1/16 in\",\"fields\":{\"build\":\"float\",\"art.width\":\"16in\",\"art.height\":\"20in\"},\"figures\":{}}\n",
);

#[test]
fn a_design_called_like_a_literal_opens_in_quotes() {
    let mut bench = Bench::with(&[("old.jsonl", TAKE)]);
    let mut done = |line: &str| {
        let shown = bench.line(line);
        assert!(!shown.failed(), "{line}: {}", shown.text);
        shown.text
    };
    done("book import old.jsonl");
    assert!(done("open take").starts_with("take@1"));
    assert!(done("open \"take\"").starts_with("take@1"));
    done("keep take");
    assert!(done("hang take").starts_with("Weight"));
    assert!(done("plan \"take\"").contains("stick"));
    assert!(done("rename \"take\" lantern").starts_with("take is now lantern"));
    assert!(done("plan lantern").contains("stick"));
}

/// What a Tab offers at the end of a line, whole lines.
fn offered(bench: &mut Bench, line: &str) -> Vec<String> {
    let (start, offers) = complete::complete(&mut bench.0, line, line.len());
    offers.into_iter().map(|offer| format!("{}{}", &line[..start], offer.text)).collect()
}

#[test]
fn a_tab_goes_on_with_every_argument() {
    let mut bench = bench();
    for (line, wanted) in [
        ("kee", "keep"),
        ("plan mo", "plan moth-07"),
        ("plan lantern, mo", "plan lantern, moth-07"),
        ("plan pu", "plan put"),
        ("plan put ", "plan put back"),
        ("hang mo", "hang moth-07"),
        ("parts moth-07 t", "parts moth-07 to"),
        ("parts to my", "parts to \"my parts.csv\""),
        ("parts to \"my", "parts to \"my parts.csv\""),
        ("open moth-07@", "open moth-07@2"),
        ("open moth-07@1", "open moth-07@1"),
        ("restore ", "restore old-gate"),
        ("compare lantern mo", "compare lantern moth-07"),
        ("rename lan", "rename lantern"),
        ("find mo", "find moth-07"),
        ("find i", "find if"),
        ("find if opening.wi", "find if opening.width"),
        ("book ", "book export"),
        ("book import b", "book import book.jsonl"),
        ("run s", "run shows/"),
        ("run shows/", "run \"shows/spring fair.rhai\""),
        ("help narrow", "help narrow-float"),
        ("help graduat", "help graduation"),
        ("help style nar", "help style narrow-float"),
        ("style nar", "style narrow-float"),
        ("style check ", "style check narrow-float"),
        ("style check s", "style check show.rhai"),
        ("style narrow-float ga", "style narrow-float gap="),
        ("style narrow-float wood=ma", "style narrow-float wood=mahogany"),
        ("glazing ", "glazing acrylic"),
        ("wood ch", "wood cherry"),
        ("wood = ch", "wood = cherry"),
        ("build ", "build shadowbox"),
        ("new sh", "new shadowbox"),
        ("reveal ", "reveal 3/8\""),
        ("reveal fa", "reveal face"),
        ("reveal 2 * fa", "reveal 2 * face"),
        ("clear re", "clear reveal"),
        ("why outside.wi", "why outside.width"),
        ("tolerance outside.wi", "tolerance outside.width"),
        ("aim outside.wi", "aim outside.width"),
        ("aim outside.width 20 b", "aim outside.width 20 by"),
        ("aim outside.width 20 by rev", "aim outside.width 20 by reveal"),
        ("tape outside.wi", "tape outside.width"),
        ("movement ", "movement from"),
        ("movement from 70degF 35% t", "movement from 70degF 35% to"),
        ("shop gr", "shop graduation"),
        ("shop graduation 1/3", "shop graduation 1/32 in"),
        ("shop unit ", "shop unit mm"),
        ("shop wood ch", "shop wood cherry"),
        ("shop s", "shop save"),
        ("stock ", "stock add"),
        ("stock add st", "stock add stick"),
        ("stock add stick, 8ft, , 4, 12.50, ch", "stock add stick, 8ft, , 4, 12.50, cherry"),
        ("stock add sheet, 32in, 40in, 4, 12.50, acr", "stock add sheet, 32in, 40in, 4, 12.50, acrylic"),
        ("stock add sheet, 32in, 40in, 4, 12.50, mat b", "stock add sheet, 32in, 40in, 4, 12.50, mat board"),
        ("stock add board, 8ft, 6in, 4, 30, oak, 4", "stock add board, 8ft, 6in, 4, 30, oak, 4/4"),
        ("help as", "help ash"),
        ("help hook 1", "help hook 10 lb"),
        ("help foam", "help foam board"),
        ("stock drop ", "stock drop 1"),
        ("figure own.width = outside.wi", "figure own.width = outside.width"),
        ("outside.width + fa", "outside.width + face"),
        ("rou", "round("),
    ] {
        let offers = offered(&mut bench, line);
        assert!(offers.iter().any(|offer| offer == wanted), "{line}: {offers:?}");
    }
}

#[test]
fn a_tab_offers_nothing_else() {
    let mut bench = bench();
    for (line, wanted) in [
        ("open mo", &["open moth-07"][..]),
        ("retire la", &["retire lantern"]),
        ("restore la", &[]),
        ("sheet ", &["sheet fixings", "sheet hang", "sheet movement", "sheet tolerance"]),
        ("keep lantern ", &[]),
        ("rename lantern mo", &[]),
        ("clear fa", &[]),
        ("book export shows/.", &[]),
        ("movement f", &["movement from"]),
        ("plan put b", &["plan put back"]),
        ("aim outside.width 20 b", &["aim outside.width 20 by"]),
    ] {
        assert_eq!(offered(&mut bench, line), wanted, "{line}");
    }
}

#[test]
fn every_offer_has_its_meaning() {
    let mut bench = bench();
    for line in
        ["kee", "open mo", "wood ch", "build fl", "style nar", "shop gr", "why outside.wi", "new sh", "help over"]
    {
        for offer in complete::complete(&mut bench.0, line, line.len()).1 {
            assert!(!offer.doc.is_empty(), "{line}: {}", offer.text);
        }
    }
}

#[test]
fn near_names_are_of_the_wanted_kind() {
    let mut bench = bench();
    for line in ["keep reveall", "keep oka", "keep narow-float"] {
        assert!(!bench.line(line).failed(), "{line}");
    }
    for (line, wanted) in [
        ("open revael", "open reveall"),
        ("why revael", "why reveal"),
        ("clear revael", "clear reveal"),
        ("parts revael to x.csv", "parts reveall to x.csv"),
        ("style narow-float", "style narrow-float"),
        ("open narrow-float", "open narow-float"),
        ("wood oka", "wood oak"),
        ("shop wodd oak", "help wood"),
        ("compare oak reveall", "compare oka reveall"),
        ("new flot", "new float"),
        ("aim outside.widht 20 by reveal", "aim outside.width 20 by reveal"),
    ] {
        let found = bench.0.line(line).reply.map(|_| ()).expect_err(line);
        assert_eq!(found[0].fixed(line).first().map(String::as_str), Some(wanted), "{line}");
    }
}
