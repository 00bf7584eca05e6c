//! Scripts that would fill the memory, each ended by the limit on it.
//!
//! The count is of the whole process, so these have one of their own and run one after another in a single test.

use benchrule::lang::{Engine, Limits, Memory, Settings, with_room};

/// Each holds on to more and more.
const SCRIPTS: &[&str] = &[
    "let s = \"x\"; loop { s = `${s}${s}` }",
    "let l = []; let s = pad(\"\", 1000); loop { l.push(s + \"x\") }",
    "let m = #{}; let i = 0; loop { m[`key${i}`] = i; i += 1 }",
    "let l = []; loop { l += [[1, 2, 3, 4, 5, 6, 7, 8, 9]] }",
    "let l = [1]; loop { l = l + l }",
    "let l = [1]; loop { l = [l, l] }",
    "let l = [1]; loop { l += l }",
    "let m = #{a: 1}; loop { m = #{a: m, b: m} }",
    "let l = [1]; loop { l = map([l, l], |x| x) }",
    "let f = |x| x; loop { let g = f; f = |y| g.call(y) }",
];

#[test]
fn memory_ends() {
    let room = 2 << 20;
    let limits = Limits { memory: room, time: std::time::Duration::from_secs(600), ..Limits::default() };
    for script in SCRIPTS {
        let limits = limits.clone();
        let found = with_room(room, || {
            let engine = Engine::new(Settings { limits, ..Settings::default() });
            let compiled = engine.compile("", script).expect("a script");
            engine.run(&mut Memory::default(), &compiled).expect_err("it never ends by itself")
        })
        .expect("a thread");
        assert_eq!(found.message, "stopped because it uses more than 2 MiB of memory", "{script}");
        assert_eq!(found.hint.as_deref(), Some("shop script.memory 8"), "{script}");
    }
}
