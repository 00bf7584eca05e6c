//! Instances whose optimum is known. They were made for this project, their optima proven by another program.

use benchrule::cut::{Instance, Limits, certified, solve, verify};

use crate::certificates::STEPS;
use crate::instances::sticks;

const OPTIMA: &str = include_str!("optima.tsv");

fn instances() -> Vec<(&'static str, Instance, u64)> {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cutting");
    let rows = OPTIMA.lines().filter(|line| !line.starts_with('#'));
    let instances: Vec<_> = rows
        .map(|row| {
            let (name, optimum) = row.split_once('\t').unwrap();
            (name, sticks(&std::fs::read_to_string(folder.join(name)).unwrap()), optimum.parse().unwrap())
        })
        .collect();
    assert_eq!(instances.len(), 35);
    instances
}

#[test]
fn every_instance_reaches_its_optimum() {
    for (name, instance, optimum) in instances() {
        let plan = solve(&instance, &Limits::steps(2_000_000_000));
        assert_eq!(verify(&instance, &plan), Ok(()), "{name}");
        assert_eq!((plan.cost, plan.bound), (optimum, optimum), "{name}");
        assert_eq!(certified(&instance, &plan, STEPS), optimum, "{name}");
        assert!(plan.is_proven() && plan.left.iter().all(|left| *left == 0), "{name}");
    }
}

#[test]
fn a_search_cut_short_claims_no_more_than_it_knows() {
    for (name, instance, optimum) in instances() {
        for steps in [0, 1000, 100_000, 3_000_000] {
            let plan = solve(&instance, &Limits::steps(steps));
            assert_eq!(verify(&instance, &plan), Ok(()), "{name} {steps}");
            assert!(plan.bound <= optimum && optimum <= plan.cost, "{name} {steps}: {} {}", plan.bound, plan.cost);
            assert!(certified(&instance, &plan, STEPS) <= plan.bound, "{name} {steps}");
        }
    }
}

#[test]
fn a_search_that_is_stopped_gives_what_it_has() {
    let (_, instance, _) = instances().swap_remove(0);
    let plan = solve(&instance, &Limits { steps: u64::MAX, stop: &|| true });
    assert_eq!(verify(&instance, &plan), Ok(()));
}

#[test]
fn the_same_steps_give_the_same_plan() {
    for (name, instance, _) in instances().into_iter().step_by(7) {
        let plan = || solve(&instance, &Limits::steps(50_000_000));
        assert_eq!(plan(), plan(), "{name}");
    }
}
