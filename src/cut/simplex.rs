//! The linear program of a relaxation: few rows, many columns that arrive one after another.
//!
//! Revised simplex with an explicit inverse. Rows of parts ask for at least their right-hand side, rows of sticks for
//! at most. Right-hand sides are moved by a hair, so that no vertex has two bases. Source: Dantzig and Thapa, Linear
//! Programming 2, 2003, chapter 3.

use super::limits::Meter;
use super::number::real;

/// What counts as nothing in a price and in an amount.
const NOTHING: f64 = 1e-9;
/// By how much right-hand sides are moved.
const HAIR: f64 = 1e-8;
/// What counts as nothing in a pivot.
const FLAT: f64 = 1e-7;
/// The inverse is made anew after so many pivots, and when the amounts miss their rows by this much.
const FRESH: usize = 400;
const DRIFT: f64 = 1e-7;

#[derive(Clone, Debug)]
struct Column {
    cost: f64,
    entries: Vec<(usize, f64)>,
    /// May come into the basis.
    open: bool,
    /// Stands for what a row is short of, or for what is too much.
    missing: bool,
    inside: bool,
}

/// A linear program at its latest basis.
#[derive(Clone, Debug)]
pub(super) struct Simplex {
    rows: usize,
    /// What is asked, and the same moved by a hair.
    plain: Vec<f64>,
    right: Vec<f64>,
    columns: Vec<Column>,
    /// The column of each row.
    basis: Vec<usize>,
    /// Row by row.
    inverse: Vec<f64>,
    amounts: Vec<f64>,
    prices: Vec<f64>,
    pivots: usize,
}

impl Simplex {
    /// Rows that ask for at least `least`, one unit short of it costing `short` each, then rows that allow at most
    /// `most`. The first `exact` rows ask for just that much.
    pub(super) fn new(least: &[f64], short: &[f64], most: &[f64], exact: usize) -> Self {
        let rows = least.len() + most.len();
        let mut columns = Vec::new();
        let column = |row: usize, sign: f64, cost: f64| Column {
            cost,
            entries: vec![(row, sign)],
            open: true,
            missing: false,
            inside: false,
        };
        // The first basis: what is short of each part, what is free of each stick.
        columns.extend((0..least.len()).map(|row| Column {
            open: false,
            missing: true,
            inside: true,
            ..column(row, 1.0, short[row])
        }));
        columns.extend((least.len()..rows).map(|row| Column { inside: true, ..column(row, 1.0, 0.0) }));
        // What is cut beyond need; where just so much is asked, that is missing too, at the same cost.
        columns.extend((0..least.len()).map(|row| match row < exact {
            true => Column { missing: true, ..column(row, -1.0, short[row]) },
            false => column(row, -1.0, 0.0),
        }));
        let plain: Vec<f64> = least.iter().chain(most).copied().collect();
        let hair = |row: usize| HAIR * (1.0 + real(row * 7919 % 10_007) / 10_007.0);
        let right: Vec<f64> = plain.iter().enumerate().map(|(row, plain)| plain + hair(row)).collect();
        let mut inverse = vec![0.0; rows * rows];
        (0..rows).for_each(|row| inverse[row * rows + row] = 1.0);
        let prices = short.iter().copied().chain(most.iter().map(|_| 0.0)).collect();
        Self {
            rows,
            amounts: right.clone(),
            plain,
            right,
            columns,
            basis: (0..rows).collect(),
            inverse,
            prices,
            pivots: 0,
        }
    }

    /// Adds a column and gives its number, for [`Self::amounts`].
    pub(super) fn push(&mut self, cost: f64, entries: Vec<(usize, f64)>) -> usize {
        self.columns.push(Column { cost, entries, open: true, missing: false, inside: false });
        self.columns.len() - 1
    }

    /// Pivots to the cheapest amounts of the columns there are. Whether it got there.
    pub(super) fn run(&mut self, meter: &Meter) -> bool {
        let mut fresh = false;
        for _ in 0..20 * self.rows + 1000 {
            let Some((column, price)) = self.entering() else {
                if fresh || self.drift() < DRIFT {
                    return true;
                }
                fresh = true;
                self.refresh();
                continue;
            };
            let turned = self.turned(column);
            let Some(row) = self.leaving(&turned) else { return false };
            self.pivot(row, column, price, &turned);
            fresh = false;
            meter.count(self.rows * self.rows / 2 + 4 * self.columns.len());
            if meter.is_over() {
                return false;
            }
        }
        false
    }

