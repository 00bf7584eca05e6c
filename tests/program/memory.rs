//! Scripts that fill the memory, each ended by the limit on it.
//!
//! The limit counts what the whole process holds, so each script has a process of its own.

use crate::program::Home;

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
fn memory_ends_a_script() {
    let home = Home::new();
    home.file("shop.toml", "[script]\nmemory = 2\nseconds = 600\n");
    for script in SCRIPTS {
        let ran = home.say(&[script]);
        assert_eq!(ran.status, 1, "{script}: {ran:?}");
        for part in ["error: stopped because it uses more than 2 MiB of memory", "try: shop script.memory 8"] {
            assert!(ran.err.contains(part), "{script}: {}", ran.err);
        }
    }
}
