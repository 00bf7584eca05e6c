//! From one home to another: export, import, scripts.

use crate::program::Home;

/// A shop that keeps a few designs, by words and by a script.
fn shop() -> Home {
    let home = Home::new();
    home.file(
        "series.rhai",
        "for width in [9in, 12in, 15in] {\n\
           let d = new_design();\n\
           d.art = size(width, 20in);\n\
           d = styled(d, \"narrow-float\");\n\
           print(keep(d, `series-${inches(width)}`, \"of a series\"));\n\
         }\n",
    );
    let ran = home.run(&["run", "series.rhai"]);
    assert_eq!((ran.out.as_str(), ran.err.as_str()), ("series-9@1\nseries-12@1\nseries-15@1\n", ""));
    let ran = home.say(&[
        "art 400mm x 500mm x 19mm",
        "client Zwei \"Laternen\"",
        "keep größe \"it's; 5\" wide\"",
        "reveal sqrt(2) * 1/4in",
        "keep größe",
        "retire series-12",
        "book export out.jsonl",
    ]);
    assert_eq!(ran.err, "");
    home
}

#[test]
fn an_export_in_an_empty_home_gives_the_same_export() {
    let home = shop();
    let other = Home::new();
    other.file("in.jsonl", home.read("out.jsonl"));
    let ran = other.say(&["book import in.jsonl", "book export out.jsonl"]);
    assert_eq!(
        (ran.out.as_str(), ran.err.as_str()),
        ("5 revisions imported from in.jsonl; 4 designs are new\n4 designs, 5 revisions written to out.jsonl\n", "")
    );
    assert_eq!(other.read("out.jsonl"), home.read("out.jsonl"));
}

#[test]
fn a_script_goes_through_the_book() {
    let home = shop();
    home.file(
        "walk.rhai",
        "for entry in book() {\n\
           let d = open_design(entry.name);\n\
           print(`${entry.name}@${entry.revision} ${entry.build} ${d.art.width}`);\n\
         }\n\
         print(book(\"if art.width < 10in\").len());\n\
         print(book(\"laternen\")[0].note == \"\");\n\
         let first = open_design(\"größe@1\");\n\
         print(first.reveal);\n",
    );
    let ran = home.run(&["run", "walk.rhai"]);
    assert_eq!(
        (ran.out.as_str(), ran.err.as_str()),
        ("größe@2 float 15 3/4\" - 0.002\"\nseries-15@1 float 15\"\nseries-9@1 float 9\"\n1\ntrue\n1/4\"\n", "")
    );
}

#[test]
fn a_script_is_told_what_it_cannot_have() {
    let home = shop();
    let ran = home.say(&["open_design(\"grösse\")", "keep(design, \"a b\")", "book(\"if face\")", "keep(5, \"x\")"]);
    let errors: Vec<&str> = ran.err.lines().filter(|line| line.starts_with("error: ")).collect();
    assert_eq!(
        errors,
        [
            "error: there is no design called grösse",
            "error: names contain only letters, digits, -, _ and .; not \" \"",
            "error: find wants a condition, not a length",
            "error: d is a design, and 5 is a number",
        ]
    );
    // What a failed line kept before it failed is kept: it was said to be on disk.
    let ran = home.say(&["art 5 x 5", "print(keep(design, \"early\")); sqrtt(4)", "revisions early"]);
    assert!(ran.out.contains("early@1\n"), "{}", ran.out);
}

/// The saved bench is the shell's: lines and scripts leave it alone.
#[test]
fn lines_and_scripts_touch_no_bench() {
    let home = shop();
    home.pipe(&[], "art 16 x 20\nreveal 3/8\n");
    assert!(home.names().iter().all(|name| name != "benches"), "{:?}", home.names());
}
