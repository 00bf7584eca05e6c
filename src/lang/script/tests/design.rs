//! A design in a script.

use std::collections::BTreeMap;

use super::*;

/// Fields without rules.
#[derive(Default)]
struct Fake(RefCell<BTreeMap<String, Value>>);

impl DesignHandle for Fake {
    fn as_any(&self) -> &dyn std::any::Any {
        self
    }

    fn get(&self, name: &str) -> Result<Value, Diagnostic> {
        let fields = self.0.borrow();
        fields.get(name).cloned().ok_or_else(|| Diagnostic::new(format!("there is no field `{name}`")))
    }

    fn set(&self, name: &str, value: Value) -> Result<(), Diagnostic> {
        if let Value::Text(_) = value {
            return Err(Diagnostic::new(format!("{name} is a length")).hint(format!("{name} 5/8")));
        }
        self.0.borrow_mut().insert(name.to_string(), value);
        Ok(())
    }

    fn names(&self) -> Vec<String> {
        self.0.borrow().keys().cloned().collect()
    }
}

/// A bench with a design without rules, and more of them.
#[derive(Clone)]
struct Fakes;

impl Workshop for Fakes {
    fn new_design(&self) -> Result<Rc<dyn DesignHandle>, Diagnostic> {
        Ok(Rc::new(Fake::default()))
    }
}

impl Powers for Fakes {
    fn workshop(&self) -> Option<Rc<dyn Workshop>> {
        Some(Rc::new(Self))
    }

    fn bench(&self) -> Option<Rc<dyn DesignHandle>> {
        Some(Rc::new(Fake::default()))
    }
}

fn settings() -> Settings {
    Settings { powers: Some(Rc::new(Fakes)), ..patient() }
}

#[track_caller]
fn check_at(script: &str, expected: &str) {
    let answer = run_with(settings(), script);
    assert_eq!(answer.map(show).map_err(|found| found.message()), Ok(expected.to_string()), "{script}");
}

#[track_caller]
fn refused_at(script: &str, expected: &str) -> Diagnostic {
    let found = run_with(settings(), script).unwrap_err();
    assert_eq!(found.message(), expected, "{script}");
    found
}

#[test]
fn fields_are_set_and_read() {
    check_at("design.reveal = __num(5,8); design.reveal", "5/8");
    check_at("design[\"reveal.left\"] = __len(1,4); design[\"reveal.left\"]", "1/4\"");
    check_at("design.reveal = __len(1,2); design.reveal += __len(1,4); design.reveal", "3/4\"");
    check_at("design[\"opening.width\"] = __len(1,2); design[\"opening.width\"] * 2", "1\"");
    check_at("design.art = __size(__len(18,1), __len(24,1)); design.art.width", "18\"");
    check_at("design.mats = [1, 2]; design.mats[1]", "2");
}

#[test]
fn functions_see_the_design() {
    check_at("fn f() { design.reveal = __len(1,2); design.reveal } f()", "1/2\"");
    check_at("fn g(x) { design[\"lip\"] = x } fn f() { g(3) } f(); design.lip", "3");
    check_at("[1, 2].map(|x| { design.reveal = x; design.reveal })", "[1, 2]");
    check_at("fn f(design) { design } f(5)", "5");
    check_at("fn f(d) { d.reveal = 5; } f(design); design.reveal", "5");
}

#[test]
fn another_design_is_another() {
    check_at("design.lip = 1; let d = new_design(); d.lip = 2; design.lip", "1");
    check_at("let d = new_design(); let e = d; e.lip = 2; d.lip", "2");
    check_at("let d = new_design(); d == design", "false");
    check_at("design == design", "true");
    check_at("kind(design)", "design");
    assert_eq!(run("new_design()").unwrap_err().message(), "designs are not available here");
}

#[test]
fn what_a_design_refuses_comes_out_as_it_went_in() {
    let found = refused_at("design.reveal = \"wide\"", "reveal is a length");
    assert_eq!(found.offered("").as_deref(), Some("reveal 5/8"));
    assert!(found.span.is_some());
    refused_at("design.nothing", "there is no field `nothing`");
    refused_at("design[\"no.thing\"] + 1", "there is no field `no.thing`");
    refused_at("fn f() { design.nothing } f()", "there is no field `nothing`");
    let found = refused_at("design.reveal = 1; reveel * 2", "there is no value `reveel`; there is `reveal`");
    assert_eq!(found.offered("design.reveal = 1; reveel * 2").as_deref(), Some("design.reveal = 1; reveal * 2"));
    refused_at("let design = 5", "`design` cannot be the name of a variable");
    refused_at("design = 5", "`design` is a constant");
    refused_at("design + 1", "cannot add a design and a number");
    check_at(
        "let r = 0; try { design.nothing } catch (e) { r = `caught: ${e}` } r",
        "caught: there is no field `nothing`",
    );
}
