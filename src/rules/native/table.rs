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
        brief: "A screw from the stocked lengths: the shortest that bites and keeps clear, as thick as the strip allows.",
        example: ("screw(1/2in, 1/2in, 3/4in, 1/8in, 1in, 70%, [3/4in, 1in, 1 1/4in]).length", "1\""),
        takes: &[
            ("through", LENGTH, "what it passes before it bites"),
            ("bite", LENGTH, "what must hold at least"),
            ("bar", LENGTH, "the thickness that it bites into"),
            ("clear", LENGTH, "what must stay between its point and the face"),
            ("reach", LENGTH, "how far the strip reaches under the work"),
            ("lead", Type::Share, "the lead hole, as a share of its root: 70%"),
            ("stocked", LENGTHS, "the lengths that there are"),
        ],
        may_lack: &[],
        gives: &[
            ("length", LENGTH, "under the head"),
            ("number", NUMBER, "its number"),
            ("body", LENGTH, "over its shank"),
            ("root", LENGTH, "over the root of its thread"),
            ("lead", LENGTH, "across the lead hole"),
            ("drill", Type::Word, "the largest drill that is no larger"),
        ],
        work: Work::Screw,
    },
    Native {
        name: "places",
        brief: "Places along a side: the first so far from each corner, the others evenly between, within the pitch.",
        example: ("places(20in, 2in, 8in, 8in).apart", "8\""),
        takes: &[
            ("side", LENGTH, "from corner to corner"),
            ("first", LENGTH, "from each corner to the first"),
            ("pitch", LENGTH, "the farthest from one to the next"),
            ("short", LENGTH, "a side so long or shorter has one place, in its middle"),
        ],
        may_lack: &[],
        gives: &[
            ("count", NUMBER, "how many"),
            ("apart", LENGTH, "from one to the next; nothing where there is one"),
            ("list", LENGTHS, "each from the corner"),
        ],
        work: Work::Places,
    },
    Native {
        name: "moisture",
        brief: "How much water wood holds once it has settled in air.",
        example: ("round(moisture(70degF, 35%).content * 100, 1/10)", "6.9"),
        takes: &[
            ("temperature", TEMPERATURE, "of the air: 70degF"),
            ("humidity", Type::Share, "relative humidity of the air: 35%"),
        ],
        may_lack: &[],
        gives: &[("content", Type::Share, "as a share of the wood's dry weight")],
        work: Work::Moisture,
    },
    Native {
        name: "swelling",
        brief: "What the mitres of a flat regular frame do when its rails swell across the grain, or shrink.",
        example: ("swelling(2in, 4, 1%).side", "outside"),
        takes: &[
            ("face", LENGTH, "of the rails"),
            ("sides", Type::Whole, "of the frame"),
            ("strain", Type::Share, "by which the rails swell, below zero: shrink"),
        ],
        may_lack: &[],
        gives: &[
            ("gap", LENGTH, "that opens in a mitre"),
            ("side", Type::Word, "on which it opens: outside, inside, nowhere"),
        ],
        work: Work::Swelling,
    },
    Native {
        name: "seat",
        brief: "The right-angled opening around a work that is not, turned so that the gaps are most even.",
        example: ("seat(16in, 20in, 16in, 20in, (), (), (), (), 0in, 0in, 0in, 0in, 0in).width", "~16\""),
        takes: &[
            ("top", LENGTH, "edge of the work"),
            ("right", LENGTH, "edge of the work"),
            ("bottom", LENGTH, "edge of the work"),
            ("left", LENGTH, "edge of the work"),
            ("first diagonal", LENGTH, "from the top left"),
            ("second diagonal", LENGTH, "from the top right"),
            ("width at the middle", LENGTH, "where its sides bow"),
            ("height at the middle", LENGTH, "where top and bottom bow"),
            ("gap at the top", LENGTH, "wanted"),
            ("gap at the right", LENGTH, "wanted"),
            ("gap at the bottom", LENGTH, "wanted"),
            ("gap at the left", LENGTH, "wanted"),
            ("bulk", LENGTH, "what stands out on each edge, such as folded canvas"),
        ],
        may_lack: &["first diagonal", "second diagonal", "width at the middle", "height at the middle"],
        gives: &[
            ("width", LENGTH, "of the opening"),
            ("height", LENGTH, "of the opening"),
            ("turn", ANGLE, "of the work in it, clockwise"),
            ("misfit", LENGTH, "the most that the lengths disagree"),
            ("uneven", LENGTH, "the most that a gap exceeds the wanted one"),
            ("corners", LENGTHS, "two gaps at each corner, clockwise from the top left"),
            ("middles", LENGTHS, "gaps at the middles, clockwise from the top"),
            ("widest", LENGTH, "of the gaps at the corners"),
        ],
        work: Work::Seat,
    },
    Native {
        name: "oval",
        brief: "The edges of an oval rail, its face, and the boards that it is glued up from.",
        example: ("oval(12in, 12in, 2in, 8).mitre", "~22.5°"),
        takes: &[
            ("width", LENGTH, "of the opening"),
            ("height", LENGTH, "of the opening"),
            ("face", LENGTH, "of the rail"),
            ("boards", Type::Whole, "that go round"),
        ],
        may_lack: &[],
        gives: &[
            ("inner", LENGTH, "round the edge of the opening"),
            ("outer", LENGTH, "round the outside"),
            ("area", AREA, "of the face"),
            ("wide", LENGTH, "the widest board, across"),
            ("long", LENGTH, "the longest, over its long points"),
            ("short", LENGTH, "the longest, over its short points"),
            ("mitre", ANGLE, "the steepest cut on their ends, from square"),
            ("fills", NUMBER, "share of the rectangle round it that an oval fills"),
        ],
        work: Work::Oval,
    },
    Native {
        name: "brad",
        brief: "What a brad leaves that is driven through a mitre; below zero it falls short, or comes out by as much.",
        example: ("brad(1 1/2in, 45°, 1 1/4in, 3/4in, 3/4in, 0°).bite", "~1/2\""),
        takes: &[
            ("face", LENGTH, "of the rails"),
            ("mitre", ANGLE, "from square"),
            ("length", LENGTH, "of the brad, under its head"),
            ("at", LENGTH, "from the long point of the corner to the brad"),
            ("cover", LENGTH, "from the brad to the nearer of front and back"),
            ("skew", ANGLE, "how far it may be driven askew"),
        ],
        may_lack: &[],
        gives: &[
            ("bite", LENGTH, "in the next rail"),
            ("inner", LENGTH, "from its point to the inner edge of the next rail"),
            ("outer", LENGTH, "from its point to the outer edge of the next rail"),
            ("cover", LENGTH, "from its point to front or back, driven askew"),
        ],
        work: Work::Brad,
    },
    Native {
        name: "key",
        brief: "What the slot of a key leaves of a mitre, and the glue that the key gives it.",
        example: ("key(2in, 45°, 1/2in).long", "~1\""),
        takes: &[
            ("face", LENGTH, "of the rails"),
            ("mitre", ANGLE, "from square"),
            ("depth", LENGTH, "of the slot, along the mitre"),
        ],
        may_lack: &[],
        gives: &[
            ("mitre", LENGTH, "from long point to short point"),
            ("left", LENGTH, "of the mitre, at the inner edge"),
            ("long", LENGTH, "the key at the bottom of its slot"),
            ("glue", AREA, "of the key in one rail, both sides"),
        ],
        work: Work::Key,
    },
    Native {
        name: "mitres",
        brief: "What becomes of a frame of four rails when every mitre is off by one error.",
        example: ("mitres(18in, 22in, 2in, 0°).gap", "~0\""),
        takes: &[
            ("width", LENGTH, "over the outside"),
            ("height", LENGTH, "over the outside"),
            ("face", LENGTH, "of the rails"),
            ("error", ANGLE, "of each mitre, above zero where its end is too sharp"),
        ],
        may_lack: &[],
        gives: &[
            ("last", LENGTH, "three corners tight: the last long points apart"),
            ("faces", ANGLE, "three corners tight: between the faces of the last"),
            ("gap", LENGTH, "clamped square: how far every corner opens"),
        ],
        work: Work::Mitres,
    },
    Native {
        name: "racked",
        brief: "How far a frame is from square by its two diagonals, and what they are once it is pulled square.",
        example: ("racked(18in, 24in, 30in, 30in).square", "~30\""),
        takes: &[
            ("width", LENGTH, "over the outside"),
            ("height", LENGTH, "over the outside"),
            ("first", LENGTH, "one diagonal"),
            ("second", LENGTH, "the other"),
        ],
        may_lack: &[],
        gives: &[
            ("angle", ANGLE, "how far its corners are from square"),
            ("lean", LENGTH, "how far its top has slid to one side"),
            ("square", LENGTH, "both diagonals once it is pulled square"),
            ("misfit", LENGTH, "diagonals longer than those of any frame so large"),
        ],
        work: Work::Racked,
    },
    Native {
        name: "unlike",
        brief: "What becomes of a frame when two opposite rails differ in length.",
        example: ("unlike(18in, 2in, 0in).gap", "~0\""),
        takes: &[
            ("side", LENGTH, "the length of the other two rails"),
            ("face", LENGTH, "of the rails"),
            ("difference", LENGTH, "between the two"),
        ],
        may_lack: &[],
        gives: &[
            ("angle", ANGLE, "how far the corners stand off square"),
            ("gap", LENGTH, "in the mitres of the longer rail"),
            ("step", LENGTH, "clamped square: what is left"),
        ],
        work: Work::Unlike,
    },
];
