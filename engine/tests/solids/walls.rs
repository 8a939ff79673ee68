//! Walls whose volume is known in closed form, and the awkward places.

use std::f64::consts::PI;

use engine::curve::{Along, Cut, Depth, Form, PlanLine, Shape, Side};
use engine::solid::{Band, Cuboid, Fault, Mesh};
use kurbo::Vec2;

use super::support::{band_volume, form, library, rectangle, ring};

const LEVEL: fn(f64) -> Along = Along::even;

fn shape<'a>(line: &'a PlanLine, thickness: &'a Along, lean: [f64; 2]) -> Shape<'a> {
    Shape { line, thickness, lean }
}

fn band<'a>(shape: Shape<'a>, foot: &'a Along, top: &'a Along, cuts: &'a [Cut], chord: f64) -> Band<'a> {
    Band { shape, foot, top, stretch: None, cuts, boxes: &[], knots: &[], chord }
}

/// Closed, as large as it should be, and sound in the eyes of the library.
fn sound(mesh: &Mesh, exact: f64, tolerance: f64) {
    assert_eq!(mesh.open_edges(), 0);
    let error = (mesh.volume() - exact).abs() / exact;
    assert!(error < tolerance, "{} is not {exact}: {error}", mesh.volume());
    let (is_body, volume, crosses) = library(mesh);
    assert!(is_body && !crosses, "the library takes it: {is_body}, crosses itself: {crosses}");
    assert!((volume - mesh.volume()).abs() < 1e-9 * volume);
}

#[test]
fn openings_in_a_straight_run_take_what_the_closed_forms_say() {
    let line = rectangle(6.0, 4.0, 0.8);
    let thickness = LEVEL(0.4);
    let shape = shape(&line, &thickness, [0.0; 2]);
    let station = line.station(0, 3.0).unwrap();
    let [foot, top] = [0.0, 2.2].map(LEVEL);
    let whole = |chord: f64| band(shape, &foot, &top, &[], chord).mesh().unwrap().volume();
    let arched = form(2, 0.4, 0.0, 1.9);
    // A splayed rectangle is a trapezium in plan; a splayed arch widens in its horizontal half axis alone.
    let splayed = Depth::Through { crease: 0.0, splay: [0.3, 0.5] };
    let mean = 1.0 + 0.5 * (0.5 * 0.2 * (0.3 + 0.5)) / (2.0 * 0.4);
    let niche = Depth::Into { side: Side::Inner, bottom: -0.05 };
    let cuts = [
        (Cut::straight(station, arched), 0.4 * (0.8 * 1.5 + 0.5 * PI * 0.16)),
        (Cut::straight(station, form(1, 0.3, 0.9, 1.5)), 0.4 * PI * 0.09),
        (Cut { station, form: form(0, 0.4, 0.8, 1.8), depth: splayed }, 0.4 * 0.8 * mean),
        (Cut { station, form: arched, depth: splayed }, 0.4 * (0.8 * 1.5 + 0.5 * PI * 0.16) * mean),
        (Cut { station, form: form(2, 0.3, 1.0, 1.6), depth: niche }, 0.15 * (0.6 * 0.3 + 0.5 * PI * 0.09)),
    ];
    for (cut, exact) in cuts {
        let taken = |chord: f64| {
            let mesh = band(shape, &foot, &top, &[cut], chord).mesh().unwrap();
            assert_eq!(mesh.open_edges(), 0);
            whole(chord) - mesh.volume()
        };
        let [coarse, fine] = [1e-6, 2.5e-7].map(taken);
        let limit = fine + (fine - coarse) / 3.0;
        assert!((limit - exact).abs() < 1e-6 * exact, "{cut:?}: {limit} is not {exact}");
        assert!((cut.volume(&shape, 0.0, 2.2) - exact).abs() < 1e-9, "{cut:?}");
        sound(&band(shape, &foot, &top, &[cut], 1e-3).mesh().unwrap(), whole(1e-9) - exact, 1e-3);
    }
}

