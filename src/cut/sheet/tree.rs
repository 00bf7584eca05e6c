//! A sheet while it is filled: rows within rows, and no size but the least that holds what is in them.
//!
//! Such a tree is a guillotine pattern in which it is not yet said where the free room goes, so that a piece may be put
//! beside any piece or row as long as the whole still fits the sheet. Source: slicing trees, Otten, Automatic floorplan
//! design, DAC 1982.

use super::problem::Size;

/// Which way the parts of a row follow one another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Way {
    /// Side by side.
    Across,
    /// One above the other.
    Up,
}

impl Way {
    pub(super) const fn other(self) -> Self {
        match self {
            Self::Across => Self::Up,
            Self::Up => Self::Across,
        }
    }

    /// The side along the row, and the one across it.
    pub(super) const fn sides(self, size: Size) -> (u64, u64) {
        match self {
            Self::Across => (size.width, size.height),
            Self::Up => (size.height, size.width),
        }
    }

    /// From the side along the row and the one across it.
    pub(super) const fn size(self, along: u64, thick: u64) -> Size {
        match self {
            Self::Across => Size { width: along, height: thick },
            Self::Up => Size { width: thick, height: along },
        }
    }
}

/// A piece, or a row of at least two pieces and rows of the other way.
#[derive(Clone, Copy, Debug)]
pub(super) struct Node {
    /// The least size that holds it.
    pub(super) size: Size,
    /// The most that it may grow to while all else stays.
    pub(super) room: Size,
    /// Which item it is; none for a row.
    pub(super) item: Option<usize>,
    /// How many nodes it is with all that is in it.
    pub(super) span: usize,
    /// The way of the row; of a piece, the way of a row that would take its place.
    pub(super) way: Way,
}

/// A place for one more piece: behind the row `node`, or in a row with the piece `node`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Place {
    pub(super) node: usize,
    pub(super) way: Way,
    /// As the piece lies.
    pub(super) size: Size,
}

/// What is on one sheet. Every row comes before what is in it.
#[derive(Clone, Debug)]
pub(super) struct Tree {
    sheet: Size,
    nodes: Vec<Node>,
    used: u64,
}

impl Tree {
    pub(super) const fn new(sheet: Size) -> Self {
        Self { sheet, nodes: Vec::new(), used: 0 }
    }

    /// Of nodes whose spans and ways are given, every row before what is in it.
    pub(super) fn of(sheet: Size, nodes: Vec<Node>) -> Self {
        let pieces = nodes.iter().filter(|node| node.item.is_some());
        let used = pieces.map(|node| node.size.area()).sum();
        let mut tree = Self { sheet, nodes, used };
        tree.measure();
        tree
    }

    pub(super) fn nodes(&self) -> &[Node] {
        &self.nodes
    }

    /// The area of all pieces.
    pub(super) const fn used(&self) -> u64 {
        self.used
    }

    /// The area that is free.
    pub(super) const fn free(&self) -> u64 {
        self.sheet.area() - self.used
    }

    pub(super) const fn sheet(&self) -> Size {
        self.sheet
    }

    pub(super) fn is_empty(&self) -> bool {
        self.nodes.is_empty()
    }

    /// The least sheet that holds all.
    pub(super) fn size(&self) -> Size {
        self.nodes.first().map_or(Size::default(), |root| root.size)
    }

    /// The same on another sheet, which must hold it.
    pub(super) fn moved(&self, sheet: Size) -> Self {
        let mut moved = Self { sheet, nodes: self.nodes.clone(), used: self.used };
        moved.give_room();
        moved
    }

    /// The items on it.
    pub(super) fn items(&self) -> impl Iterator<Item = usize> {
        self.nodes.iter().filter_map(|node| node.item)
    }

    /// The nodes directly in a row.
    pub(super) fn within(&self, row: usize) -> impl Iterator<Item = usize> {
        let end = row + self.nodes[row].span;
        let follow = move |node: usize| (node < end).then_some(node);
        std::iter::successors(follow(row + 1), move |&node| follow(node + self.nodes[node].span))
    }

