//! What a plan took out of the rack and put in, so that it can be put back whatever else changed.

use serde::{Deserialize, Serialize};

use super::rack::{Item, Rack, What};
use crate::diag::{Diagnostic, codes};

/// Rows with how many pieces of each went out and came in.
#[derive(Clone, Debug, Default)]
pub struct Booking {
    /// Taken.
    pub out: Rack,
    /// Offcuts that were left.
    pub offcuts: Rack,
}

impl Booking {
    /// What makes one rack of another: rows of which there are fewer, and more. What there is as much of as wanted is not
    /// counted.
    pub fn between(before: &Rack, after: &Rack) -> Self {
        let more = |of: &Rack, than: &Rack| {
            let mut more = Rack::default();
            for item in &of.items {
                let known = more.items.iter().any(|one: &Item| one.is_like(item));
                let count = of.count_of(item).saturating_sub(than.count_of(item));
                if !known && count > 0 {
                    let mut own = item.clone();
                    own.count = Some(count);
                    more.items.push(own);
                }
            }
            more
        };
        Self { out: more(before, after), offcuts: more(after, before) }
    }

    /// A rack as it is once what was booked is put back. A row that is gone comes back.
    ///
    /// # Errors
    /// An offcut is not there any more; a row that comes back has no price among others that have one, or the other way.
    pub fn put_back(&self, rack: &Rack) -> Result<Rack, Diagnostic> {
        let mut rack = rack.clone();
        for item in &self.offcuts.items {
            let mut count = item.count.unwrap_or(0);
            if rack.count_of(item) < count {
                let left = item.words();
                let message = format!("the plan left {left}, and there is less of it now, so nothing is put back");
                return Err(Diagnostic::of(&codes::stock::PLAN, message).hint("stock"));
            }
            for own in rack.items.iter_mut().filter(|own| own.is_like(item)) {
                let less = own.count.unwrap_or(0).min(count);
                own.count = own.count.map(|there| there - less);
                count -= less;
            }
        }
        for item in &self.out.items {
            match rack.items.iter_mut().find(|own| own.is_like(item)) {
                Some(own) => own.count = own.count.map(|there| there.saturating_add(item.count.unwrap_or(0))),
                None => {
                    rack.may_take(item)?;
                    rack.items.push(item.clone());
                }
            }
        }
        rack.tidy();
        Ok(rack)
    }
}

/// The takes of plans, the newest last, so that each can be put back; and a write of the stock that may not be finished.
#[derive(Clone, Debug, Default)]
pub struct Takes {
    /// What each take booked.
    pub bookings: Vec<Booking>,
    /// Written before the stock is, and cleared once it is.
    pub pending: Option<Pending>,
}

/// The text of the stock before and after a take, or a put back.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pending {
    /// None where there was no table.
    pub before: Option<String>,
    /// What the table is to be.
    pub after: String,
}

/// The record as it is stored.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    file: String,
    version: u32,
    takes: Vec<Take>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pending: Option<Pending>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Take {
    out: String,
    offcuts: String,
}

/// Kind and version of the record.
const FILE: (&str, u32) = ("benchrule takes", 1);

impl Takes {
    /// The record as text.
    pub fn text(&self) -> String {
        let take = |booking: &Booking| Take { out: booking.out.text(), offcuts: booking.offcuts.text() };
        let record = Record {
            file: FILE.0.into(),
            version: FILE.1,
            takes: self.bookings.iter().map(take).collect(),
            pending: self.pending.clone(),
        };
        // Texts and numbers always have a form.
        serde_json::to_string_pretty(&record).map(|text| text + "\n").unwrap_or_default()
    }

