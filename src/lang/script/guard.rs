//! Puts guards into a script where the engine asks no function of ours.
//!
//! The cases of a `switch` are compared by hash, and no value of ours has one: with a quantity it would take the
//! default without a word. So the subject is passed through a function that refuses quantities. What a `catch` has
//! caught is in the engine's words, so it is passed through one that puts it into ours.

use std::fmt;

use rhai::{Dynamic, Engine, Position, Token};

use super::builtin::Call;
use super::caught::CAUGHT;
use super::insertions::Insertions;
use super::literal::typed;
use super::sort::Sort;
use super::trouble::Trouble;
use crate::diag::Fault;

/// The function that the subject is passed through.
pub const GUARD: &str = "__plain";

/// `script` with its guards.
pub fn guarded(engine: &Engine, script: &str) -> (String, Insertions) {
    if !script.contains("switch") && !script.contains("catch") {
        return (script.to_string(), Insertions::default());
    }
    let mut finder = Finder::default();
    let texts = [script];
    let (tokens, control) = engine.lex(&texts);
    for (token, position) in tokens {
        if matches!(token, Token::LexError(_) | Token::EOF) {
            break;
        }
        finder.meet(token, position);
        // As the engine's reader does where the text of a template goes on.
        control.borrow_mut().is_within_text = finder.text_follows;
    }
    finder.marks.sort_by_key(|(at, _)| *at);
    Insertions::into(script, &finder.marks)
}

/// Finds where guards go.
#[derive(Default)]
struct Finder {
    /// What to put in, and before what.
    marks: Vec<(Position, String)>,
    /// How many brackets are open.
    depth: usize,
    /// For each `switch` that has not come to its block: how many brackets were open, and where its subject begins.
    switches: Vec<(usize, Option<Position>)>,
    /// How far a `catch` has come.
    catch: Catch,
    /// For each template that is open: how many brackets were open around its `${…}`.
    templates: Vec<usize>,
    /// Whether the text of a template goes on here.
    text_follows: bool,
}

/// How far a `catch (name) {` has come.
#[derive(Default)]
enum Catch {
    #[default]
    Nowhere,
    Word,
    Named(String),
    Open(String),
}

impl Finder {
    #[expect(clippy::wildcard_enum_match_arm, reason = "the engine's own, and it grows")]
    fn meet(&mut self, token: Token, position: Position) {
        if let Some((_, start @ None)) = self.switches.last_mut() {
            *start = Some(position);
        }
        self.follow_catch(&token, position);
        let text = std::mem::take(&mut self.text_follows);
        match token {
            Token::InterpolatedString(_) if !text => self.templates.push(self.depth),
            Token::StringConstant(_) if text => {
                self.templates.pop();
            }
            Token::Switch => self.switches.push((self.depth, None)),
            Token::LeftBrace => {
                self.close_subject(position);
                self.depth += 1;
            }
            Token::LeftParen | Token::LeftBracket | Token::MapStart => self.depth += 1,
            Token::RightParen | Token::RightBracket | Token::RightBrace => {
                self.depth = self.depth.saturating_sub(1);
                self.text_follows = matches!(token, Token::RightBrace) && self.templates.last() == Some(&self.depth);
            }
            _ => {}
        }
    }

    fn close_subject(&mut self, position: Position) {
        if let Some((at, Some(start))) = self.switches.last().copied()
            && at == self.depth
        {
            self.marks.push((start, format!("{GUARD}(")));
            self.marks.push((position, ")".to_string()));
            self.switches.pop();
        }
    }

    fn follow_catch(&mut self, token: &Token, position: Position) {
        self.catch = match (std::mem::take(&mut self.catch), token) {
            (Catch::Open(name), _) => {
                self.marks.push((position, format!("{name} = {CAUGHT}({name});")));
                Catch::Nowhere
            }
            (_, Token::Catch) => Catch::Word,
            (Catch::Word, Token::LeftParen) => Catch::Word,
            (Catch::Word, Token::Identifier(name)) => Catch::Named(name.to_string()),
            (Catch::Named(name), Token::RightParen) => Catch::Named(name),
            (Catch::Named(name), Token::LeftBrace) => Catch::Open(name),
            _ => Catch::Nowhere,
        };
    }
}

/// A subject that cannot be told apart by cases.
#[derive(Debug)]
struct NoSubject(Sort, Option<String>);

impl fmt::Display for NoSubject {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "`switch` tells whole numbers, texts and yes/no apart, not {}", self.0.with_article())
    }
}

impl Fault for NoSubject {
    fn hint(&self) -> Option<String> {
        let value = self.1.as_ref()?;
        Some(format!("if {value} == {value} {{ \"yes\" }} else {{ \"no\" }}"))
    }

    fn argument(&self) -> Option<usize> {
        Some(0)
    }
}

/// Passes a subject on, unless it is one that the engine cannot tell apart.
pub fn plain(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let value = call.value(0)?;
    let told = value.is_int() || value.is_string() || value.is_char() || value.is_bool() || value.is_unit();
    if told { Ok(value.clone()) } else { Err(NoSubject(Sort::of(value), typed(value)).into()) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(script: &str, expected: &str) {
        let (result, insertions) = guarded(&Engine::new_raw(), script);
        assert_eq!(result, expected);
        // Every place that is not inserted comes back to where it was.
        let at = |text: &str, what: &str| {
            let start = text.rfind(what).unwrap();
            let (line, column) = crate::diag::line_column(text, start);
            Position::new(u16::try_from(line).unwrap(), u16::try_from(column).unwrap())
        };
        for what in ["=>", "}", "switch"] {
            if script.contains(what) {
                assert_eq!(insertions.take_out(at(&result, what)), at(script, what), "{what}");
            }
        }
    }

    #[test]
    fn every_subject_is_guarded() {
        check("switch x { 1 => 2 }", "switch __plain(x ){ 1 => 2 }");
        check("1 + 2", "1 + 2");
        check("`a ${1} b`; switch x { 1 => 2 }", "`a ${1} b`; switch __plain(x ){ 1 => 2 }");
        check("`${#{a: 1}.a}${2}`; switch x { 1 => 2 }", "`${#{a: 1}.a}${2}`; switch __plain(x ){ 1 => 2 }");
        check("`a ${switch x { 1 => `${2} {` }} {`", "`a ${switch __plain(x ){ 1 => `${2} {` }} {`");
        check("try { 1 } catch (e) { e }", "try { 1 } catch (e) { e = __caught(e);e }");
        check("try { 1 } catch (e) { }", "try { 1 } catch (e) { e = __caught(e);}");
        check("try { 1 } catch { switch x { 1 => 2 } }", "try { 1 } catch { switch __plain(x ){ 1 => 2 } }");
        check("switch f(#{a: 1}) { 1 => 2 }", "switch __plain(f(#{a: 1}) ){ 1 => 2 }");
        check("switch a { 1 => switch b { 2 => 3 } }", "switch __plain(a ){ 1 => switch __plain(b ){ 2 => 3 } }");
        check("let s = \"switch x {\"; s", "let s = \"switch x {\"; s");
        check("\"é\"; switch x\n{ 1 => 2 }", "\"é\"; switch __plain(x\n){ 1 => 2 }");
    }
}
