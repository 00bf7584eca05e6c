//! Functions on sizes, and the sides of sizes.

use rhai::Dynamic;

use super::call::Call;
use super::row::{Builtin, PLAIN, Param, param};
use super::want::Want;
use crate::lang::script::trouble::Trouble;
use crate::lang::script::value::to_dynamic;
use crate::measure::Size;

const SIZE: Param = param("size", Want::Size, "as in 18\" x 24\"");

pub(super) const ROWS: &[Builtin] = &[
    Builtin {
        name: "width",
        params: &[SIZE],
        property: true,
        returns: Want::Quantity,
        brief: "The first side of a size.",
        examples: &[("(18\" x 24\").width", "18\"")],
        run: |call| Ok(to_dynamic(call.size(0)?.width)),
        ..PLAIN
    },
    Builtin {
        name: "height",
        params: &[SIZE],
        property: true,
        returns: Want::Quantity,
        brief: "The second side of a size.",
        examples: &[("(18\" x 24\").height", "24\"")],
        run: |call| Ok(to_dynamic(call.size(0)?.height)),
        ..PLAIN
    },
    Builtin {
        name: "depth",
        params: &[SIZE],
        property: true,
        returns: Want::Quantity,
        brief: "The third side of a size; nothing if it has two.",
        examples: &[("(18\" x 24\" x 1 1/2\").depth", "1 1/2\"")],
        run: |call| Ok(call.size(0)?.depth.map_or(Dynamic::UNIT, to_dynamic)),
        ..PLAIN
    },
    Builtin {
        name: "size",
        params: &[
            param("width", Want::Quantity, ""),
            param("height", Want::Quantity, ""),
            param("depth", Want::Quantity, ""),
        ],
        least: 2,
        returns: Want::Size,
        brief: "A size from its sides, where they are not written out.",
        examples: &[("size(9\" + 9\", 24\")", "18\" x 24\"")],
        run: |call| Ok(Dynamic::from(of_sides(call)?)),
        ..PLAIN
    },
    Builtin {
        name: "area",
        params: &[SIZE],
        returns: Want::Quantity,
        brief: "Width times height.",
        examples: &[("area(12\" x 24\")", "288 in2")],
        run: |call| Ok(to_dynamic(call.size(0)?.area()?)),
        ..PLAIN
    },
    Builtin {
        name: "volume",
        params: &[SIZE],
        returns: Want::Quantity,
        brief: "Width times height times depth.",
        examples: &[("volume(2\" x 3\" x 4\")", "24 in3")],
        run: |call| Ok(to_dynamic(call.size(0)?.volume()?)),
        ..PLAIN
    },
    Builtin {
        name: "diagonal",
        params: &[SIZE],
        returns: Want::Quantity,
        brief: "The diagonal of a rectangle; both are equal when a frame is square.",
        examples: &[("diagonal(9\" x 12\")", "15\"")],
        source: "Pythagoras",
        run: |call| Ok(to_dynamic(call.size(0)?.diagonal()?)),
        ..PLAIN
    },
    Builtin {
        name: "board_feet",
        params: &[
            param("thickness", Want::LENGTH, ""),
            param("width", Want::LENGTH, ""),
            param("length", Want::LENGTH, ""),
        ],
        returns: Want::NUMBER,
        brief: "The board feet in a piece of lumber; one is 144 cubic inches.",
        examples: &[("board_feet(1\", 6\", 8ft)", "4")],
        source: "NIST Handbook 44, Appendix C",
        run: |call| Ok(to_dynamic(of_sides(call)?.board_feet()?)),
        ..PLAIN
    },
];

fn of_sides(call: &Call<'_, '_, '_>) -> Result<Size, Trouble> {
    let depth = if call.count() > 2 { Some(call.quantity(2)?) } else { None };
    Ok(Size { width: call.quantity(0)?, height: call.quantity(1)?, depth })
}
