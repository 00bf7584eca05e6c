//! Every function of the program.

use super::{Native, Work};
use crate::measure::Kind;
use crate::rules::book::Type;

const LENGTH: Type = Type::Quantity(Kind::LENGTH);
const LENGTHS: Type = Type::List(Kind::LENGTH);
const ANGLE: Type = Type::Quantity(Kind::ANGLE);
const AREA: Type = Type::Quantity(Kind::AREA);
const TEMPERATURE: Type = Type::Quantity(Kind::TEMPERATURE);
const NUMBER: Type = Type::Quantity(Kind::NUMBER);

/// Every function of the program.
pub const NATIVES: &[Native] = &[
    Native {
        name: "screw",
        brief: "Chooses the shortest stocked screw that bites deep enough and keeps clear, as thick as the strip allows.",
        example: ("screw(1/2in, 1/2in, 3/4in, 1/8in, 1in, 70%, [3/4in, 1in, 1 1/4in]).length", "1\""),
        takes: &[
            ("through", LENGTH, "thickness it passes through before it bites"),
            ("bite", LENGTH, "least depth that must hold"),
            ("bar", LENGTH, "thickness of the stretcher"),
            ("clear", LENGTH, "least wood between the point and the face"),
            ("reach", LENGTH, "how far the strip reaches under the work"),
            ("lead", Type::Share, "pilot hole as a share of the root: 70%"),
            ("stocked", LENGTHS, "lengths in stock"),
        ],
        may_lack: &[],
        gives: &[
            ("length", LENGTH, "length under the head"),
            ("number", NUMBER, "number of the screw"),
            ("body", LENGTH, "diameter of the shank"),
            ("root", LENGTH, "diameter of the thread's root"),
            ("lead", LENGTH, "diameter of the pilot hole"),
            ("drill", Type::Word, "largest drill that fits the pilot hole"),
        ],
        work: Work::Screw,
    },
    Native {
        name: "places",
        brief: "Spaces places along a side: one near each corner, the rest evenly between, no farther apart than the pitch.",
        example: ("places(20in, 2in, 8in, 8in).apart", "8\""),
        takes: &[
            ("side", LENGTH, "length of the side from corner to corner"),
            ("first", LENGTH, "distance from each corner to the first place"),
            ("pitch", LENGTH, "greatest distance from one place to the next"),
            ("short", LENGTH, "a side up to this length has one place, in the middle"),
        ],
        may_lack: &[],
        gives: &[
            ("count", NUMBER, "number of places"),
            ("apart", LENGTH, "distance from one place to the next; nothing if there is only one"),
            ("list", LENGTHS, "distance of each place from the corner"),
        ],
        work: Work::Places,
    },
    Native {
        name: "moisture",
        brief: "Finds the moisture content of wood that has settled in air.",
        example: ("round(moisture(70degF, 35%).content * 100, 1/10)", "6.9"),
        takes: &[
            ("temperature", TEMPERATURE, "temperature of the air: 70degF"),
            ("humidity", Type::Share, "relative humidity of the air: 35%"),
        ],
        may_lack: &[],
        gives: &[("content", Type::Share, "moisture as a share of the wood's dry weight")],
        work: Work::Moisture,
    },
    Native {
        name: "swelling",
        brief: "Finds how far the miters of a flat frame with equal sides open when its rails swell or shrink.",
        example: ("swelling(2in, 4, 1%).side", "outside"),
        takes: &[
            ("face", LENGTH, "face of the rails"),
            ("sides", Type::Whole, "number of sides of the frame"),
            ("strain", Type::Share, "share by which the rails swell across the grain; below zero they shrink"),
        ],
        may_lack: &[],
        gives: &[
            ("gap", LENGTH, "gap that opens in a mitre"),
            ("side", Type::Word, "side where it opens: outside, inside, nowhere"),
        ],
        work: Work::Swelling,
    },
    Native {
        name: "seat",
        brief: "Fits a work that is out of square into a square opening, turned so that the gaps are as even as possible.",
        example: ("seat(16in, 20in, 16in, 20in, (), (), (), (), 0in, 0in, 0in, 0in, 0in).width", "~16\""),
        takes: &[
            ("top", LENGTH, "top edge of the work"),
            ("right", LENGTH, "right edge of the work"),
            ("bottom", LENGTH, "bottom edge of the work"),
            ("left", LENGTH, "left edge of the work"),
            ("first diagonal", LENGTH, "diagonal from the top left"),
            ("second diagonal", LENGTH, "diagonal from the top right"),
            ("width at the middle", LENGTH, "width of the work at half height, if its sides bow"),
            ("height at the middle", LENGTH, "height of the work at half width, if its top and bottom bow"),
            ("gap at the top", LENGTH, "gap you want at the top"),
            ("gap at the right", LENGTH, "gap you want at the right"),
            ("gap at the bottom", LENGTH, "gap you want at the bottom"),
            ("gap at the left", LENGTH, "gap you want at the left"),
            ("bulk", LENGTH, "extra on each edge, such as folded canvas"),
        ],
        may_lack: &["first diagonal", "second diagonal", "width at the middle", "height at the middle"],
        gives: &[
            ("width", LENGTH, "width of the opening"),
            ("height", LENGTH, "height of the opening"),
            ("turn", ANGLE, "how far the work is turned in the opening, clockwise"),
            ("misfit", LENGTH, "greatest amount by which the measured lengths disagree"),
            ("uneven", LENGTH, "greatest amount by which a gap exceeds the one you want"),
            ("corners", LENGTHS, "two gaps at each corner, clockwise from the top left"),
            ("middles", LENGTHS, "gaps at the middles, clockwise from the top"),
            ("widest", LENGTH, "widest gap at a corner"),
        ],
        work: Work::Seat,
    },
    Native {
        name: "oval",
        brief: "Measures an oval rail and the boards that it is glued up from.",
        example: ("oval(12in, 12in, 2in, 8).mitre", "~22.5°"),
        takes: &[
            ("width", LENGTH, "width of the opening"),
            ("height", LENGTH, "height of the opening"),
            ("face", LENGTH, "face of the rail"),
            ("boards", Type::Whole, "number of boards round the oval"),
        ],
        may_lack: &[],
        gives: &[
            ("inner", LENGTH, "length round the edge of the opening"),
            ("outer", LENGTH, "length round the outside"),
            ("area", AREA, "area of the face"),
            ("wide", LENGTH, "width of the widest board"),
            ("long", LENGTH, "length of the longest board over its long points"),
            ("short", LENGTH, "length of the longest board over its short points"),
            ("mitre", ANGLE, "steepest end cut of the boards, from square; the boards are not all cut alike"),
            ("fills", NUMBER, "share of the surrounding rectangle that an oval fills"),
        ],
        work: Work::Oval,
    },
    Native {
        name: "brad",
        brief: "Finds where a brad driven through a miter ends; below zero it falls short or comes out by that much.",
        example: ("brad(1 1/2in, 45°, 1 1/4in, 3/4in, 3/4in, 0°).bite", "~1/2\""),
        takes: &[
            ("face", LENGTH, "face of the rails"),
            ("mitre", ANGLE, "cut of the miter from square"),
            ("length", LENGTH, "length of the brad under the head"),
            ("at", LENGTH, "distance from the long point of the corner to the brad"),
            ("cover", LENGTH, "distance from the brad to the front or back, whichever is nearer"),
            ("skew", ANGLE, "angle by which it may be driven askew"),
        ],
        may_lack: &[],
        gives: &[
            ("bite", LENGTH, "depth in the next rail"),
            ("inner", LENGTH, "wood between the point and the inner edge of the next rail"),
            ("outer", LENGTH, "wood between the point and the outer edge of the next rail"),
            ("cover", LENGTH, "wood between the point and the front or back, driven askew"),
        ],
        work: Work::Brad,
    },
    Native {
        name: "key",
        brief: "Finds how much of a miter the slot of a key leaves, and the glue area that the key adds.",
        example: ("key(2in, 45°, 1/2in).long", "~1\""),
        takes: &[
            ("face", LENGTH, "face of the rails"),
            ("mitre", ANGLE, "cut of the miter from square"),
            ("depth", LENGTH, "depth of the slot along the mitre"),
        ],
        may_lack: &[],
        gives: &[
            ("mitre", LENGTH, "length of the miter from long point to short point"),
            ("left", LENGTH, "length of miter left at the inner edge"),
            ("long", LENGTH, "length of the key at the bottom of its slot"),
            ("glue", AREA, "glue area of the key in one rail, both sides"),
        ],
        work: Work::Key,
    },
    Native {
        name: "mitres",
        brief: "Finds what a frame of four rails does when every miter is off by the same error.",
        example: ("mitres(18in, 22in, 2in, 0°).gap", "~0\""),
        takes: &[
            ("width", LENGTH, "outside width of the frame"),
            ("height", LENGTH, "outside height of the frame"),
            ("face", LENGTH, "face of the rails"),
            ("error", ANGLE, "error of each miter; above zero the end is too sharp"),
        ],
        may_lack: &[],
        gives: &[
            ("last", LENGTH, "distance between the last two long points, with three corners tight"),
            ("faces", ANGLE, "angle between the last two faces, with three corners tight"),
            ("gap", LENGTH, "opening at every corner, with the frame clamped square"),
        ],
        work: Work::Mitres,
    },
    Native {
        name: "racked",
        brief: "Finds how far a frame is out of square from its two diagonals, and their length once it is square.",
        example: ("racked(18in, 24in, 30in, 30in).square", "~30\""),
        takes: &[
            ("width", LENGTH, "outside width of the frame"),
            ("height", LENGTH, "outside height of the frame"),
            ("first", LENGTH, "length of one diagonal"),
            ("second", LENGTH, "length of the other diagonal"),
        ],
        may_lack: &[],
        gives: &[
            ("angle", ANGLE, "angle by which the corners are out of square"),
            ("lean", LENGTH, "distance the top has slid to one side"),
            ("square", LENGTH, "length of both diagonals once it is square"),
            ("misfit", LENGTH, "amount by which the diagonals are too long for the frame"),
        ],
        work: Work::Racked,
    },
    Native {
        name: "unlike",
        brief: "Finds what a frame does when two opposite rails differ in length.",
        example: ("unlike(18in, 2in, 0in).gap", "~0\""),
        takes: &[
            ("side", LENGTH, "length of the other two rails"),
            ("face", LENGTH, "face of the rails"),
            ("difference", LENGTH, "difference between the two rails"),
        ],
        may_lack: &[],
        gives: &[
            ("angle", ANGLE, "angle by which the corners are out of square"),
            ("gap", LENGTH, "gap in the miters of the longer rail"),
            ("step", LENGTH, "step that is left, with the frame clamped square"),
        ],
        work: Work::Unlike,
    },
];
