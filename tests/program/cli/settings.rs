//! Where settings come from, and what they do: folders, the bench unit, colour, width.

use crate::program::{Home, bare, finish};

const LENGTH_MM: &str = "25 mm + 0.4 mm   1\"\n";
const LENGTH_IN: &str = "1\"   25.4 mm\n";

#[test]
fn the_unit_stands_before_or_after_the_task() {
    let home = Home::new();
    home.file("a.rhai", "1\"");
    home.run(&["--unit", "mm", "-e", "1\""]).says(LENGTH_MM);
    home.run(&["-e", "1\"", "--unit=mm"]).says(LENGTH_MM);
    home.run(&["--unit", "mm", "run", "a.rhai"]).says(LENGTH_MM);
    home.run(&["run", "--unit", "mm", "a.rhai"]).says(LENGTH_MM);
    home.pipe(&["--unit", "mm"], "setback 10").says("setback  10 mm   0.394\"\n");
}

#[test]
fn the_unit_asked_for_goes_before_the_shops() {
    let home = Home::new();
    home.file("shop.toml", "unit = \"mm\"\n");
    home.say(&["1\""]).says(LENGTH_MM);
    home.run(&["--unit", "in", "-e", "1\""]).says(LENGTH_IN);
    // The shop's own tape of that unit stays.
    home.file("shop.toml", "graduation = \"1/32 in\"\n");
    home.run(&["--unit", "in", "-e", "3/32in"]).says("3/32\"   2.4 mm\n");
}

#[test]
fn a_home_may_be_named_by_the_world_around() {
    let (home, other) = (Home::new(), Home::new());
    home.file("shop.toml", "unit = \"mm\"\n");
    let by_name = |words: &[&str]| {
        let mut command = bare(other.path());
        command.env("BENCHRULE_HOME", home.path()).args(words);
        finish(command.spawn().unwrap())
    };
    by_name(&["-e", "1\""]).says(LENGTH_MM);
    // What the command line sets wins.
    by_name(&["--home", other.path().to_str().unwrap(), "-e", "1\""]).says(LENGTH_IN);
    by_name(&["-e", "shop wood cherry", "-e", "shop save"]);
    assert!(home.read("shop.toml").contains("wood = \"cherry\""));
    assert_eq!(other.names(), <[String; 0]>::default());
}

#[test]
fn a_home_that_is_not_there_is_an_empty_one() {
    let home = Home::new();
    let mut command = bare(home.path());
    command.args(["--home", "not/there", "-e", "1\""]);
    finish(command.spawn().unwrap()).says(LENGTH_IN);
    assert_eq!(home.names(), <[String; 0]>::default());
}

#[test]
fn faulty_settings_are_reported_and_keep_no_one_from_the_bench() {
    let home = Home::new();
    let faulty = "unit = \"ell\"\nwodd = \"oak\"\n";
    home.file("shop.toml", faulty);
    let ran = home.say(&["1\""]);
    assert_eq!((ran.out.as_str(), ran.status), (LENGTH_IN, 1));
    assert_eq!(
        ran.err,
        "\
error: the bench unit is in or mm, not ell
  in shop.toml, line 1, column 8
  unit = \"ell\"
         ^^^^^
error: there is no setting wodd
  in shop.toml, line 2, column 1
  wodd = \"oak\"
  ^^^^
  try: wood
"
    );
    assert_eq!(home.read("shop.toml"), faulty);
    home.file("shop.toml", "unit = ");
    let ran = home.say(&["1\""]);
    assert_eq!((ran.out.as_str(), ran.status), (LENGTH_IN, 1));
    assert!(ran.err.contains("in shop.toml, line 1, column "), "{}", ran.err);
    home.file("shop.toml", b"caf\xe9");
    let ran = home.say(&["1\""]);
    assert_eq!((ran.out.as_str(), ran.status), (LENGTH_IN, 1));
    assert!(ran.err.contains("is not UTF-8 text"), "{}", ran.err);
}

#[test]
fn settings_are_written_when_asked_for_and_not_before() {
    let home = Home::new();
    assert_eq!(home.say(&["shop unit mm", "setback 10"]).status, 0);
    assert_eq!(home.names(), <[String; 0]>::default());
    assert_eq!(home.say(&["shop unit mm", "shop save"]).status, 0);
    assert_eq!(home.names(), ["shop.toml"]);
    home.say(&["1\""]).says(LENGTH_MM);
}