    /// Every place where a piece of this size fits as it lies, and how `judge` rates it: it is given the size before,
    /// the room, the way and the piece.
    pub(super) fn places(&self, size: Size, mut judge: impl FnMut(&Node, Place)) {
        let mut try_place = |node: usize, way: Way| {
            let own = &self.nodes[node];
            let (along, _) = way.sides(own.size);
            let (most, thick) = way.sides(own.room);
            let (length, across) = way.sides(size);
            if along + length <= most && across <= thick {
                judge(own, Place { node, way, size });
            }
        };
        for node in 0..self.nodes.len() {
            try_place(node, self.nodes[node].way);
        }
        if let Some(root) = self.nodes.first() {
            try_place(0, root.way.other());
        }
    }

    /// Puts the first piece on the sheet.
    pub(super) fn start(&mut self, item: usize, size: Size) {
        self.nodes.clear();
        self.nodes.push(Node { size, room: self.sheet, item: Some(item), span: 1, way: Way::Across });
        self.used = size.area();
    }

    /// Puts a piece in a place that [`Self::places`] named.
    pub(super) fn put(&mut self, item: usize, place: Place) {
        let Place { node, way, size } = place;
        let leaf = Node { size, room: size, item: Some(item), span: 1, way: way.other() };
        let own = self.nodes[node];
        let behind = node + own.span;
        let grown = if own.item.is_none() && own.way == way {
            self.nodes.insert(behind, leaf);
            self.nodes[node].span += 1;
            1
        } else {
            // A row takes the place of what was there.
            self.nodes.insert(behind, leaf);
            let row = Node { item: None, span: own.span + 2, way, ..own };
            if own.item.is_some() {
                self.nodes[node].way = way.other();
            }
            self.nodes.insert(node, row);
            2
        };
        self.stretch(node, |span| span + grown);
        self.used += size.area();
        self.measure();
    }

    /// Takes a piece, or a row with all that is in it, away and gives the items; a row that is left with one part
    /// becomes that part.
    pub(super) fn take(&mut self, node: usize) -> Vec<usize> {
        let span = self.nodes[node].span;
        let row = self.row_of(node);
        self.stretch(node, |whole| whole - span);
        let taken: Vec<Node> = self.nodes.drain(node..node + span).filter(|node| node.item.is_some()).collect();
        self.used -= taken.iter().map(|node| node.size.area()).sum::<u64>();
        if let Some(row) = row.filter(|row| self.within(*row).count() == 1) {
            let only = self.nodes[row + 1];
            let above = self.row_of(row);
            // A row that comes to lie in a row of its own way goes up in it.
            let gone = if above.is_some() && only.item.is_none() { 2 } else { 1 };
            self.stretch(row, |span| span - gone);
            if only.item.is_some() {
                self.nodes[row + 1].way = self.nodes[row].way;
            }
            self.nodes.drain(row..row + gone);
        }
        self.measure();
        taken.iter().filter_map(|node| node.item).collect()
    }

    /// The row that a node is directly in.
    fn row_of(&self, node: usize) -> Option<usize> {
        let mut row = None;
        let mut at = 0;
        while at < node {
            if node < at + self.nodes[at].span {
                row = Some(at);
                at += 1;
            } else {
                at += self.nodes[at].span;
            }
        }
        row
    }

    /// Changes how many nodes each row around a node holds.
    fn stretch(&mut self, node: usize, change: impl Fn(usize) -> usize) {
        let mut at = 0;
        while at < node {
            let span = self.nodes[at].span;
            if node < at + span {
                self.nodes[at].span = change(span);
                at += 1;
            } else {
                at += span;
            }
        }
    }

    /// Sizes from the inside out, then room from the outside in.
    fn measure(&mut self) {
        for row in (0..self.nodes.len()).rev().filter(|node| self.nodes[*node].item.is_none()).collect::<Vec<_>>() {
            let way = self.nodes[row].way;
            let sides = self.within(row).map(|node| way.sides(self.nodes[node].size));
            let (along, thick) = sides.fold((0, 0), |sum, own| (sum.0 + own.0, sum.1.max(own.1)));
            self.nodes[row].size = way.size(along, thick);
        }
        self.give_room();
    }

    fn give_room(&mut self) {
        if let Some(root) = self.nodes.first_mut() {
            root.room = self.sheet;
        }
        for row in 0..self.nodes.len() {
            let Node { size, room, item: None, way, span } = self.nodes[row] else { continue };
            let (length, _) = way.sides(size);
            let (most, thick) = way.sides(room);
            let mut node = row + 1;
            while node < row + span {
                let (own, _) = way.sides(self.nodes[node].size);
                self.nodes[node].room = way.size(own + most - length, thick);
                node += self.nodes[node].span;
            }
        }
    }
}