    /// By how much the amounts miss their rows.
    fn drift(&self) -> f64 {
        let mut left = self.right.clone();
        for (column, amount) in self.basis.iter().zip(&self.amounts) {
            self.columns[*column].entries.iter().for_each(|(row, entry)| left[*row] -= entry * amount);
        }
        left.iter().map(|left| left.abs()).fold(0.0, f64::max)
    }

    /// The column that lowers the cost most by a unit, and by how much.
    fn entering(&self) -> Option<(usize, f64)> {
        let mut best = None;
        let mut least = -NOTHING;
        for (at, column) in self.columns.iter().enumerate().filter(|(_, column)| column.open && !column.inside) {
            let worth: f64 = column.entries.iter().map(|(row, entry)| self.prices[*row] * entry).sum();
            if column.cost - worth < least {
                least = column.cost - worth;
                best = Some((at, least));
            }
        }
        best
    }

    /// A column in terms of the basis.
    fn turned(&self, column: usize) -> Vec<f64> {
        let entries = &self.columns[column].entries;
        let row = |row: &[f64]| entries.iter().map(|(at, entry)| row[*at] * entry).sum();
        self.inverse.chunks_exact(self.rows).map(row).collect()
    }

    /// The row whose amount is used up first; of equals the one with the greatest pivot.
    fn leaving(&self, turned: &[f64]) -> Option<usize> {
        let mut best: Option<(usize, f64)> = None;
        for (row, (amount, pivot)) in
            self.amounts.iter().zip(turned).enumerate().filter(|(_, (_, pivot))| **pivot > FLAT)
        {
            let ratio = amount.max(0.0) / pivot;
            let better = best
                .is_none_or(|(old, least)| ratio < least - NOTHING || ratio < least + NOTHING && *pivot > turned[old]);
            if better {
                best = Some((row, ratio));
            }
        }
        best.map(|(row, _)| row)
    }

    fn pivot(&mut self, row: usize, column: usize, price: f64, turned: &[f64]) {
        let rows = self.rows;
        let scale = 1.0 / turned[row];
        self.amounts[row] *= scale;
        let step = self.amounts[row];
        let mut pivot: Vec<f64> = self.inverse[row * rows..(row + 1) * rows].to_vec();
        pivot.iter_mut().for_each(|entry| *entry *= scale);
        for (at, line) in self.inverse.chunks_exact_mut(rows).enumerate() {
            let factor = turned[at];
            if at == row {
                line.copy_from_slice(&pivot);
            } else if factor != 0.0 {
                line.iter_mut().zip(&pivot).for_each(|(entry, pivot)| *entry -= factor * pivot);
                self.amounts[at] -= factor * step;
            }
        }
        self.prices.iter_mut().zip(&pivot).for_each(|(own, pivot)| *own += price * pivot);
        self.columns[self.basis[row]].inside = false;
        self.columns[column].inside = true;
        self.basis[row] = column;
        self.pivots += 1;
        if self.pivots.is_multiple_of(FRESH) {
            self.refresh();
        }
    }

