//! Weights of glass, acrylic and boards, and how acrylic grows.

use super::{design, near, value};

/// A pane of 16 x 20 in and what a square foot of it weighs.
fn pane(glazing: &str) -> (f64, f64) {
    let frame =
        design(&[("build", "rabbeted"), ("art", "16 x 20 x 1/64"), ("art.kind", "paper"), ("glazing", glazing)]);
    near(value(&frame, "pane.area"), 320.0, 0.0);
    let weight = value(&frame, "weight.glazing");
    (weight, weight / value(&frame, "pane.area") * 144.0)
}

/// EN 572-1 (2500 kg/m³, 2.5 kg for each m² and mm, read) and ASTM D792 as certified for cast acrylic (1190 kg/m³, US
/// Department of Defense guide 4-159-01 Table 3-1, read); pounds for each square foot computed from them.
#[test]
fn panes_weigh_what_is_published() {
    near(pane("glass 2mm").1, 1.02408, 5e-6);
    near(pane("glass 2.5mm").1, 1.28010, 5e-6);
    near(pane("glass 3mm").1, 1.53612, 5e-6);
    near(pane("acrylic 3mm").1, 0.731194, 5e-7);
    // A whole pane, in pounds and in kilograms.
    let (pounds, _) = pane("glass 2mm");
    near(pounds, 2.27573, 5e-6);
    near(pounds * 0.453_592_37, 1.03226, 5e-6);
}

/// 0.000040 of its length for each degree F at 60 °F (the same guide, read): 36 in grow 0.0432 in over 30 °F.
#[test]
fn acrylic_grows_as_published() {
    let frame =
        design(&[("build", "rabbeted"), ("art", "24 x 36 x 1/64"), ("art.kind", "paper"), ("glazing", "acrylic")]);
    near(value(&frame, "glazing.grows"), 0.0432, 1e-12);
}

/// A canvas on its stretcher, a panel, a sheet: each by hand. Numbered duck no. 10 weighs 499 g/m² (US Department of
/// Commerce standard, read) and is doubled for its ground; spruce 0.40 × 1.12 × 62.4 lb/ft³ = 27.955.
#[test]
fn works_weigh_their_cloth_and_wood() {
    let canvas = design(&[("art", "16 x 20 x 3/4")]);
    let cloth = 998.0 / 453.592_37 * (16.0 * 20.0 * 0.0254 * 0.0254);
    let wood = 27.955 / 1728.0 * 0.75 * 1.5 * (72.0 - 6.0);
    near(value(&canvas, "art.weight"), cloth + wood, 0.002);
    let panel = design(&[("art", "12 x 12 x 3/4"), ("art.kind", "panel")]);
    near(value(&panel, "art.weight"), 680.0 / 453.592_37 * 1000.0 * (144.0 * 0.75 * 0.0254_f64.powi(3)), 1e-6);
}
