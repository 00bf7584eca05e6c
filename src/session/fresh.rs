//! A design as the shop begins one.

use crate::rules::Design;
use crate::shop::Settings;

/// An empty design in a shop with these settings.
pub fn fresh(settings: &Settings) -> Design {
    let mut design = Design::new(settings.rules.clone(), settings.manner());
    fit(&mut design, settings);
    design
}

/// Applies the settings of the shop to a design.
pub(super) fn fit(design: &mut Design, settings: &Settings) {
    if *design.manner() != settings.manner() {
        design.set_manner(settings.manner());
    }
    settings.fit(design);
}
