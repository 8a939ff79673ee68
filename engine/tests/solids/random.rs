//! A thousand walls from a seed.

use std::collections::BTreeMap;

use engine::curve::{Along, Cut, Depth, Shape, Side};
use engine::solid::{Band, Fault};

use super::support::{Draw, band_volume, library, random_cut, random_line};

const CHORD: f64 = 1e-3;

/// Whether places close together on the sides of one cut, and between them, have one within a millimetre of the other.
fn share_a_place(shape: &Shape<'_>, a: &Cut, b: &Cut) -> bool {
    let right = |cut: &Cut| -cut.station.axis.turn_90();
    let depths = |cut: &Cut| match cut.depth {
        Depth::Through { .. } => [-1.0, 1.0],
        Depth::Into { side: Side::Inner, bottom } => [-1.0, bottom + 1e-3],
        Depth::Into { side: Side::Outer, bottom } => [bottom - 1e-3, 1.0],
    };
    let steps = |count: u32| (0..=count).map(move |step| f64::from(step) / f64::from(count));
    let levels = [a.form.bottom().max(b.form.bottom()) - 2e-4, a.form.top().min(b.form.top()) + 2e-4];
    steps(12).any(|up| {
        let level = levels[0] + (levels[1] - levels[0]) * up;
        let [ours, theirs] = [a, b].map(|cut| cut.jambs(level.clamp(cut.form.bottom(), cut.form.top())));
        let [low, high] = depths(a);
        steps(600).any(|deep| {
            let y = low + (high - low) * deep;
            let [from, to] = ours.map(|jamb| jamb.at(y));
            steps(4).any(|across| {
                let point = a.station.point + a.station.axis * (from + (to - from) * across) + right(a) * y;
                let on = shape.line.nearest(point);
                let aside = (point - on.point).dot(-on.axis.turn_90());
                let along = shape.line.along_line(on);
                let is_wall = shape.offset(Side::Inner, along, level) - 1e-3 < aside
                    && aside < shape.offset(Side::Outer, along, level) + 1e-3;
                let local = point - b.station.point;
                let [x, y] = [local.dot(b.station.axis), local.dot(right(b))];
                let [low, high] = depths(b);
                let is_other = (low..=high).contains(&y) && theirs[0].at(y) - 1e-3 < x && x < theirs[1].at(y) + 1e-3;
                is_wall && is_other
            })
        })
    })
}

#[test]
fn a_thousand_walls_are_closed_and_exact_or_refused_in_words() {
    let (mut walls, mut overlapping, mut library_checked) = (0, 0, 0);
    let mut refused: BTreeMap<String, usize> = BTreeMap::new();
    let mut worst = 0.0_f64;
    for seed in 0..1000 {
        let mut draw = Draw::of(seed);
        let line = random_line(&mut draw);
        let length = line.length();
        let thick = draw.between(0.25, 0.7);
        let thickness = match draw.below(3) {
            0 => Along::even(thick),
            _ => {
                let knots: Vec<[f64; 2]> = (0..3)
                    .map(|knot| [(f64::from(knot) + draw.between(0.1, 0.9)) * length / 3.0, draw.between(0.25, 0.7)])
                    .collect();
                Along::between(&knots, Some(length))
            }
        };
        let mut beds = vec![0.0];
        for _ in 0..=draw.below(6) {
            beds.push(beds[beds.len() - 1] + draw.between(0.2, 0.5));
        }
        // As steep as 1 : 10 where that leaves 100 mm at the top.
        let steepest = (0.5 * (thickness.range()[0] - 0.1) / beds[beds.len() - 1]).min(0.1);
        let lean = [draw.between(-0.05, 0.1), draw.between(-0.05, 0.1)].map(|lean| lean.clamp(0.0, steepest));
        let shape = Shape { line: &line, thickness: &thickness, lean };
        let cuts: Vec<Cut> = (0..draw.below(6)).map(|_| random_cut(&mut draw, &shape, &beds)).collect();
        walls += 1;
        let mut fault = None;
        for pair in beds.windows(2) {
            let [foot, top] = [pair[0], pair[1]].map(Along::even);
            let band = Band {
                shape,
                foot: &foot,
                top: &top,
                stretch: None,
                cuts: &cuts,
                boxes: &[],
                knots: &[],
                chord: CHORD,
            };
            match band.mesh() {
                Ok(mesh) => {
                    assert_eq!(mesh.open_edges(), 0, "seed {seed}, {pair:?}: {cuts:?}");
                    let whole = band_volume(&shape, &foot, &top, [0.0, length]);
                    let taken: f64 = cuts.iter().map(|cut| cut.volume(&shape, pair[0], pair[1])).sum();
                    let error = (mesh.volume() - (whole - taken)).abs() / (whole - taken);
                    worst = worst.max(error);
                    assert!(error < 1e-3, "seed {seed}, {pair:?}: error {error}, {cuts:?}");
                    if seed % 10 == 0 {
                        let (is_body, volume, crosses) = library(&mesh);
                        assert!(is_body, "seed {seed}, {pair:?}");
                        assert!((volume - mesh.volume()).abs() < 1e-9 * volume, "seed {seed}: {volume}");
                        assert!(!crosses, "seed {seed}, {pair:?} crosses itself: {cuts:?}");
                        library_checked += 1;
                    }
                }
                Err(found) => fault = fault.or(Some(found)),
            }
        }
        match fault {
            Some(Fault::CutsMeet(a, b)) => {
                let (a, b) = (&cuts[a], &cuts[b]);
                let share = share_a_place(&shape, a, b) || share_a_place(&shape, b, a);
                assert!(share, "seed {seed}: {a:?} and {b:?}");
                overlapping += 1;
            }
            Some(found) => *refused.entry(format!("{found:?}")).or_default() += 1,
            None => {}
        }
    }
    let count: usize = refused.values().sum();
    println!("{walls} walls, {overlapping} with cuts that overlap, {count} of the others refused: {refused:?}");
    println!("worst error {worst:.2e}; {library_checked} lifts held against the library");
    assert!(count as f64 <= 0.05 * f64::from(walls - overlapping), "{refused:?}");
}