#[test]
fn remarks_in_the_settings_outlive_a_save() {
    let home = Home::new();
    home.file("shop.toml", "# Two Lanterns\nwood = \"walnut\" # dear\n");
    assert_eq!(home.say(&["shop wood ash", "shop save"]).status, 0);
    let text = home.read("shop.toml");
    assert!(text.starts_with("# Two Lanterns\n") && text.contains("# dear"), "{text}");
    assert!(text.contains("wood = \"ash\""), "{text}");
    home.say(&["wood"]).says("ash\n");
}

#[test]
fn colour_comes_where_it_is_wanted() {
    let home = Home::new();
    let coloured = |words: &[&str], no_color: Option<&str>| {
        let mut command = home.command(words);
        if let Some(value) = no_color {
            command.env("NO_COLOR", value);
        }
        let ran = finish(command.args(["-e", "1\"", "-e", "shete"]).spawn().unwrap());
        let (out, err) = (ran.out.contains('\u{1b}'), ran.err.contains('\u{1b}'));
        assert_eq!(out, err, "{words:?}");
        out
    };
    // Neither stream is a terminal here.
    assert!(!coloured(&[], None));
    assert!(!coloured(&["--color", "auto"], None));
    assert!(!coloured(&["--color", "never"], None));
    assert!(coloured(&["--color", "always"], None));
    assert!(!coloured(&["--color", "auto"], Some("1")));
    // Who says always means always.
    assert!(coloured(&["--color", "always"], Some("1")));
}

#[test]
fn json_is_never_coloured() {
    let ran = Home::new().run(&["--color", "always", "--json", "-e", "1\"", "-e", "shete"]);
    assert_eq!(ran.objects().len(), 2);
}

#[test]
fn pages_keep_to_the_columns_there_are() {
    let home = Home::new();
    let lines = ["-e", "art 16 1/64 x 20 x 3/4", "-e", "depth 1", "-e", "sheet", "-e", "help", "-e", "tape 15 7/16"];
    for columns in ["40", "60", "132"] {
        let ran = finish(home.command(&lines).env("COLUMNS", columns).spawn().unwrap());
        let most: usize = columns.parse().unwrap();
        let widest = ran.out.lines().max_by_key(|line| line.chars().count()).unwrap();
        assert!(widest.chars().count() <= most, "{widest}");
    }
    let usual = home.run(&lines);
    for columns in ["0", "", "wide"] {
        let ran = finish(home.command(&lines).env("COLUMNS", columns).spawn().unwrap());
        assert_eq!(ran.out, usual.out, "{columns}");
    }
}

#[test]
fn rules_of_the_house_are_read_and_a_faulty_file_is_told() {
    let home = Home::new();
    home.file("rules/crate.rules", "for all\nfield shop.padding length = 2in -- what crates are padded with\n");
    home.file("rules/width.rules", "for all\ncrate.width = outside.width + 2 * shop.padding up -- inside of a crate\n");
    let width = ["-e", "art 16 x 20 x 3/4", "-e", "crate.width"];
    assert!(home.run(&width).out.ends_with("22\"   558.8 mm\n"));
    home.file("shop.toml", "padding = \"3 1/2\"\n");
    assert!(home.run(&width).out.ends_with("25\"   635.0 mm\n"));
    // A file that comes later cannot be read: the others hold, and the fault is reported with its place.
    home.file("rules/zeal.rules", "for all\nfield crate.lid length = 1lb\n");
    let ran = home.run(&width);
    assert!(ran.out.ends_with("25\"   635.0 mm\n"));
    assert_eq!(ran.status, 1);
    assert!(ran.err.contains("zeal.rules, line 2, column 26"), "{}", ran.err);
    // A formula that no one reads any more is refused, however deep it would lead.
    for long in ["1 + ".repeat(20_000), "-".repeat(6000), "(".repeat(3000)] {
        home.file("rules/zeal.rules", format!("for all\ncrate.lid = {long}1\n"));
        let ran = home.run(&width);
        assert!(ran.out.ends_with("25\"   635.0 mm\n"));
        assert!(ran.err.contains("zeal.rules, line 2"), "{}", ran.err);
    }
    // A file that is not text, and one that is not a rules file.
    home.file("rules/zeal.rules", "\u{0}");
    home.file("rules/read me.txt", "not for the program");
    let ran = home.run(&width);
    assert_eq!(ran.err.matches("error:").count(), 1, "{}", ran.err);
}
