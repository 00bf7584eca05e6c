//! Lines that raise every kind of reply, with every optional key present and absent.

use std::sync::OnceLock;

use serde_json::Value as Json;

use crate::program::Home;

const STOCK: &str = "what,length,width,count,cost,wood,section\n\
    stick,96in,,3,12.50,cherry,3/4in x 1 5/8in\n\
    offcut,40in,,1,,cherry,3/4in x 1 5/8in\n\
    board,96in,7in,2,31.00,walnut,4/4\n\
    sheet,48in,36in,1,20.00,glass,2mm\n";

/// Sessions: each a list of lines.
const SESSIONS: &[&[&str]] = &[
    &[
        "",
        "11 3/8\"",
        "11 + 2*5/8",
        "12lb 4oz",
        "45deg",
        "sqrt(2)",
        "18\" x 24\"",
        "18\" x 24\" x 3/4\"",
        "true",
        "\"moth\"",
        "[1, 2in]",
        "#{a: 1in}",
        "design",
        "$4.20",
        "288in2",
        "3lb*2in",
        "70degF",
        "2h",
        "20%",
        "print(1); 2",
        "let x = 1",
        "tape 5/8",
    ],
    &[
        "art 16 1/64 x 20 x 3/4",
        "art",
        "art.width",
        "reveal 3/8",
        "reveal",
        "opening.width",
        "opening.diagonal",
        "why opening.width",
        "why wood",
        "why outside.diagonal",
        "sheet",
        "parts",
        "plan",
        "fixings",
        "sheet hang",
        "hang",
        "movement from 70degF 35% to 75degF 65%",
        "tolerance",
        "tolerance outside.width",
        "aim outside.width 18 by reveal",
        "figure shelf.width = outside.width + 3in",
        "figure",
        "clear reveal",
        "undo",
        "redo",
        "design.reveal = 1/2in",
        "name moth",
        "client Two Lanterns",
        "sheet",
        "new deep",
        "glazing.cover 1/4",
        "parts to parts.csv",
        "reveel 3/8",
        "screw.top.at",
        "wall.width 6ft",
        "keep moth",
    ],
    &["art 9 x 12 x 3/4", "depth 3/8", "sheet", "parts", "plan", "fixings", "keep low", "parts to low.csv"],
    &["new rabbeted", "art 16 x 20 x 1/16", "glazing.kind glass", "sheet", "parts", "plan"],
    &[
        "art 16 x 20 x 3/4",
        "keep moth \"first\"",
        "keep moth",
        "reveal 3/8",
        "keep moth \"second\"",
        "revisions moth",
        "open moth@1",
        "book",
        "find moth",
        "compare moth@1 moth@2",
        "copy moth fern",
        "rename fern alder",
        "retire alder",
        "book",
        "open alder",
        "restore alder",
        "label moth",
        "cautions",
        "book export book.jsonl",
        "book import book.jsonl",
        "book backup copy.db",
        "find zebra",
        "art.height 21",
        "hang moth, moth",
        "wall.width 8ft",
        "hang moth, moth",
        "hang moth",
        "style narrow-float",
        "keep styled",
        "revisions styled",
        "styles",
        "style check narrow-float",
        "shop",
        "shop kerf 3/32in",
        "shop save",
    ],
    &["art 8 x 10 x 1/2", "wood walnut", "plan", "plan take", "plan put back"],
    &["new rabbeted", "art 20 x 30 x 1/16", "glazing glass 2mm", "quantity 9", "sheet", "plan"],
    &["new rabbeted", "glazing none", "glazing.thickness 2mm"],
    &[
        "stock",
        "art 16 x 20 x 3/4",
        "wood cherry",
        "plan",
        "wood walnut",
        "plan",
        "quantity 9",
        "wood cherry",
        "plan",
        "stock add offcut, 30in, , 2, , oak, 3/4 x 1 1/2",
    ],
    &[
        "help",
        "help art",
        "help reveal",
        "help outside.width",
        "help wood",
        "help parts()",
        "help checks()",
        "help screw()",
        "help in",
        "help ash",
        "help build",
        "help float",
        "help reveal.wide",
        "help narrow-float",
        "help unit",
        "help part",
        "help plan",
        "help stick",
        "help glazing.kind",
        "help sheet",
        "help sqrt()",
        "help zebra",
        "help shop.kerf",
        "help style narrow-float",
    ],
];

