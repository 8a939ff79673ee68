//! Profiles led along a line.

use std::f64::consts::TAU;

use engine::curve::PlanLine;
use engine::solid::{Fault, Mesh, Sweep};

use super::support::{library, rectangle, ring};

fn bench(_: f64) -> Vec<[f64; 2]> {
    vec![[-0.7, 0.0], [-0.25, 0.0], [-0.25, 0.45], [-0.65, 0.45]]
}

/// Grows from a thin edge at 1 m to its whole depth at 3 m.
fn fading(along: f64) -> Vec<[f64; 2]> {
    let depth = 0.4 * ((along - 1.0) / 2.0).min(1.0) + 0.02;
    vec![[0.3, 0.0], [0.3 + depth, 0.0], [0.3, 0.5]]
}

fn sweep<'a>(line: &'a PlanLine, profile: &'a dyn Fn(f64) -> Vec<[f64; 2]>, knots: &'a [f64]) -> Sweep<'a> {
    Sweep { line, stretch: None, profile, knots }
}

fn sound(mesh: &Mesh, exact: f64) {
    assert_eq!(mesh.open_edges(), 0);
    let (is_body, volume, crosses) = library(mesh);
    assert!(is_body && !crosses);
    assert!((volume - mesh.volume()).abs() < 1e-9 * volume);
    assert!((mesh.volume() - exact).abs() < 1e-3 * exact, "{} is not {exact}", mesh.volume());
}

#[test]
fn a_bench_round_a_ring_is_its_area_times_the_way_of_its_middle() {
    let line = ring(2.5);
    let whole = sweep(&line, &bench, &[]);
    // Pappus: the area of the trapezium, and how far its middle lies from the centre.
    let area = 0.5 * (0.45 + 0.4) * 0.45;
    let moment = 0.45 * 0.4 * -0.45 + 0.5 * 0.05 * 0.45 * (-0.65 - 0.05 / 3.0);
    let exact = TAU * (2.5 * area + moment);
    assert!((whole.volume() - exact).abs() < 1e-12, "{} is not {exact}", whole.volume());
    sound(&whole.mesh(1e-3).unwrap(), exact);
    let [coarse, fine] = [4e-5, 1e-5].map(|chord| whole.mesh(chord).unwrap().volume());
    let limit = fine + (fine - coarse) / 3.0;
    assert!((limit - exact).abs() < 1e-6 * exact, "{limit} is not {exact}");
}

#[test]
fn a_stretch_round_a_corner_is_closed_whichever_way_the_profile_goes() {
    let line = rectangle(5.0, 4.0, 0.9);
    let turned = |along: f64| -> Vec<[f64; 2]> { bench(along).into_iter().rev().collect() };
    let profiles: [&dyn Fn(f64) -> Vec<[f64; 2]>; 2] = [&bench, &turned];
    for profile in profiles {
        let part = Sweep { stretch: Some([-1.5, 3.0]), ..sweep(&line, profile, &[]) };
        sound(&part.mesh(5e-4).unwrap(), part.volume());
    }
    let fades = Sweep { stretch: Some([1.0, 6.0]), ..sweep(&line, &fading, &[3.0]) };
    sound(&fades.mesh(5e-4).unwrap(), fades.volume());
}

#[test]
fn a_profile_that_folds_or_changes_its_points_is_refused() {
    let line = ring(0.6);
    assert!(matches!(sweep(&line, &bench, &[]).mesh(1e-3), Err(Fault::Folds(_))));
    let uneven = |along: f64| if along > 1.0 { bench(along) } else { fading(along) };
    assert_eq!(sweep(&ring(2.0), &uneven, &[]).mesh(1e-3), Err(Fault::ProfilePoints));
    let bow = |_: f64| vec![[0.0, 0.0], [0.2, 0.2], [0.2, 0.0], [0.0, 0.3]];
    let crossed = Sweep { stretch: Some([0.0, 1.0]), ..sweep(&line, &bow, &[]) };
    assert_eq!(crossed.mesh(1e-3), Err(Fault::Tangled));
}
