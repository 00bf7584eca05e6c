//! What a plan took out of the rack and put in, so that it can be put back whatever else changed.

use super::rack::{Item, Rack, What};
use crate::diag::Diagnostic;
use crate::measure::Unit;

/// Rows with how many pieces of each went out and came in.
#[derive(Clone, Debug, Default)]
pub struct Booking {
    /// Taken.
    pub out: Rack,
    /// Offcuts that were left.
    pub offcuts: Rack,
}

/// What a row of its table begins with.
const OUT: &str = "out";
const IN: &str = "in";

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
                return Err(Diagnostic::new(message).hint("stock"));
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

    /// As a table: the rows of the rack behind `out` or `in`.
    pub fn text(&self) -> String {
        let rows = |word: &'static str, rack: &Rack| {
            let text = rack.text();
            text.lines().skip(1).map(|row| format!("{word},{row}\n")).collect::<String>()
        };
        format!("booked,{}\n{}{}", Rack::HEAD, rows(OUT, &self.out), rows(IN, &self.offcuts))
    }

    /// Reads what [`Self::text`] wrote; none if the text tells of nothing.
    ///
    /// # Errors
    /// A row that cannot be read: nothing is put back in part.
    pub fn read(text: &str, bare: Option<&Unit>) -> Result<Option<Self>, Diagnostic> {
        let of = |word: &str| {
            let own = text.lines().filter_map(|row| row.strip_prefix(word)?.strip_prefix(','));
            let table = own.fold(format!("{}\n", Rack::HEAD), |table, row| format!("{table}{row}\n"));
            let mut found = Vec::new();
            let rack = Rack::read(&table, bare, &mut found)?;
            found.into_iter().next().map_or(Ok(rack), |one| Err(Diagnostic { span: None, ..one }))
        };
        let booking = Self { out: of(OUT)?, offcuts: of(IN)? };
        let is_empty = booking.out.items.is_empty() && booking.offcuts.items.is_empty();
        Ok((!is_empty).then_some(booking))
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

    fn rack(rows: &str) -> Rack {
        let mut found = Vec::new();
        let rack = Rack::read(&format!("{}\n{rows}", Rack::HEAD), Unit::named("in"), &mut found).unwrap();
        assert!(found.is_empty(), "{found:?}");
        rack
    }

    const BEFORE: &str = "stick,8ft,,4,12,oak,1 x 2\nstick,10ft,,,15,oak,1 x 2\noffcut,30,,1,0,oak,1 x 2\n";
    const AFTER: &str = "stick,8ft,,3,12,oak,1 x 2\nstick,10ft,,,15,oak,1 x 2\noffcut,14 1/4,,2,0,oak,1 x 2\n";

    /// Worked by hand: what is put back is what was booked, whatever came in between.
    #[test]
    fn what_was_booked_is_put_back_and_no_more() {
        let booking = Booking::between(&rack(BEFORE), &rack(AFTER));
        let booking = Booking::read(&booking.text(), Unit::named("in")).unwrap().unwrap();
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
            "the plan left 2 offcut 14 1/4 oak 1 x 2, and there is less of it now, so nothing is put back"
        );
        assert!(Booking::read("", None).unwrap().is_none());
    }
}
