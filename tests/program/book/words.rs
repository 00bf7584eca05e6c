//! A tab behind the words of the design book.

use std::rc::Rc;

use benchrule::host::Memory;
use benchrule::session::{Session, complete};
use benchrule::shop::Settings;
use benchrule::show::Press;

#[test]
fn a_tab_offers_the_names_of_designs() {
    let mut session = Session::new(Rc::new(Memory::default()), Settings::default(), Rc::new(Press { width: 80 }));
    for line in ["art 16 x 20", "keep moth-07", "keep moth-08", "keep größe", "retire moth-08"] {
        assert!(session.line(line).reply.is_ok(), "{line}");
    }
    let mut offers = |line: &str| {
        let offers = complete::complete(&mut session, line, line.len()).1;
        offers.into_iter().map(|offer| offer.text).collect::<Vec<_>>()
    };
    assert_eq!(offers("open mo"), ["moth-07", "moth-08"]);
    assert_eq!(offers("open "), ["größe", "moth-07", "moth-08"]);
    assert_eq!(offers("compare moth-07 gr"), ["größe"]);
    assert_eq!(offers("rename gr"), ["größe"]);
    assert_eq!(offers("book ex"), ["export"]);
    assert_eq!(offers("revisions x"), <[String; 0]>::default());
    assert_eq!(offers("kee"), ["keep"]);
    // Where there is no book, nothing is offered and nothing is made.
    let mut other = Session::new(Rc::new(Memory::default()), Settings::default(), Rc::new(Press { width: 80 }));
    assert!(complete::complete(&mut other, "open ", 5).1.is_empty());
}