/// Stock of which no more is recorded than a row must have.
const LITTLE: &str =
    "what,length,width,count,cost,wood,section\nstick,96in,,,,,\nboard,96in,7in,2,,,4/4\nsheet,48in,36in,1,,glass,\n";

/// The same without sticks.
const BOARDS: &str = "what,length,width,count,cost,wood,section\nboard,96in,7in,2,,,4/4\n";

/// Framed and glazed.
const GLAZED: &[&str] = &["stock", "new rabbeted", "art 11 x 14 x 1/16", "glazing glass 2mm", "plan"];

/// A style with two faults.
const FAULTY: &str = "fn about() { \"Names that cannot be names.\" }\nfn asks() { #{ gap: #{ kind: \"length\", usual: 1/4in } } }\n\
    fn works() { #{ kinds: [\"canvas\"] } }\nfn build_for(art, asks) {\n    let d = new_design();\n    d.reveal = asks.gpa;\n    \
    if art.width > 1000in {\n        d.stirp.joint = \"butted\";\n    }\n    d\n}\n";

/// A table of works, each row in a way of its own.
const WORKS: &str =
    "name,art,depth,style\na,16 x 20 x 3/4,,narrow-float\nb,9 x 12 x 3/4,3/8,none\nc,9 x,zz,none\n,9 x 12 x,,none\n";

/// Every reply to the corpus.
pub fn replies() -> &'static [Json] {
    static ALL: OnceLock<Vec<Json>> = OnceLock::new();
    ALL.get_or_init(|| {
        let home = || {
            let home = Home::new();
            home.file("stock.csv", STOCK);
            home
        };
        let mut all: Vec<Json> = Vec::new();
        let mut take = |home: &Home, words: &[&str]| all.extend(home.run(words).objects());
        for session in SESSIONS {
            let lines: Vec<&str> = session.iter().flat_map(|line| ["-e", line]).collect();
            let words = [&["--json", "--write", "."], lines.as_slice()].concat();
            // With stock and without: a plan says so.
            take(&home(), &words);
            take(&Home::new(), &words);
        }
        let home = home();
        home.file("works.csv", WORKS);
        take(&home, &["--json", "batch", "works.csv", "--plan"]);
        // An object without a weight is left out of the sum.
        home.file("object.csv", "name,build,art,art.kind,art.weight\nshell,box,6 x 8 x 2,object,\n");
        take(&home, &["--json", "batch", "object.csv"]);
        // An alias of a heading is noted; a row that is gone leaves its files.
        home.file("titled.csv", "Title,art\na,16 x 20 x 3/4\nb,9 x 12 x 3/4\n");
        take(&home, &["--json", "batch", "titled.csv", "--out", "out"]);
        home.file("titled.csv", "Title,art\na,16 x 20 x 3/4\n");
        take(&home, &["--json", "batch", "titled.csv", "--out", "out", "--resume"]);
        home.file("p.csv", "name,length,quantity\nrail,100,2\nstile,20,1\n");
        home.file("s.csv", "length,count,cost\n96,,9\n");
        let bare = Home::new();
        bare.file("stock.csv", "what,length,width,count,cost,wood,section\nstick,96,,,,,\nsheet,48,36,1,20,glass,2\n");
        take(&bare, &["--json", "-e", "stock"]);
        // An alias of a heading is noted.
        home.file("noted.csv", "name,L,Qty\nrail,20,2\n");
        take(&home, &["--json", "plan", "noted.csv", "--stock", "s.csv"]);
        home.file("bad.csv", "name,length,quantity\nrail,1e9,1\nrail,20,1\n");
        take(&home, &["--json", "plan", "p.csv", "--stock", "s.csv"]);
        take(&home, &["--json", "plan", "bad.csv", "--stock", "s.csv"]);
        take(&home, &["--json", "plan", "none.csv", "--stock", "s.csv"]);
        for stock in [LITTLE, BOARDS] {
            let home = Home::new();
            home.file("stock.csv", stock);
            let lines: Vec<&str> = GLAZED.iter().flat_map(|line| ["-e", line]).collect();
            take(&home, &[&["--json"], lines.as_slice()].concat());
        }
        home.file("faulty.rhai", FAULTY);
        take(&home, &["--json", "-e", "shop script.seconds 60", "-e", "style check faulty.rhai"]);
        home.file("a.rhai", "let x = ;\n");
        take(&home, &["--json", "run", "a.rhai"]);
        all
    })
}
