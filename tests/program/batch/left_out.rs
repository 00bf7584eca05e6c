//! Works that cannot be made or read: every file of a run with a plan names them.

use super::shop;
use crate::program::Home;

const WORKS: &str =
    "Title,art,build,wire,reveal\nA,16 x 20 x 3/4,float,5,3\nB,30 x 40 x 1,float,,\nC,16 x foo,float,,\n";

/// A has a wire that is too short, C a size that cannot be read; B alone is planned.
#[test]
fn every_file_names_the_works_that_are_left_out() {
    let home = shop();
    home.file(
        "stock.csv",
        "what,length,width,count,wood,section\nstick,8ft,,,poplar,3/4in x 1 7/8in\nstick,8ft,,,poplar,3/4in x 1/2in\n",
    );
    home.file("works.csv", WORKS);
    let ran = home.run(&["batch", "works.csv", "--plan", "--out", "out"]);
    assert_eq!(ran.status, 1);
    let page = home.read("out/plan.txt");
    assert!(page.starts_with("stop: this plan leaves out 2 works\n"), "{page}");
    assert!(page.contains("is impossible for the parts planned\n"), "{page}");
    let plan: serde_json::Value = serde_json::from_str(&home.read("out/plan.json")).unwrap();
    let left = plan["plan"]["unplanned"].as_array().unwrap();
    for (name, because) in [("A", "it cannot be built as specified: a wire of 5"), ("C", "line 4 of the table: ")] {
        let is_named = |one: &serde_json::Value| {
            one["name"] == name && one["because"].as_str().is_some_and(|text| text.starts_with(because))
        };
        assert!(left.iter().any(is_named), "{plan}");
        assert!(home.read("out/plan.csv").lines().any(|row| row.contains(name) && row.contains(because)));
        for file in ["parts.csv", "buy.csv", "weights.csv"] {
            let text = home.read(&format!("out/{file}"));
            assert!(text.lines().any(|line| line.starts_with(&format!("# left out: {name}: {because}"))), "{text}");
        }
    }
    assert_eq!(plan["plan"]["holds_for"], "for the parts planned");
    // A table with such remarks is planned again as it is.
    assert_eq!(home.run(&["plan", "out/parts.csv", "--stock", "stock.csv"]).err, "");
}

/// The weight of a run is one, however it is asked for.
#[test]
fn an_object_has_the_weight_of_the_page() {
    let home = Home::new();
    home.file("works.csv", WORKS);
    let page = home.run(&["batch", "works.csv"]).out;
    let objects = home.run(&["--json", "batch", "works.csv"]).objects();
    let shown = objects.last().unwrap()["weight"]["shown"].as_str().unwrap().to_string();
    assert_ne!(shown, "0 oz");
    assert!(page.contains(&format!("; {shown} in all")), "{page}");
}
