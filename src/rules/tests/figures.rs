//! Every figure of every build has a value, or is idle where the rules say so: nothing vanishes without a word.

use std::collections::BTreeSet;

use super::{bench, set};
use crate::rules::{Absent, Design};

/// A build with everything given that a person can give, but for what is named otherwise in `fields`.
fn complete(build: &str, fields: &[(&str, &str)]) -> Design {
    let mut design = bench();
    set(&mut design, "build", build);
    for (name, value) in [("name", "a test"), ("client", "nobody"), ("note", "none yet"), ("art.depth", "3/4")] {
        set(&mut design, name, value);
    }
    for (name, value) in [("art", "16 x 20"), ("art.across", "12")].iter().chain(fields) {
        set(&mut design, name, value);
    }
    design
}

/// What is idle in a design; anything else has a value.
#[track_caller]
fn idle(design: &Design) -> BTreeSet<String> {
    let mut idle = BTreeSet::new();
    for slot in &design.book().builds[usize::from(design.build())].order {
        let name = design.book().name(*slot).text.clone();
        match design.known(*slot) {
            Ok(_) => {}
            Err(Absent::Idle) => {
                idle.insert(name);
            }
            Err(why) => panic!("{name}: {why:?}"),
        }
    }
    idle
}

#[track_caller]
fn check(design: &Design, groups: &[&str]) {
    let expected: BTreeSet<String> =
        groups.iter().flat_map(|group| group.split_whitespace()).map(str::to_string).collect();
    let is = idle(design);
    let more: Vec<_> = is.difference(&expected).collect();
    let fewer: Vec<_> = expected.difference(&is).collect();
    assert!(more.is_empty() && fewer.is_empty(), "idle besides: {more:?}; not idle: {fewer:?}");
}

/// What only frames of four sides have.
const FOUR: &str = "fit.width fit.height art art.width art.height united perimeter.none outside.width outside.height outside.diagonal \
    rail.top.short rail.bottom.short rail.top.long rail.bottom.long rail.left.short rail.right.short rail.left.long \
    rail.right.long built.width built.height";
/// The same in open frames alone.
const FOUR_OPEN: &str = "needs.width needs.height opening.width opening.height opening.diagonal strip.top.long strip.top.short strip.side.long \
    strip.side.short";
/// The same in captured frames alone.
const FOUR_CAPTURED: &str = "package.width package.height inside.width inside.height sight.width sight.height \
    sight.diagonal mat.window.width mat.window.height mat.hold mat.outer.width mat.outer.height mat.seen \
    mat.1.window.width mat.1.window.height mat.2.window.width mat.2.window.height mat.3.window.width \
    mat.3.window.height glazing.width glazing.height backing.width backing.height spacer.top.long spacer.side.long";
/// What only frames of other than four sides have.
const MANY: &str = "art.across outside.across rail.short rail.long piece.round piece.tall hanger.rise hanger.chord \
    shape.width shape.height";
const OVAL_OPEN: &str = "oval.strip oval.strip.wide oval.strip.long oval.strip.short oval.strip.mitre";
const MANY_OPEN: &str = "opening.across strip.long strip.short";
const MANY_CAPTURED: &str = "package.across inside.across sight.across glazing.across backing.across \
    spacer.each.long spacer.each.short";
const NO_MATS: &str = "mat.1.border mat.1.border.top mat.1.border.right mat.1.border.bottom mat.1.border.left \
    mat.1.thickness mat.2.thickness mat.3.thickness mat.1.overlap mat.2.overlap mat.3.overlap mat.1.reveal \
    mat.2.reveal mat.3.reveal weight.mats mat.1.sheet mat.2.sheet mat.3.sheet \
    mat.weighting";

/// What nobody gives unasked: measured art, keys, ovals, cleats, solid panels, diagonals after glue-up.
const UNASKED: &str = "art.edges art.edge.top art.edge.right art.edge.bottom art.edge.left art.diagonals art.diagonal.1 \
    art.diagonal.2 art.middles art.middle.width art.middle.height art.seat art.turn art.misfit art.uneven art.corners \
    art.sides built.diagonals built.diagonal.1 built.diagonal.2 rack.found rack.angle rack.off rack.misfit \
    cleat.length cleat.load hook.span key.depth key.slot key.left key.long key.glue oval.boards oval.rail oval.inner \
    oval.wide oval.long oval.short oval.mitre wall.width wall.height wall.gap wall.rows panel.wood panel.grain panel.solid panel.moves \
    panel.swells";
/// What goes with brads, with errors of four rails, and with places along two unlike sides.
const FOUR_FIXED: &str = "brad.at brad.length brad.driven brad.holds brad.inner brad.outer brad.clear brad.pull brad.skew \
    brad.cover brad.wall mitre.off \
    mitre.last mitre.faces mitre.gap rails.unlike rails.lean rails.gap rails.step";