#[test]
fn the_error_of_a_ring_is_a_quarter_at_half_the_step_and_the_limit_is_the_integral() {
    let line = ring(2.0);
    let thickness = Along::between(&[[1.0, 0.5], [4.0, 0.4], [9.0, 0.55]], Some(line.length()));
    let shape = shape(&line, &thickness, [0.02, 0.05]);
    let [foot, top] = [0.3, 1.9].map(LEVEL);
    let splay = Depth::Through { crease: 0.05, splay: [0.3, 0.2] };
    let cuts = [
        Cut { station: line.at(2.5), form: form(0, 0.5, 0.8, 1.5), depth: splay },
        Cut::straight(line.at(6.0), form(2, 0.4, 0.0, 1.7)),
        Cut {
            station: line.at(10.0),
            form: form(1, 0.2, 0.9, 1.3),
            depth: Depth::Into { side: Side::Outer, bottom: 0.0 },
        },
    ];
    let whole = band_volume(&shape, &foot, &top, [0.0, line.length()]);
    let exact = whole - cuts.iter().map(|cut| cut.volume(&shape, 0.3, 1.9)).sum::<f64>();
    let volume = |chord: f64| band(shape, &foot, &top, &cuts, chord).mesh().unwrap().volume();
    let [coarse, fine] = [1.6e-5, 4e-6].map(volume);
    let ratio = (coarse - exact) / (fine - exact);
    assert!((3.8..4.2).contains(&ratio), "{ratio}");
    let limit = fine + (fine - coarse) / 3.0;
    assert!((limit - exact).abs() < 1e-6 * exact, "{limit} is not {exact}");
    sound(&band(shape, &foot, &top, &cuts, 1e-3).mesh().unwrap(), exact, 1e-3);
}

#[test]
fn lifts_touch_in_the_same_points_also_where_openings_cross_their_bed() {
    let line = rectangle(5.0, 4.0, 0.8);
    let thickness = Along::between(&[[1.0, 0.5], [9.0, 0.4]], Some(line.length()));
    let shape = shape(&line, &thickness, [0.0, 0.05]);
    let cuts = [
        Cut::straight(line.station(0, 0.4).unwrap(), form(2, 0.4, 0.1, 1.1)),
        Cut {
            station: line.at(7.0),
            form: form(1, 0.2, 0.4, 0.8),
            depth: Depth::Into { side: Side::Inner, bottom: 0.0 },
        },
        Cut::straight(line.at(10.0), form(0, 0.4, -0.1, 2.0)),
    ];
    let levels = [0.0, 0.6, 1.0].map(LEVEL);
    let meshes = [0, 1].map(|lift| band(shape, &levels[lift], &levels[lift + 1], &cuts, 1e-3).mesh().unwrap());
    let bed = |mesh: &Mesh| -> Vec<[u64; 2]> {
        let on = mesh.points.iter().filter(|point| point[2] == 0.6);
        let mut points: Vec<[u64; 2]> = on.map(|point| [point[0].to_bits(), point[1].to_bits()]).collect();
        points.sort_unstable();
        points
    };
    assert!(bed(&meshes[0]).len() > 50);
    assert_eq!(bed(&meshes[0]), bed(&meshes[1]));
}

