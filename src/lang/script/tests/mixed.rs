//! Scripts thrown together at random: whatever they do, they end, with a message that is fit to be read.

use super::*;

/// A row of numbers that looks random and is the same every time.
struct Dice(u64);

impl Dice {
    fn roll(&mut self, sides: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap() % sides
    }

    fn pick<'a>(&mut self, from: &[&'a str]) -> &'a str {
        from[self.roll(from.len())]
    }

    fn value(&mut self, depth: usize) -> String {
        const PLAIN: &[&str] = &[
            "0",
            "1",
            "-1",
            "7",
            "9223372036854775807",
            "__num(1,2)",
            "__num(-7,3)",
            "__len(91,8)",
            "__len(0,1)",
            "__len(-1,4)",
            "__mass(49,4)",
            "__ang(45,1)",
            "__ang(90,1)",
            "__time(5,1)",
            "__qty(\"money\",21,5)",
            "__qty(\"temperature\",70,1)",
            "\"\"",
            "\"oak\"",
            "'x'",
            "true",
            "false",
            "()",
            "[]",
            "#{}",
            "a",
            "b",
            "f",
            "this",
            "design",
            "0..3",
            "0..=2",
            "|x| x",
            "|x, y| x + y",
            "sqrt(2)",
            "2 ** 70",
            "nothing",
        ];
        if depth == 0 {
            return self.pick(PLAIN).to_string();
        }
        let (one, other, third) = (self.value(depth - 1), self.value(depth - 1), self.value(depth - 1));
        match self.roll(14) {
            0..=3 => format!("({one} {} {other})", self.pick(OPERATORS)),
            4 | 5 => self.call(&one, &other, &third),
            6 => format!("[{one}, {other}]"),
            7 => format!("#{{a: {one}, b: {other}}}"),
            8 => format!("{one}[{other}]"),
            9 => format!("{one}.{}", self.pick(&["width", "a", "len", "depth", "x"])),
            10 => format!("`{{}}${{{one}}} ${{{other}}}`"),
            11 => format!("if {one} {{ {other} }} else {{ {third} }}"),
            12 => format!("switch {one} {{ 1 => {other}, \"oak\" => {third}, _ => 0 }}"),
            _ => format!("{}({one})", self.pick(&["-", "!", "+", ""])),
        }
    }

    fn call(&mut self, one: &str, other: &str, third: &str) -> String {
        let names: Vec<&str> = builtin::all().map(|row| row.name).chain(["f", "g", "call", "curry", "Fn"]).collect();
        let name = self.pick(&names);
        match self.roll(6) {
            0 | 1 => format!("{name}({one})"),
            2 => format!("{name}({one}, {other})"),
            3 => format!("{name}({one}, {other}, {third})"),
            4 => format!("{one}.{name}({other})"),
            _ => format!("{one}.{name}()"),
        }
    }

    fn statement(&mut self) -> String {
        let value = self.value(2);
        let target = self.pick(&["a", "b", "a[0]", "b.a", "design.lip", "a.width", "a[0].b", "this"]);
        match self.roll(9) {
            0 | 1 => format!("{target} {} {value};", self.pick(CHANGES)),
            2 => format!("for x in {value} {{ a = x; }}"),
            3 => format!("try {{ {value} }} catch (e) {{ b = text(e); }}"),
            4 => format!("while {value} {{ break; }}"),
            5 => format!("let {} = {value};", self.pick(&["a", "b", "f"])),
            6 => format!("fn {}(x) {{ {value} }}", self.pick(&["f", "g"])),
            7 => format!("throw {value};"),
            _ => format!("{value};"),
        }
    }
}

const OPERATORS: &[&str] = &[
    "+", "-", "*", "/", "%", "**", "==", "!=", "<", "<=", ">", ">=", "&&", "||", "??", "in", "!in", "..", "..=", "^",
    "|", "&", "<<",
];

const CHANGES: &[&str] = &["=", "+=", "-=", "*=", "/=", "%=", "**=", "|=", "<<="];

fn fit_to_be_read(message: &str, script: &str) {
    for word in ["i64", "Dynamic", "ImmutableString", "&str", "benchrule", "::Value", "Range<", "FnPtr", "bool"] {
        assert!(!message.contains(word), "{script}: {message}");
    }
}

/// How many scripts, and where to begin; more of them, and others, are tried with `MIXED` set to a number.
fn dice() -> (Dice, usize) {
    match std::env::var("MIXED").ok().and_then(|seed| seed.parse().ok()) {
        Some(seed) => (Dice(seed), 300_000),
        None => (Dice(5), 1500),
    }
}

#[test]
fn any_script_ends_and_says_why() {
    let limits = Limits { steps: 2000, ..ample() };
    let engine = Engine::new(Settings { limits, ..patient() });
    let (mut dice, count) = dice();
    let (mut answers, mut refusals) = (0, 0);
    for _ in 0..count {
        let statements: Vec<String> = (0..1 + dice.roll(4)).map(|_| dice.statement()).collect();
        let script = format!("let a = 5; let b = [1]; {}", statements.join(" "));
        let answer = engine
            .compile("", &script)
            .map_err(|mut found| found.remove(0))
            .and_then(|script| engine.run(&mut Memory::default(), &script));
        match answer {
            Ok(value) => {
                answers += 1;
                show(value);
            }
            Err(found) => {
                refusals += 1;
                fit_to_be_read(&found.message(), &script);
                if let Some(span) = found.span {
                    assert!(script.get(span).is_some(), "{script}");
                }
            }
        }
    }
    assert!(answers > 50 && refusals > 50, "{answers} {refusals}");
}

/// A letter put in, taken out or changed anywhere: the script is refused or runs.
#[test]
fn a_damaged_script_breaks_nothing() {
    const LETTERS: &[&str] = &[
        "(", ")", "[", "]", "{", "}", "`", "\"", "'", "$", "${", "#{", "#", ",", ";", ":", ".", "..", "=", "=>", "|",
        "/", "*", "/*", "//", "\\", "\n", "é", "if ", "fn ", "let ", "switch ", "catch ", "in ", "1", "a", " ", "!",
        "?", "@", "::",
    ];
    let limits = Limits { steps: 500, ..ample() };
    let mut engine = Engine::new(patient());
    let (mut dice, count) = dice();
    for _ in 0..count {
        let mut script: Vec<String> = dice.statement().chars().map(String::from).collect();
        for _ in 0..1 + dice.roll(3) {
            let at = dice.roll(script.len());
            match dice.roll(3) {
                0 => script[at].clear(),
                1 => script[at] = dice.pick(LETTERS).to_string(),
                _ => script[at].push_str(dice.pick(LETTERS)),
            }
        }
        let script = script.concat();
        let time = if dice.roll(8) == 0 { std::time::Duration::ZERO } else { limits.time };
        engine.set_limits(Limits { time, nesting: 5 + dice.roll(60), ..limits.clone() });
        let answer = engine
            .compile("", &script)
            .map_err(|mut found| found.remove(0))
            .and_then(|script| engine.run(&mut Memory::default(), &script));
        if let Err(found) = answer {
            fit_to_be_read(&found.message(), &script);
        }
    }
}
