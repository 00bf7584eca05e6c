//! Puts guards into a script where the engine would call none of the program's functions.
//!
//! The engine compares the cases of a `switch` by hash, and a quantity has none: it would silently take the default. So
//! the subject passes through a function that refuses quantities. A caught error is in the engine's words, so it passes
//! through a function that rewords it.

use std::fmt;

use rhai::{Dynamic, Engine, Position, Token};

use super::builtin::Call;
use super::caught::CAUGHT;
use super::insertions::Insertions;
use super::literal::typed;
use super::sort::Sort;
use super::trouble::Trouble;
use crate::diag::Fault;

/// The function that the subject of a `switch` passes through.
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
        // The engine's parser does the same where the text of a template resumes.
        control.borrow_mut().is_within_text = finder.text_follows;
    }
    finder.marks.sort_by_key(|(at, _)| *at);
    Insertions::into(script, &finder.marks)
}

/// Finds where guards go.
#[derive(Default)]
struct Finder {
    /// The text to insert, and the position to insert it before.
    marks: Vec<(Position, String)>,
    /// Open brackets.
    depth: usize,
    /// For each `switch` before its block: the brackets open there, and where its subject begins.
    switches: Vec<(usize, Option<Position>)>,
    /// The parts of a `catch` read so far.
    catch: Catch,
    /// For each open template: the brackets open around its `${…}`.
    templates: Vec<usize>,
    /// Whether the text of a template resumes here.
    text_follows: bool,
}

/// The parts of `catch (name) {` read so far.
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

/// A subject that `switch` cannot compare.
#[derive(Debug)]
struct NoSubject(Sort, Option<String>);

impl fmt::Display for NoSubject {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "`switch` takes whole numbers, texts and yes/no, not {}", self.0.with_article())
    }
}

impl Fault for NoSubject {
    fn code(&self) -> &'static crate::diag::Code {
        &crate::diag::codes::script::SYNTAX
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }

    fn hint(&self) -> Option<String> {
        let value = self.1.as_ref()?;
        Some(format!("if {value} == {value} {{ \"yes\" }} else {{ \"no\" }}"))
    }

    fn argument(&self) -> Option<usize> {
        Some(0)
    }
}

/// Passes a subject on, unless the engine cannot compare it with cases.
pub fn plain(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let value = call.value(0)?;
    let is_plain = value.is_int() || value.is_string() || value.is_char() || value.is_bool() || value.is_unit();
    if is_plain { Ok(value.clone()) } else { Err(NoSubject(Sort::of(value), typed(value)).into()) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(script: &str, expected: &str) {
        let (result, insertions) = guarded(&Engine::new_raw(), script);
        assert_eq!(result, expected);
        // Every position outside the insertions maps back to where it was.
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
