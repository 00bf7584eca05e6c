//! The right-angled opening around a work that is not right-angled.

use super::point::Point;
use super::quadrilateral::Quadrilateral;

/// How a work lies in its opening. Lengths in inches.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fit {
    /// The turn of the work from level, in radians, clockwise as seen; at most 3° either way.
    pub turn: f64,
    /// Width of the opening.
    pub width: f64,
    /// Height of the opening.
    pub height: f64,
    /// The work's corners, clockwise from the top left, from the opening's top left corner.
    pub corners: [Point; 4],
    /// The gap at each corner, clockwise from the top left: to the top or bottom wall, to the left or right wall.
    pub corner_gaps: [[f64; 2]; 4],
    /// The gap at the middle of each edge, bow included: top, right, bottom, left.
    pub middle_gaps: [f64; 4],
    /// The most by which a gap exceeds the wanted one on its side: how uneven the reveal looks.
    pub unevenness: f64,
}

/// The largest turn from level.
pub const MOST_TURN: f64 = 3.0;

/// The difference in unevenness that counts as none, in inches.
const TIE: f64 = 1e-9;

/// The opening whose least gap on each side is the wanted one, with the work turned so that the gaps are most even.
///
/// `gaps`: wanted at the top, right, bottom, left, between the wall and what the work carries on its edges; `bulk`: how
/// far folds and staples stand out from each edge. Most even is the turn with the least of the largest excess of a gap,
/// at a corner or the middle of an edge, over the gap wanted on that side; among turns alike in this, the smallest
/// opening; among those, the least turn. A bowed edge counts by its two ends and its middle.
///
/// Source: frame maths §5. Method: on each side the excess is the largest difference of two of its points, each a
/// sinusoid of the turn. Between its zeros the size of a sinusoid has no least value, so that the least of the largest
/// lies where one is zero, where two are alike, or at an end of the range: all in closed form, none by search.
pub fn fit(shape: &Quadrilateral, gaps: [f64; 4], bulk: f64) -> Fit {
    let leans = leans(shape);
    let turn = most_even(shape, &leans);
    let [top, right, bottom, left] = gaps;
    let extent = Extent::of(shape, turn);
    let origin = extent.least - Point::new(left + bulk, top + bulk);
    let width = extent.width() + 2.0 * bulk + left + right;
    let height = extent.height() + 2.0 * bulk + top + bottom;
    let corners = shape.corners.map(|corner| corner.turned(turn) - origin);
    let middles = shape.middles.map(|middle| middle.turned(turn) - origin);
    let gap = |point: Point, side: usize| match side {
        0 => point.y - bulk,
        1 => width - point.x - bulk,
        2 => height - point.y - bulk,
        _ => point.x - bulk,
    };
    Fit {
        turn: turn.y.atan2(turn.x),
        width,
        height,
        corners,
        corner_gaps: std::array::from_fn(|at| {
            let [level, upright] = WALLS[at];
            [gap(corners[at], level), gap(corners[at], upright)]
        }),
        middle_gaps: std::array::from_fn(|side| gap(middles[side], side)),
        unevenness: unevenness(&leans, turn),
    }
}

/// The two walls of each corner, by the number of their side: top or bottom, left or right.
const WALLS: [[usize; 2]; 4] = [[0, 3], [0, 1], [2, 1], [2, 3]];

/// How much farther one point of a side is from its wall than another, by the turn: `level · cos + slope · sin`.
#[derive(Clone, Copy, Debug)]
struct Lean {
    level: f64,
    slope: f64,
}

impl Lean {
    fn at(self, turn: Point) -> f64 {
        self.level * turn.x + self.slope * turn.y
    }

    /// The turn at which it is zero.
    fn zero(self) -> Point {
        let heading = Point::new(self.slope.abs(), -self.level * self.slope.signum()).heading();
        // No negative zero, which would be shown with a sign.
        Point::new(heading.x, heading.y + 0.0)
    }
}

/// The differences on each side: over its whole length, and to its middle if it bows.
fn leans(shape: &Quadrilateral) -> Vec<Lean> {
    let mut leans = Vec::with_capacity(12);
    for side in 0..4 {
        let (from, to) = (shape.corners[side], shape.corners[(side + 1) % 4]);
        let mut add = |way: Point| {
            leans.push(if side % 2 == 0 {
                Lean { level: way.y, slope: way.x }
            } else {
                Lean { level: way.x, slope: -way.y }
            });
        };
        add(to - from);
        if shape.bows[side] != 0.0 {
            let middle = shape.middles[side];
            add(middle - from);
            add(to - middle);
        }
    }
    leans
}

fn unevenness(leans: &[Lean], turn: Point) -> f64 {
    leans.iter().map(|lean| lean.at(turn).abs()).fold(0.0, f64::max)
}

/// The best turn, as a direction.
fn most_even(shape: &Quadrilateral, leans: &[Lean]) -> Point {
    let limit = MOST_TURN.to_radians();
    let mut best = Best::new(shape, leans);
    best.consider(Point::direction(-limit));
    best.consider(Point::direction(limit));
    let sine = limit.sin();
    let mut consider = |turn: Point| {
        if turn.y.abs() <= sine {
            best.consider(turn);
        }
    };
    for (at, one) in leans.iter().enumerate() {
        consider(one.zero());
        for other in &leans[at + 1..] {
            // Where the differences are equal, and where they are opposite.
            consider(Lean { level: one.level - other.level, slope: one.slope - other.slope }.zero());
            consider(Lean { level: one.level + other.level, slope: one.slope + other.slope }.zero());
        }
    }
    best.turn
}

/// The best turn so far.
struct Best<'s> {
    shape: &'s Quadrilateral,
    leans: &'s [Lean],
    turn: Point,
    unevenness: f64,
}

impl<'s> Best<'s> {
    fn new(shape: &'s Quadrilateral, leans: &'s [Lean]) -> Self {
        let turn = Point::direction(0.0);
        Self { shape, leans, turn, unevenness: unevenness(leans, turn) }
    }

    fn consider(&mut self, turn: Point) {
        let unevenness = unevenness(self.leans, turn);
        let gain = self.unevenness - unevenness;
        if gain > TIE || gain >= -TIE && self.is_neater(turn) {
            self.turn = turn;
            self.unevenness = unevenness;
        }
    }

    /// Whether an equally even turn has a smaller opening, or the same opening and a smaller turn.
    fn is_neater(&self, turn: Point) -> bool {
        let gain = Extent::of(self.shape, self.turn).area() - Extent::of(self.shape, turn).area();
        gain > TIE || gain >= -TIE && turn.y.abs() < self.turn.y.abs()
    }
}

/// The extent of the turned work.
struct Extent {
    least: Point,
    most: Point,
}

impl Extent {
    fn of(shape: &Quadrilateral, turn: Point) -> Self {
        let mut points = shape.corners.iter().chain(&shape.middles).map(|point| point.turned(turn));
        let first = points.next().unwrap_or(Point::ORIGIN);
        points.fold(Self { least: first, most: first }, |reach, point| Self {
            least: Point::new(reach.least.x.min(point.x), reach.least.y.min(point.y)),
            most: Point::new(reach.most.x.max(point.x), reach.most.y.max(point.y)),
        })
    }

    fn width(&self) -> f64 {
        self.most.x - self.least.x
    }

    fn height(&self) -> f64 {
        self.most.y - self.least.y
    }

    fn area(&self) -> f64 {
        self.width() * self.height()
    }
}
