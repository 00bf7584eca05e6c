//! Scripts and the folders that were granted to them.

use std::fs;

use crate::program::Home;

const COPY: &str = "\
let rows = read_table(\"works.csv\");
let sized = rows.map(|row| { row.area = row.width * row.height; row.kind = kind(row.width); row });
write_table(\"sizes.csv\", sized, #{ columns: [\"name\", \"width\", \"area\", \"kind\"] });
rows.len()
";

#[test]
fn a_table_comes_in_and_goes_out() {
    let home = Home::new();
    home.file("works.csv", "name,width,height\nmoth,16 3/8\",20\"\n=lantern,400mm,1/2\"\n");
    home.file("show.rhai", COPY);
    home.run(&["run", "--out", "sheets", "show.rhai"]).says("2\n");
    assert_eq!(
        home.read("sheets/sizes.csv"),
        "name,width,area,kind\nmoth,\"16 3/8\"\"\",327.5in2,length\n'=lantern,400mm,1000/127in2,length\n"
    );
    // A second run writes nothing over.
    home.run(&["run", "--out", "sheets", "show.rhai"]).fails(
        "\
error: sizes.csv exists; not overwritten
  in show.rhai, line 3, column 1
  write_table(\"sizes.csv\", sized, #{ columns: [\"name\", \"width\", \"area\", \"kind\"…
  ^^^^^^^^^^^
  try: #{replace: true}
",
    );
    assert_eq!(fs::read_dir(home.path().join("sheets")).unwrap().count(), 1);
}

#[test]
fn what_is_asked_for_is_replaced() {
    let home = Home::new();
    for line in ["write_text(\"a.txt\", \"one\")", "write_text(\"a.txt\", \"two\", #{ replace: true })"] {
        home.run(&["--write", ".", "-e", line]).says("");
    }
    assert_eq!(home.read("a.txt"), "two");
    let ran = home.run(&["--write", ".", "-e", "write_text(\"a.txt\", \"three\", #{ over: true })"]);
    assert!(ran.err.starts_with("error: there is no option `over`; choose from replace\n"), "{}", ran.err);
    assert_eq!(home.read("a.txt"), "two");
}

#[test]
fn nothing_is_written_where_nothing_was_granted() {
    let home = Home::new();
    let ran = home.say(&["write_text(\"a.txt\", \"one\")"]);
    assert!(
        ran.err.starts_with("error: scripts write only below a folder given with --out or --write\n"),
        "{}",
        ran.err
    );
    assert_eq!(home.names(), Vec::<String>::new());
}

/// The granted folders are looked through in their order; a path that begins with one goes there.
#[test]
fn several_folders_are_granted() {
    let home = Home::new();
    for (file, text) in [("a/x.txt", "ax"), ("b/x.txt", "bx"), ("b/y.txt", "by"), ("z.txt", "z")] {
        fs::create_dir_all(home.path().join(file).parent().unwrap()).unwrap();
        home.file(file, text);
    }
    for (path, text) in [("x.txt", "ax"), ("y.txt", "by"), ("b/x.txt", "bx")] {
        let line = format!("read_text(\"{path}\")");
        home.run(&["--read", "a", "--read", "b", "-e", &line]).says(&format!("{text}\n"));
    }
    let ran = home.run(&["--read", "a", "--read", "b", "-e", "read_text(\"z.txt\")"]);
    assert!(ran.err.starts_with("error: there is no file z.txt in a or b\n"), "{}", ran.err);
    home.run(&[
        "--write",
        "a",
        "--write",
        "b",
        "-e",
        "write_text(\"b/new.txt\", \"n\"); write_text(\"m.txt\", \"m\");",
    ])
    .says("");
    assert_eq!((home.read("b/new.txt").as_str(), home.read("a/m.txt").as_str()), ("n", "m"));
}

#[test]
fn no_path_leads_out() {
    let home = Home::new();
    fs::create_dir(home.path().join("in")).unwrap();
    home.file("secret.txt", "secret");
    let absolute = home.path().join("secret.txt").display().to_string();
    for path in ["../secret.txt", "in/../secret.txt", &absolute] {
        for call in [format!("read_text(\"{path}\")"), format!("write_text(\"{path}\", \"x\", #{{ replace: true }})")] {
            let ran = home.run(&["--read", "in", "--write", "in", "-e", &call]);
            let said = format!("error: {path} leads outside its folder");
            let said = said.get(..30).unwrap();
            assert!(ran.err.starts_with(said) && ran.status == 1, "{call}: {}", ran.err);
        }
    }
    assert_eq!(home.read("secret.txt"), "secret");
}

#[cfg(unix)]
#[test]
fn no_link_is_followed() {
    let home = Home::new();
    fs::create_dir_all(home.path().join("in")).unwrap();
    home.file("secret.txt", "secret");
    std::os::unix::fs::symlink("..", home.path().join("in/up")).unwrap();
    std::os::unix::fs::symlink("../secret.txt", home.path().join("in/file.txt")).unwrap();
    for (path, part) in [("up/secret.txt", "up"), ("file.txt", "file.txt")] {
        for call in [format!("read_text(\"{path}\")"), format!("write_text(\"{path}\", \"x\", #{{ replace: true }})")] {
            let ran = home.run(&["--read", "in", "--write", "in", "-e", &call]);
            let said = format!("error: {path} goes through the link {part}; scripts do not follow links\n");
            assert!(ran.err.starts_with(&said), "{call}: {}", ran.err);
        }
    }
    assert_eq!(home.read("secret.txt"), "secret");
}

#[test]
fn json_comes_in_and_goes_out() {
    let home = Home::new();
    home.file("show.json", "{ \"works\": [ { \"name\": \"moth\", \"width\": \"16 3/8\\\"\", \"share\": 0.1 } ] }");
    home.file(
        "a.rhai",
        "let show = read_json(\"show.json\");\nlet work = show.works[0];\nwork.width = parse(work.width) * 2;\n\
         work.share *= 3;\nwrite_json(\"out.json\", [work]);\n",
    );
    home.run(&["run", "--out", ".", "a.rhai"]).says("");
    let text = "[\n  {\n    \"name\": \"moth\",\n    \"share\": 0.3,\n    \"width\": \"32 3/4\\\"\"\n  }\n]\n";
    assert_eq!(home.read("out.json"), text);
    let ran = home.run(&["--write", ".", "-e", "write_json(\"d.json\", design)"]);
    assert!(ran.err.starts_with("error: JSON has no place for a design\n"), "{}", ran.err);
}

#[test]
fn a_faulty_table_is_told_with_its_line() {
    let home = Home::new();
    home.file("works.csv", "name,width\nmoth,16\nlantern\n");
    home.say(&["read_table(\"works.csv\")"]).fails(
        "\
error: this row has 1 cell, and there are 2 columns
  in works.csv, line 3, column 8
  lantern
         ^
  try: lantern,
",
    );
    home.file("latin.csv", b"caf\xe9");
    let ran = home.say(&["read_table(\"latin.csv\")"]);
    assert!(ran.err.starts_with("error: latin.csv is not UTF-8 text: byte 3 is not part of a letter\n"), "{}", ran.err);
}

#[test]
fn limits_hold_for_files() {
    let home = Home::new();
    home.file("long.txt", "x".repeat(2 << 20));
    home.file("shop.toml", "[script]\nread = 1\nwritten = 1\n");
    let ran = home.say(&["read_text(\"long.txt\")"]);
    let said = "error: long.txt is too large: a script reads at most 1 MiB\n";
    assert!(ran.err.starts_with(said), "{}", ran.err);
    home.file(
        "a.rhai",
        "let s = pad(\"\", 1000); for n in 0..8 { s += s } loop { write_text(\"a.txt\", s, #{ replace: true }); }",
    );
    let ran = home.run(&["run", "--out", ".", "a.rhai"]);
    assert!(ran.err.starts_with("error: a script writes at most 1 MiB to files\n"), "{}", ran.err);
    assert!(ran.err.ends_with("  try: shop script.written 4\n"), "{}", ran.err);
}

#[test]
fn a_style_reaches_no_file() {
    let home = Home::new();
    fs::create_dir(home.path().join("styles")).unwrap();
    for call in ["read_text(\"shop.toml\")", "write_text(\"a\", \"b\")", "read_table(\"a\")", "write_json(\"a\", 1)"] {
        home.file("styles/reaching.rhai", format!("fn build_for(art, asks) {{ {call}; new_design() }}"));
        let ran = home.run(&["--write", ".", "-e", "art 16 x 20 x 1", "-e", "style reaching"]);
        assert!(ran.err.starts_with("error: a house style cannot reach files\n"), "{}", ran.err);
    }
    assert_eq!(home.names(), ["styles"]);
}

#[test]
fn asides_go_to_standard_error() {
    let home = Home::new();
    home.file("a.rhai", "for n in 1..=3 { log(`work ${n}`); progress(n, 3); }\nprint(\"\\x1b[2Jclear\");\n5\"\n");
    let ran = home.run(&["run", "a.rhai"]);
    // Progress is for a terminal alone.
    assert_eq!((ran.err.as_str(), ran.status), ("work 1\nwork 2\nwork 3\n", 0));
    assert_eq!(ran.out, "␛[2Jclear\n5\"   127.0 mm\n");
}