#[test]
fn awkward_places_are_meshed() {
    let line = rectangle(5.0, 4.0, 0.8);
    let thickness = LEVEL(0.5);
    let shape = shape(&line, &thickness, [0.05, 0.05]);
    let joint = line.start(2);
    let straight = |along: f64, form: Form| Cut::straight(line.at(along), form);
    let into = |along: f64, form: Form, bottom: f64| Cut {
        station: line.at(along),
        form,
        depth: Depth::Into { side: Side::Outer, bottom },
    };
    let cases: Vec<(&str, Vec<Cut>)> = vec![
        ("as high as the lift", vec![straight(3.0, form(0, 0.4, 0.3, 0.8))]),
        ("a door and no more wall below", vec![straight(3.0, form(0, 0.4, -1.0, 2.0))]),
        ("sill all but on the bed", vec![straight(3.0, form(0, 0.4, 0.300_04, 0.6))]),
        ("sill a little above the bed", vec![straight(3.0, form(0, 0.4, 0.3002, 0.6))]),
        ("crown on the bed", vec![straight(3.0, form(2, 0.4, 0.0, 0.8))]),
        ("a round one touching the foot", vec![straight(3.0, form(1, 0.2, 0.3, 0.7))]),
        ("a round one through both beds", vec![straight(3.0, form(1, 0.5, 0.1, 1.1))]),
        ("a jamb at a joint", vec![straight(joint + 0.4, form(0, 0.4, 0.4, 0.9))]),
        ("over a rounded corner", vec![straight(joint - 0.3, form(2, 0.3, 0.4, 0.9))]),
        (
            "at the start of the line",
            vec![straight(0.0, form(0, 0.15, 0.4, 0.9)), straight(5.0, form(0, 0.2, 0.1, 0.5))],
        ),
        ("side by side", vec![straight(2.0, form(0, 0.3, 0.4, 0.7)), straight(2.602, form(0, 0.3, 0.4, 0.7))]),
        ("one above another", vec![straight(2.0, form(0, 0.3, 0.4, 0.5)), straight(2.0, form(0, 0.3, 0.502, 0.9))]),
        ("a niche cut by both beds", vec![into(2.5, form(0, 0.3, 0.0, 1.5), 0.05)]),
        (
            "niches back to back",
            vec![
                into(2.5, form(2, 0.3, 0.0, 0.6), 0.05),
                Cut {
                    depth: Depth::Into { side: Side::Inner, bottom: -0.05 },
                    ..into(2.5, form(2, 0.3, 0.0, 0.6), 0.0)
                },
            ],
        ),
        (
            "only a crease inside at one jamb",
            vec![Cut {
                depth: Depth::Through { crease: 0.235, splay: [0.0, 0.4] },
                ..straight(2.5, form(2, 0.3, 0.0, 0.7))
            }],
        ),
        ("doors all round", (0..8).map(|door| straight(line.start(door) + 0.01, form(0, 0.1, 0.0, 2.0))).collect()),
    ];
    let [foot, top] = [0.3, 0.8].map(LEVEL);
    for (name, cuts) in cases {
        let mesh = band(shape, &foot, &top, &cuts, 1e-3).mesh();
        assert!(mesh.is_ok(), "{name}: {mesh:?}");
        let exact = band_volume(&shape, &foot, &top, [0.0, line.length()])
            - cuts.iter().map(|cut| cut.volume(&shape, 0.3, 0.8)).sum::<f64>();
        sound(&mesh.unwrap(), exact, 1e-3);
    }
}

#[test]
fn what_cannot_be_is_refused_in_words() {
    let line = rectangle(5.0, 4.0, 0.8);
    let thickness = LEVEL(0.5);
    let shape = shape(&line, &thickness, [0.05, 0.05]);
    let [foot, top] = [0.3, 0.8].map(LEVEL);
    let slope = Along::between(&[[0.0, 0.8], [9.0, 0.5]], Some(line.length()));
    let straight = |along: f64, form: Form| Cut::straight(line.at(along), form);
    let fault = |top: &Along, cuts: &[Cut]| band(shape, &foot, top, cuts, 1e-3).mesh().unwrap_err();
    let pair = [straight(2.0, form(0, 0.3, 0.4, 0.7)), straight(2.5, form(0, 0.3, 0.4, 0.7))];
    assert_eq!(fault(&top, &pair), Fault::CutsMeet(0, 1));
    assert_eq!(fault(&top, &[straight(3.0, form(0, 2.6, 0.4, 0.7))]), Fault::NoMeeting(0));
    assert_eq!(fault(&slope, &[straight(9.0, form(0, 0.2, 0.4, 0.7))]), Fault::MeetsSlope(0));
    let deep = Cut { depth: Depth::Into { side: Side::Inner, bottom: 0.22 }, ..pair[0] };
    assert_eq!(fault(&top, &[deep]), Fault::NicheDepth(0));
    assert_eq!(fault(&LEVEL(0.3), &[]), Fault::Nowhere);
    let at_end = Band { stretch: Some([1.9, 4.0]), ..band(shape, &foot, &top, &pair[..1], 1e-3) };
    assert_eq!(at_end.mesh().unwrap_err(), Fault::PastEnd(0));
    let thick = LEVEL(1.7);
    let folded = Shape { thickness: &thick, ..shape };
    assert!(matches!(band(folded, &foot, &top, &[], 1e-3).mesh(), Err(Fault::Folds(_))));
    assert_eq!(Fault::CutsMeet(0, 1).in_words(), "cuts 1 and 2 overlap or touch");
}

