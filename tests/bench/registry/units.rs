//! Every unit is read, however it is written.

use benchrule::lang::Value;
use benchrule::measure::UNITS;
use benchrule::session::Reply;

use crate::bench::Bench;

#[test]
fn every_unit_is_read_behind_a_number() {
    for unit in UNITS {
        for name in unit.names {
            let line = format!("1{name}");
            let shown = Bench::new().line(&line);
            let Ok(Reply::Value(Value::Quantity(quantity))) = &shown.outcome.reply else {
                panic!("{line}: {}", shown.text);
            };
            assert_eq!(quantity.kind, unit.kind, "{line}");
            assert!(quantity.amount.same(&unit.to_storage(benchrule::measure::Real::ONE)), "{line}");
        }
    }
}