const FOUR_SCREWED: &str = "screw.across screw.along screw.top.at screw.side.at";
const MANY_SCREWED: &str = "screw.round screw.at rabbet.volume";
const FOUR_POINTED: &str = "point.across point.along point.top.at point.side.at dust.width dust.height bumper.count board.width board.height \
     spacer.oval spacer.rings";
const MANY_POINTED: &str = "point.round point.at clip.kind board.across spacer.oval spacer.rings";

fn without(group: &str, names: &str) -> String {
    let names: Vec<&str> = names.split_whitespace().collect();
    group.split_whitespace().filter(|name| !names.contains(name)).collect::<Vec<_>>().join(" ")
}

#[test]
fn open_frames_have_every_figure() {
    let four = without(FOUR, "perimeter.none");
    for build in ["float", "shadowbox"] {
        let built = [("built.width", "16 1/2"), ("built.height", "20 1/2")];
        check(&complete(build, &built), &[MANY, MANY_OPEN, OVAL_OPEN, UNASKED, MANY_SCREWED]);
        check(&complete(build, &[]), &[MANY, MANY_OPEN, OVAL_OPEN, UNASKED, MANY_SCREWED, "built.width built.height"]);
        let many = [&built[..], &[("sides", "6")]].concat();
        check(
            &complete(build, &many),
            &[&four, FOUR_OPEN, OVAL_OPEN, UNASKED, FOUR_FIXED, FOUR_SCREWED, "rabbet.volume"],
        );
    }
}

/// Everything that may lie in a rabbet, but mats.
const FULL: &[(&str, &str)] = &[
    ("glazing", "glass"),
    ("mount", "1/8"),
    ("backing", "1/8"),
    ("spacer", "1 1/4"),
    ("built.width", "30"),
    ("built.height", "30"),
    ("image.width", "10"),
    ("image.height", "14"),
];

#[test]
fn captured_frames_have_every_figure() {
    let four = without(FOUR, "perimeter.none");
    for build in ["rabbeted", "box"] {
        let with = |more: &[(&str, &str)]| complete(build, &[FULL, more].concat());
        // Only the last mat has an overlap, and it alone.
        let mats = "mat.1.overlap mat.2.overlap";
        check(&with(&[("mat", "3")]), &[MANY, MANY_CAPTURED, UNASKED, MANY_POINTED, mats]);
        let two = "mat.1.overlap mat.3.overlap mat.3.thickness mat.3.reveal mat.3.window.width mat.3.window.height \
            mat.3.sheet";
        check(&with(&[("mat", "2")]), &[MANY, MANY_CAPTURED, UNASKED, MANY_POINTED, two]);
        let windows = without(
            FOUR_CAPTURED,
            "package.width package.height inside.width inside.height sight.width sight.height sight.diagonal \
             glazing.width glazing.height backing.width backing.height spacer.top.long spacer.side.long",
        );
        check(&with(&[]), &[MANY, MANY_CAPTURED, UNASKED, MANY_POINTED, NO_MATS, &windows]);
        check(
            &with(&[("sides", "5")]),
            &[&four, FOUR_CAPTURED, UNASKED, FOUR_FIXED, FOUR_POINTED, "clip.kind", NO_MATS],
        );
        let bare = "glazing.thickness glazing.width glazing.height mount.thickness backing.thickness backing.width backing.height weight.glazing pane.area pane.width pane.height glazing.warms pane.limit glazing.grows weight.mount weight.backing \
            built.width built.height image.width image.height spacer.thickness spacer.top.long spacer.side.long weight.spacers";
        let spacer = if build == "box" { "" } else { "spacer" };
        check(&complete(build, &[]), &[MANY, MANY_CAPTURED, UNASKED, MANY_POINTED, NO_MATS, &windows, bare, spacer]);
    }
}

#[test]
fn what_is_missing_is_named_once() {
    let mut design = bench();
    let missing =
        |design: &Design, name: &str| design.answer(name).map_err(crate::diag::Diagnostic::from).unwrap_err().message();
    assert_eq!(
        missing(&design, "outside.diagonal"),
        "outside.diagonal is not known yet: art.width and art.height are not set"
    );
    set(&mut design, "art.width", "16");
    assert_eq!(missing(&design, "united"), "united is not known yet: art.height is not set");
    set(&mut design, "sides", "6");
    assert_eq!(missing(&design, "outside.across"), "outside.across is not known yet: art.across is not set");
    assert_eq!(missing(&design, "united"), "united does not apply to this float frame");
    assert_eq!(missing(&design, "built.width"), "built.width does not apply to this float frame");
}