#[test]
fn a_top_may_slope_and_fall_to_nothing() {
    let line = ring(2.0);
    let length = line.length();
    let thickness = LEVEL(0.4);
    let shape = shape(&line, &thickness, [0.03, 0.03]);
    let foot = LEVEL(0.5);
    let cut = [Cut::straight(line.at(2.0), form(2, 0.3, 0.6, 1.1))];
    for (top, taken) in [
        (Along::between(&[[0.3, 1.4], [5.0, 0.9]], Some(length)), true),
        (Along::between(&[[2.0, 1.4], [8.0, 0.1]], Some(length)), true),
        (Along::between(&[[2.0, 1.4], [8.0, 0.5]], Some(length)), true),
        (Along::between(&[[2.0, 0.2], [8.0, 1.5]], Some(length)), false),
    ] {
        let mesh = band(shape, &foot, &top, &cut, 1e-3).mesh().unwrap();
        let whole = {
            // Where the top crosses the foot the exact integral needs a knot of its own.
            let cross = (0..40_000).map(|step| f64::from(step) * length / 40_000.0);
            let pieces: Vec<f64> = cross.chain([length]).collect();
            pieces.windows(2).map(|pair| band_volume(&shape, &foot, &top, [pair[0], pair[1]])).sum::<f64>()
        };
        sound(&mesh, whole - if taken { cut[0].volume(&shape, 0.0, 9.0) } else { 0.0 }, 1e-3);
    }
}

#[test]
fn a_stretch_has_square_ends_and_may_lie_across_the_start() {
    let line = ring(2.0);
    let thickness = LEVEL(0.4);
    let shape = shape(&line, &thickness, [0.0; 2]);
    let [foot, top] = [0.0, 0.5].map(LEVEL);
    let cuts =
        [Cut::straight(line.at(0.1), form(0, 0.3, 0.2, 0.7)), Cut::straight(line.at(5.0), form(0, 0.3, 0.2, 0.7))];
    for (stretch, taken) in [([-1.0, 2.0], 0), ([11.0, 14.5], 0), ([4.0, 6.0], 1)] {
        let mesh = Band { stretch: Some(stretch), ..band(shape, &foot, &top, &cuts, 1e-3) }.mesh().unwrap();
        let exact = (stretch[1] - stretch[0]) * 0.4 * 0.5 - cuts[taken].volume(&shape, 0.0, 0.5);
        sound(&mesh, exact, 1e-3);
    }
}

#[test]
fn a_timber_laid_in_a_lift_leaves_its_hollow() {
    let line = ring(2.0);
    let thickness = LEVEL(0.5);
    let shape = shape(&line, &thickness, [0.02, 0.03]);
    let [foot, top] = [0.3, 0.8].map(LEVEL);
    let turned = |along: f64, levels: [f64; 2]| {
        let station = line.at(along);
        Cuboid { middle: station.point, axis: station.axis, half: [0.4, 0.05], levels }
    };
    let cuts = [Cut::straight(line.at(5.0), form(0, 0.3, 0.2, 0.7))];
    let whole = band_volume(&shape, &foot, &top, [0.0, line.length()]) - cuts[0].volume(&shape, 0.3, 0.8);
    let mesh = |boxes: &[Cuboid]| Band { boxes, ..band(shape, &foot, &top, &cuts, 1e-3) }.mesh();
    for levels in [[0.5, 0.6], [0.3, 0.4], [0.300_05, 0.4], [0.6, 0.8], [0.3, 0.8]] {
        let boxes = [turned(0.1, levels), turned(8.0, levels)];
        let volume: f64 = boxes.iter().map(Cuboid::volume).sum();
        sound(&mesh(&boxes).unwrap(), whole - volume, 1e-3);
    }
    assert_eq!(mesh(&[turned(5.2, [0.4, 0.5])]).unwrap_err(), Fault::BoxMeetsCut(0, 0));
    assert_eq!(mesh(&[turned(1.0, [0.2, 0.5])]).unwrap_err(), Fault::BoxLeaves(0));
    assert_eq!(mesh(&[turned(1.0, [0.4, 0.5]), turned(1.5, [0.45, 0.6])]).unwrap_err(), Fault::BoxesMeet(0, 1));
    let across = Cuboid { axis: Vec2::new(0.0, 1.0), middle: line.at(0.0).point, half: [0.1, 0.3], levels: [0.4, 0.5] };
    assert_eq!(mesh(&[across]).unwrap_err(), Fault::BoxLeaves(0));
}
