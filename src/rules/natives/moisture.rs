//! Moisture of wood in air, and what it does to a miter.

use super::args::{Args, about};
use crate::frame::moisture::{emc, swollen_mitre};
use crate::frame::wedge::Opens;
use crate::rules::datum::{Datum, Fault, Record};
use crate::rules::sentence::words;

/// See `moisture` in [`super::super::native::NATIVES`]: a share of the dry weight.
///
/// # Errors
/// Air that the equation was not made for.
pub fn content(args: &Args) -> Result<Record, Fault> {
    let (Some(temperature), Some(humidity)) = (args.float(0), args.float(1)) else {
        return Ok(Record::default());
    };
    let percent = emc(temperature, humidity).map_err(Fault::of)?;
    Ok(Record { parts: vec![about(percent / 100.0)], reasons: Vec::new() })
}

/// See `swelling` in [`super::super::native::NATIVES`].
///
/// # Errors
/// Sides or a strain that no frame has.
pub fn swelling(args: &Args) -> Result<Record, Fault> {
    let (Some(face), Some(strain)) = (args.float(0), args.float(2)) else {
        return Ok(Record::default());
    };
    let wedge = swollen_mitre(face, args.count(1), strain).map_err(Fault::of)?;
    let side = match wedge.opens {
        Opens::Nowhere => "nowhere",
        Opens::Outside => "outside",
        Opens::Inside => "inside",
    };
    let why = match wedge.opens {
        Opens::Nowhere => "no change of moisture: the miters stay shut",
        Opens::Outside => "swelling rails get wider, not longer: miters stay tight inside and open outside",
        Opens::Inside => "shrinking rails get narrower, not shorter: miters stay tight outside and open inside",
    };
    Ok(Record { parts: vec![about(wedge.gap), Some(Datum::Word(side.into()))], reasons: vec![vec![words(why)]] })
}