    /// Reads what [`Self::text`] wrote.
    ///
    /// # Errors
    /// It is not such a record, or of another version: nothing is put back in part.
    pub fn read(text: &str) -> Result<Self, Diagnostic> {
        let record: Record =
            serde_json::from_str(text).map_err(|error| Diagnostic::of(&codes::stock::PLAN, error.to_string()))?;
        if (record.file.as_str(), record.version) != FILE {
            let message =
                format!("it is {} of version {}, not {} of version {}", record.file, record.version, FILE.0, FILE.1);
            return Err(Diagnostic::of(&codes::stock::PLAN, message));
        }
        let rack = |text: &str| {
            let mut found = Vec::new();
            let rack = Rack::read("takes", text, None, &mut found)?;
            found.into_iter().next().map_or(Ok(rack), Err)
        };
        let booking = |take: &Take| Ok(Booking { out: rack(&take.out)?, offcuts: rack(&take.offcuts)? });
        let bookings = record.takes.iter().map(booking).collect::<Result<_, Diagnostic>>()?;
        Ok(Self { bookings, pending: record.pending })
    }
}

impl Rack {
    /// How many there are of a row, over all rows that are like it.
    fn count_of(&self, item: &Item) -> u32 {
        self.items.iter().filter(|own| own.is_like(item)).filter_map(|own| own.count).fold(0, u32::saturating_add)
    }
}

impl Item {
    /// In words, how many it is: `2 of offcut 14 1/4" cherry 3/4 x 2 1/8`.
    fn words(&self) -> String {
        let what = if self.what == What::Offcut { "offcut" } else { "row" };
        let [_, length, ..] = self.cells();
        format!("{} {what} {length} {}", self.count.unwrap_or(0), self.material.words())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Unit;

    fn rack(rows: &str) -> Rack {
        let mut found = Vec::new();
        let rack = Rack::read("stock", format!("{}\n{rows}", Rack::head()), Unit::named("in"), &mut found).unwrap();
        assert!(found.is_empty(), "{found:?}");
        rack
    }

    const BEFORE: &str = "stick,8ft,,4,12,oak,1 x 2\nstick,10ft,,,15,oak,1 x 2\noffcut,30,,1,0,oak,1 x 2\n";
    const AFTER: &str = "stick,8ft,,3,12,oak,1 x 2\nstick,10ft,,,15,oak,1 x 2\noffcut,14 1/4,,2,0,oak,1 x 2\n";

    /// Worked by hand: what is put back is what was booked, whatever came in between.
    #[test]
    fn what_was_booked_is_put_back_and_no_more() {
        let booking = Booking::between(&rack(BEFORE), &rack(AFTER));
        let takes = Takes { bookings: vec![booking], pending: None };
        let booking = Takes::read(&takes.text()).unwrap().bookings.remove(0);
        let more = format!("{AFTER}stick,6ft,,7,9,ash,1 x 2\noffcut,14 1/4,,1,0,oak,1 x 2\n");
        let back = booking.put_back(&rack(&more)).unwrap().text();
        let wanted = "stick,8ft,,4,12,oak,1 x 2\nstick,10ft,,,15,oak,1 x 2\nstick,6ft,,7,9,ash,1 x 2\n\
            offcut,14 1/4,,1,0,oak,1 x 2\noffcut,30,,1,0,oak,1 x 2\n";
        assert_eq!(back, rack(wanted).text());
        // A row that was dropped since comes back with what was taken of it.
        let back = booking.put_back(&rack("offcut,14 1/4,,2,0,oak,1 x 2\n")).unwrap().text();
        assert_eq!(back, rack("stick,8ft,,1,12,oak,1 x 2\noffcut,30,,1,0,oak,1 x 2\n").text());
    }

    #[test]
    fn an_offcut_that_is_gone_is_not_put_back() {
        let booking = Booking::between(&rack(BEFORE), &rack(AFTER));
        let found = booking.put_back(&rack("stick,8ft,,3,12,oak,1 x 2\noffcut,14 1/4,,1,0,oak,1 x 2\n")).unwrap_err();
        assert_eq!(
            found.message(),
            "the plan left 2 offcut 14 1/4\" oak 1\" x 2\", and there is less of it now, so nothing is put back"
        );
        let pending = Pending { before: None, after: "x".into() };
        let text = Takes { bookings: Vec::new(), pending: Some(pending.clone()) }.text();
        assert_eq!(Takes::read(&text).unwrap().pending, Some(pending));
        let newer = text.replace("\"version\": 1", "\"version\": 2");
        assert_eq!(
            Takes::read(&newer).unwrap_err().message(),
            "it is benchrule takes of version 2, not benchrule takes of version 1"
        );
    }
}