    /// Makes the inverse anew from the columns of the basis, by elimination with the greatest pivot.
    fn refresh(&mut self) {
        let rows = self.rows;
        let width = 2 * rows;
        let mut whole = vec![0.0; rows * width];
        for (at, column) in self.basis.iter().enumerate() {
            self.columns[*column].entries.iter().for_each(|(row, entry)| whole[row * width + at] = *entry);
        }
        (0..rows).for_each(|row| whole[row * width + rows + row] = 1.0);
        for at in 0..rows {
            let size = |row: &usize| whole[row * width + at].abs();
            let Some(best) = (at..rows).max_by(|left, right| size(left).total_cmp(&size(right))) else { return };
            if size(&best) < FLAT {
                // The basis as it is updated is the better one.
                return;
            }
            if best != at {
                let (upper, lower) = whole.split_at_mut(best * width);
                upper[at * width..(at + 1) * width].swap_with_slice(&mut lower[..width]);
            }
            let scale = 1.0 / whole[at * width + at];
            let line: Vec<f64> = whole[at * width..(at + 1) * width].iter().map(|entry| entry * scale).collect();
            for (row, other) in whole.chunks_exact_mut(width).enumerate() {
                let factor = other[at];
                if row == at {
                    other.copy_from_slice(&line);
                } else if factor != 0.0 {
                    other[at..].iter_mut().zip(&line[at..]).for_each(|(entry, pivot)| *entry -= factor * pivot);
                }
            }
        }
        for row in 0..rows {
            self.inverse[row * rows..(row + 1) * rows].copy_from_slice(&whole[row * width + rows..(row + 1) * width]);
        }
        let product = |row: &[f64]| row.iter().zip(&self.right).map(|(entry, right)| entry * right).sum();
        self.amounts = self.inverse.chunks_exact(rows).map(product).collect();
        self.prices = vec![0.0; rows];
        for (row, column) in self.basis.iter().enumerate() {
            let cost = self.columns[*column].cost;
            let line = &self.inverse[row * rows..(row + 1) * rows];
            self.prices.iter_mut().zip(line).for_each(|(price, entry)| *price += cost * entry);
        }
    }

    /// What a unit more of each row's right-hand side costs.
    pub(super) fn prices(&self) -> &[f64] {
        &self.prices
    }

    /// The columns in the basis and their amounts, for what is asked itself.
    pub(super) fn amounts(&self) -> impl Iterator<Item = (usize, f64)> {
        let amount = |row: &[f64]| row.iter().zip(&self.plain).map(|(entry, plain)| entry * plain).sum();
        self.basis.iter().copied().zip(self.inverse.chunks_exact(self.rows).map(amount))
    }

    /// The columns in the basis and their amounts, for what is asked moved by a hair: none is below nothing.
    pub(super) fn moved(&self) -> impl Iterator<Item = (usize, f64)> {
        self.basis.iter().copied().zip(self.amounts.iter().copied())
    }

    /// The cost of the amounts.
    pub(super) fn cost(&self) -> f64 {
        self.amounts().map(|(column, amount)| self.columns[column].cost * amount).sum()
    }

    /// How much rows are short of what they ask, or over what they allow.
    pub(super) fn short(&self) -> f64 {
        self.moved().filter(|(column, _)| self.columns[*column].missing).map(|(_, amount)| amount.max(0.0)).sum()
    }

    /// Adds a row that the amounts so far break: these columns together at least, or at most, `right`. What it is
    /// short of or over costs 1 a unit.
    pub(super) fn add_row(&mut self, columns: impl Iterator<Item = usize>, least: bool, right: f64) {
        let row = self.rows;
        columns.for_each(|column| self.columns[column].entries.push((row, 1.0)));
        let sign = if least { 1.0 } else { -1.0 };
        let slack = Column { cost: 0.0, entries: vec![(row, -sign)], open: true, missing: false, inside: false };
        self.columns.push(slack.clone());
        let missing = Column { cost: 1.0, entries: vec![(row, sign)], open: false, missing: true, inside: true };
        self.columns.push(missing);
        // The new row in terms of the basis, which has its own column in the new row alone.
        let mut last = vec![0.0; row + 1];
        let mut held = 0.0;
        for (at, column) in self.basis.iter().enumerate() {
            if self.columns[*column].entries.last().is_some_and(|entry| entry.0 == row) {
                held += self.amounts[at];
                let line = &self.inverse[at * row..(at + 1) * row];
                last.iter_mut().zip(line).for_each(|(entry, own)| *entry -= sign * own);
            }
        }
        last[row] = sign;
        let mut inverse = Vec::with_capacity((row + 1) * (row + 1));
        for line in self.inverse.chunks_exact(row) {
            inverse.extend_from_slice(line);
            inverse.push(0.0);
        }
        inverse.extend_from_slice(&last);
        self.inverse = inverse;
        self.prices.push(0.0);
        self.prices.iter_mut().zip(&last).for_each(|(price, entry)| *price += entry);
        self.amounts.push((right - held) * sign);
        self.plain.push(right);
        self.right.push(right);
        self.basis.push(self.columns.len() - 1);
        self.rows += 1;
    }
}
