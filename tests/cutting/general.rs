//! Small plans against a general solver for whole numbers, fed with a textbook model.

use benchrule::cut::{Instance, Limits, Stock, solve};
use microlp::{ComparisonOp, OptimizationDirection, Problem};

use crate::instances::part;
use crate::long::sample;
use crate::random::Dice;

/// The least cost of whole sticks: a stick is used or not, a part lies in one. Source: Kantorovich, Mathematical methods
/// of organizing and planning production, Management Science 6 (1960).
fn least(instance: &Instance, sticks: usize) -> f64 {
    let mut problem = Problem::new(OptimizationDirection::Minimize);
    let each = |number: u32| usize::try_from(number).unwrap();
    let kerf = instance.parts[0].kerf;
    let parts: Vec<u32> =
        instance.parts.iter().flat_map(|part| std::iter::repeat_n(part.length, each(part.quantity))).collect();
    let mut inside = vec![Vec::new(); parts.len()];
    for stock in &instance.stock {
        for _ in 0..stock.count.map_or(sticks, each) {
            let used = problem.add_binary_var(f64::from(stock.cost));
            // Every part brings a kerf, and one kerf is saved.
            let mut held = vec![(used, -f64::from(stock.usable + kerf))];
            for (part, length) in inside.iter_mut().zip(&parts) {
                let lies = problem.add_binary_var(0.0);
                held.push((lies, f64::from(length + kerf)));
                part.push((lies, 1.0));
            }
            problem.add_constraint(held, ComparisonOp::Le, 0.0);
        }
    }
    for part in inside {
        problem.add_constraint(part, ComparisonOp::Eq, 1.0);
    }
    problem.solve().unwrap().solution().unwrap().objective()
}

#[test]
fn a_general_solver_finds_the_same_cost() {
    for seed in 0..sample("plans of sticks against a general solver", 20) {
        let mut dice = Dice::new(1000 + seed);
        let kerf = dice.roll(0, 3);
        let parts = (0..dice.roll(2, 5)).map(|_| part(dice.roll(8, 30), kerf, dice.roll(1, 3))).collect();
        let stick = |usable: u32, cost: u32| Stock { usable, count: None, cost, offcut: false };
        let stock = vec![stick(dice.roll(30, 45), dice.roll(20, 30)), stick(dice.roll(45, 60), dice.roll(28, 44))];
        let instance = Instance { parts, stock, keep: 0 };
        let plan = solve(&instance, &Limits::steps(1_000_000_000));
        assert!(plan.is_proven(), "{seed}");
        let cost = f64::from(u32::try_from(plan.cost).unwrap());
        let least = least(&instance, plan.sticks.len().max(3));
        assert!((cost - least).abs() < 1e-3, "{seed}: {cost} {least} {instance:?}");
    }
}
