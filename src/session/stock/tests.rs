//! Takes that are cut short between any two writes, and put back one after another.

use std::path::Path;
use std::rc::Rc;

use super::*;
use crate::host::Memory;
use crate::measure::write::Manner;
use crate::session::Planned;
use crate::session::workshop::Paper;
use crate::shop::Settings;

/// Writes nothing: these tests look at what is stored.
struct NoPaper;

impl Paper for NoPaper {
    fn sheet(&self, _: &Design) -> String {
        String::new()
    }

    fn plan(&self, _: &Planned, _: &Manner) -> String {
        String::new()
    }
}

const TABLE: &str = "what,length,width,count,cost,wood,section\n\
    stick,8ft,,9,12.50,poplar,\"3/4\"\" x 1 5/8\"\"\"\nstick,8ft,,9,9,poplar,\"3/4\"\" x 1/2\"\"\"\n";

fn host() -> Rc<Memory> {
    Rc::new(Memory::with(&[("/home/stock.csv", TABLE)]))
}

fn session(host: &Rc<Memory>) -> Session {
    let mut session = Session::new(host.clone(), Settings::default(), Rc::new(NoPaper));
    for line in ["art 16 x 20 x 3/4", "wood poplar"] {
        assert!(session.line(line).reply.is_ok(), "{line}");
    }
    session
}

fn stock(host: &Memory) -> String {
    host.read(Path::new("/home/stock.csv")).unwrap_or_default()
}

fn counts(host: &Memory) -> String {
    let text = stock(host);
    let rows = text.lines().filter(|row| row.starts_with("stick") || row.starts_with("offcut"));
    rows.map(|row| row.split(',').nth(3).unwrap_or_default().to_string()).collect::<Vec<_>>().join(" ")
}

/// The counts after a plan was taken without trouble: the second way that the cut ones are held against.
fn after_one_take() -> String {
    let host = host();
    let mut session = session(&host);
    session.line("plan");
    assert!(session.line("plan take").reply.is_ok());
    counts(&host)
}

#[test]
fn a_take_that_is_cut_short_is_finished_or_never_was() {
    let (before, after) = ("9 9".to_string(), after_one_take());
    assert_ne!(before, after);
    for writes in 0..=3 {
        for look in ["stock", "plan", "plan put back", "stock drop 1", "planned([design]).cost"] {
            let host = host();
            let mut one = session(&host);
            one.line("plan");
            host.stop_after(Some(writes));
            // With the record, the stock and the record again, all is written.
            assert_eq!(one.line("plan take").reply.is_ok(), writes == 3, "{writes}");
            host.stop_after(None);
            let mut other = session(&host);
            let reply = other.line(look).reply;
            let was_taken = writes > 0;
            let expected = match look {
                "plan put back" => before.clone(),
                "stock drop 1" => {
                    (if was_taken { &after } else { &before }).split_once(' ').expect("rows").1.to_string()
                }
                _ if was_taken => after.clone(),
                _ => before.clone(),
            };
            assert_eq!(reply.is_ok(), was_taken || look != "plan put back", "{writes} {look}");
            assert_eq!(counts(&host), expected, "{writes} {look}");
            // The record is done with: nothing is finished twice.
            assert!(read_takes(&*host).unwrap().pending.is_none());
        }
    }
}

#[test]
fn a_put_back_that_is_cut_short_is_finished_or_never_was() {
    for writes in 0..=3 {
        let host = host();
        let mut one = session(&host);
        one.line("plan");
        one.line("plan take");
        host.stop_after(Some(writes));
        assert_eq!(one.line("plan put back").reply.is_ok(), writes == 3, "{writes}");
        host.stop_after(None);
        assert!(session(&host).line("stock").reply.is_ok());
        assert_eq!(counts(&host), if writes == 0 { after_one_take() } else { "9 9".into() }, "{writes}");
    }
}

#[test]
fn stock_changed_by_hand_in_between_is_not_written_over() {
    let host = host();
    let mut one = session(&host);
    one.line("plan");
    host.stop_after(Some(1));
    one.line("plan take");
    host.stop_after(None);
    let by_hand = TABLE.replace(",9,9,", ",7,9,");
    host.write(Path::new("/home/stock.csv"), &by_hand).unwrap();
    let found = session(&host).line("stock").reply.unwrap_err();
    assert!(found[0].message().starts_with("`plan take` was interrupted"), "{found:?}");
    assert_eq!(stock(&host), by_hand);
    assert!(session(&host).line("stock").reply.is_ok());
}

#[test]
fn takes_are_put_back_one_after_another() {
    let host = host();
    let mut session = session(&host);
    let mut states = vec![counts(&host)];
    for art in ["16 x 20", "20 x 24", "11 x 14"] {
        session.line(&format!("art {art} x 3/4"));
        session.line("plan");
        assert!(session.line("plan take").reply.is_ok());
        states.push(counts(&host));
    }
    while let Some(state) = states.pop() {
        assert_eq!(counts(&host), state);
        assert_eq!(session.line("plan put back").reply.is_ok(), !states.is_empty());
    }
}

/// Tab numbers rows as `stock drop` does, where a quoted cell holds a line end too.
#[test]
fn rows_are_offered_by_their_numbers() {
    let text = "what,length,width,count,cost,wood,section\nstick,8ft,,9,9,\"oak,\nwhite\",\nstick,10ft,,2,9,ash,\n";
    let host = Rc::new(Memory::with(&[("/home/stock.csv", text)]));
    let mut session = session(&host);
    let (_, offers) = crate::session::complete::complete(&mut session, "stock drop ", 11);
    let rows: Vec<(&str, &str)> = offers.iter().map(|offer| (offer.text.as_str(), offer.doc.as_str())).collect();
    assert_eq!(rows.last(), Some(&("2", "stick,10ft,,2,9,ash,")));
    assert_eq!(rows.len(), 2, "{rows:?}");
}
