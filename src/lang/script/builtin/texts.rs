//! Functions of text.

use rhai::{Array, Dynamic, ImmutableString};

use super::call::Call;
use super::row::{Builtin, PLAIN, Param, param};
use super::want::Want;
use crate::lang::script::literal::shown;
use crate::lang::script::trouble::Trouble;

const TEXT: Param = param("text", Want::Text, "");

pub(super) const ROWS: &[Builtin] = &[
    Builtin {
        name: "to_upper",
        params: &[TEXT],
        returns: Want::Text,
        brief: "A text in capital letters.",
        examples: &[("to_upper(\"oak\")", "OAK")],
        run: |call| made(call, call.text(0)?.to_uppercase()),
        ..PLAIN
    },
    Builtin {
        name: "to_lower",
        params: &[TEXT],
        returns: Want::Text,
        brief: "A text in small letters.",
        examples: &[("to_lower(\"OAK\")", "oak")],
        run: |call| made(call, call.text(0)?.to_lowercase()),
        ..PLAIN
    },
    Builtin {
        name: "trim",
        params: &[TEXT],
        returns: Want::Text,
        brief: "A text without the blanks around it.",
        examples: &[("trim(\" oak \")", "oak")],
        run: |call| Ok(call.text(0)?.trim().into()),
        ..PLAIN
    },
    Builtin {
        name: "starts_with",
        params: &[TEXT, param("start", Want::Text, "")],
        returns: Want::Truth,
        brief: "Whether a text begins with another text.",
        examples: &[("starts_with(\"rail\", \"ra\")", "true")],
        run: |call| Ok(call.text(0)?.starts_with(call.text(1)?.as_str()).into()),
        ..PLAIN
    },
    Builtin {
        name: "ends_with",
        params: &[TEXT, param("end", Want::Text, "")],
        returns: Want::Truth,
        brief: "Whether a text ends with another text.",
        examples: &[("ends_with(\"rail\", \"il\")", "true")],
        run: |call| Ok(call.text(0)?.ends_with(call.text(1)?.as_str()).into()),
        ..PLAIN
    },
    Builtin {
        name: "replace",
        params: &[TEXT, param("old", Want::Text, ""), param("new", Want::Text, "")],
        returns: Want::Text,
        brief: "A copy of a text with each occurrence of one part replaced by another.",
        examples: &[("replace(\"oak rail\", \"oak\", \"ash\")", "ash rail")],
        run: replace,
        ..PLAIN
    },
    Builtin {
        name: "split",
        params: &[TEXT, param("at", Want::Text, "text to split at; blanks by default")],
        least: 1,
        returns: Want::List,
        brief: "A list of the parts of a text.",
        examples: &[("split(\"a,b\", \",\")", "[\"a\", \"b\"]"), ("split(\"a  b\")", "[\"a\", \"b\"]")],
        run: split,
        ..PLAIN
    },
    Builtin {
        name: "join",
        params: &[param("list", Want::List, ""), param("between", Want::Text, "text to put between the values")],
        least: 1,
        returns: Want::Text,
        brief: "The values of a list joined into one text.",
        examples: &[("join([1, 2\"], \", \")", "1, 2\"")],
        run: join,
        ..PLAIN
    },
    Builtin {
        name: "pad",
        params: &[TEXT, param("width", Want::Whole, "in characters, at most 1000")],
        returns: Want::Text,
        brief: "A text padded with blanks to a width, for columns.",
        examples: &[("pad(\"oak\", 5) + \"|\"", "oak  |")],
        run: pad,
        ..PLAIN
    },
];

/// A new text, if it may be that long.
pub(super) fn made(call: &Call<'_, '_, '_>, text: String) -> Result<Dynamic, Trouble> {
    call.bench(|bench| bench.watch.text(text.len()))??;
    Ok(text.into())
}

fn replace(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let (text, old, new) = (call.text(0)?, call.text(1)?, call.text(2)?);
    // An empty part occurs between all letters.
    let most = text.matches(old.as_str()).count().saturating_mul(new.len()).saturating_add(text.len());
    call.bench(|bench| bench.watch.text(most))??;
    made(call, text.replace(old.as_str(), &new))
}

fn split(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let text = call.text(0)?;
    call.spend(text.len() / 16)?;
    let part = |part: &str| Dynamic::from(ImmutableString::from(part));
    let parts: Array = if call.count() > 1 {
        let at = call.text(1)?;
        call.bench(|bench| bench.watch.entries(text.matches(at.as_str()).count()))??;
        text.split(at.as_str()).map(part).collect()
    } else {
        text.split_whitespace().map(part).collect()
    };
    Ok(Dynamic::from_array(parts))
}

fn join(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let between = if call.count() > 1 { call.text(1)? } else { ImmutableString::new() };
    let joined = call.with_list(0, |list| {
        call.spend(list.len())?;
        call.bench(|bench| {
            let manner = bench.manner.borrow();
            let mut joined = String::new();
            for (index, value) in list.iter().enumerate() {
                if index > 0 {
                    joined.push_str(&between);
                }
                joined.push_str(&shown(value, &manner)?);
                bench.watch.text(joined.len())?;
            }
            Ok::<_, Trouble>(joined)
        })?
    })?;
    Ok(joined.into())
}

fn pad(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let text = call.text(0)?;
    let width = usize::try_from(call.whole(1)?).unwrap_or(0).min(1000);
    made(call, format!("{text:width$}"))
}
