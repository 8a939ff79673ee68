//! Rows of the bond beam: what is written of it, its length all round and over each run and corner.

mod pieces;

use super::super::line::{bind, bind_run, path};
use super::super::need::Need;
use super::super::uneven::sizes;
use crate::house::built_in::{Lie, Stretch};
use crate::house::{BondBeam, House};
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::{Angle, Length};
use crate::wall;

const OFFSET: &str = "wall.bond-beam.offset";

pub(super) fn bond_beam(house: &House, rows: &mut Rows) -> Vec<Need> {
    let Some(beam) = &house.bond_beam else { return Vec::new() };
    let width = rows.known("width of the bond beam", &beam.width);
    let height = rows.known("height of the bond beam", &beam.height);
    rows.known("layers of the bond beam", &beam.layers);
    rows.known("longest timber of the bond beam as it comes", &beam.piece);
    rows.known("length of a scarf of the bond beam", &beam.scarf);
    rows.known("how far a straight piece of the bond beam may leave the curve", &beam.fit);
    rows.known("bolts through each scarf of the bond beam", &beam.bolts);
    rows.known("from one pair of level shims to the next", &beam.shim_spacing);
    offset(house, rows);
    let length = rows.value("wall.top-length").unwrap_or(Length::ZERO);
    let lengths: Vec<Length> = beam.stretches.iter().map(|one| stretch(house, beam, one, rows)).collect();
    let on_slope = pieces::walk(house, beam, &lengths, rows);
    let (as_it_lies, its_path) = on_slope.map_or((length, "wall.top-length"), |own| (own, pieces::ON_SLOPE));
    let volume = wall::bond_beam_volume(length, width, height)
        .from("length", "wall.top-length")
        .from("width", beam.width.path.as_str())
        .from("height", beam.height.path.as_str());
    rows.add("wall.bond-beam.volume", "timber of the bond beam as it lies, joints left out", volume);
    let shims = wall::beam_shims(as_it_lies, beam.shim_spacing.value)
        .from("length", its_path)
        .from("spacing", beam.shim_spacing.path.as_str());
    rows.add("wall.bond-beam.shims", "pairs of level shims under the bond beam", shims);
    vec![
        Need::of(&beam.of, ["timber", "pieces"].map(|noun| format!("wall.bond-beam.{noun}"))),
        Need::of(BondBeam::BOLT, ["wall.bond-beam.bolts-in-all".to_owned()]),
        Need::of(BondBeam::SHIM, ["wall.bond-beam.shims".to_owned()]),
    ]
}

/// Where it lies.
fn offset(house: &House, rows: &mut Rows) {
    let (inside, outside) = (&house.wall.batter_inside, &house.wall.batter_outside);
    let (height, height_path) = sizes(house, rows)[1];
    let offset = wall::plate_offset(inside.value, outside.value, height)
        .from("batter inside", inside.path.as_str())
        .from("batter outside", outside.path.as_str())
        .from("height", height_path);
    rows.add(OFFSET, "middle of the bond beam, outside the wall's line at the foot", offset);
}

/// Length, and of a bend turn and radius, of one stretch.
fn stretch(house: &House, beam: &BondBeam, stretch: &Stretch, rows: &mut Rows) -> Length {
    let name = match stretch.way {
        Lie::Corner(_) => format!("at the corner {}", house.wall.points[stretch.run].name.replace('-', " ")),
        _ => format!("over the run {}", stretch.words()),
    };
    let length = match bends(house, stretch, &name, rows) {
        None => trimmed(house, stretch, wall::beam_straight, rows),
        Some((Some(turn), radius)) => {
            wall::beam_arc(turn, radius).from("turn", stretch.path("turn")).from("radius", stretch.path("radius"))
        }
        Some((None, _)) => {
            let turning = if let Lie::Curve { turning, .. } = stretch.way { turning } else { 0.0 };
            let offset = beam.offset;
            let length = trimmed(house, stretch, |run, trims| wall::beam_curve(run, offset, trims, turning), rows);
            bind_run(length.from("offset", OFFSET), house, stretch.run, rows)
        }
    };
    rows.add(stretch.path("length"), format!("length of the bond beam {name}"), length)
}

/// How far a stretch of the beam turns, where that is one figure, and its radius; none where it is straight.
fn bends(house: &House, stretch: &Stretch, name: &str, rows: &mut Rows) -> Option<(Option<Angle>, Length)> {
    let (line, points) = (&house.wall.line, &house.wall.points);
    let [from, to] = stretch.along;
    let piece = line.at(0.5 * (from + to)).piece;
    let radius = Length::m(1.0 / line.pieces()[piece].curvature().abs());
    let (turn, radius, noun, sign) = match stretch.way {
        Lie::Straight => return None,
        Lie::Arc(sign) => {
            let turn = trimmed(house, stretch, |run, trims| wall::beam_turn(run, radius, trims), rows);
            (Some(turn.from("radius", path(&points[stretch.run], "radius"))), radius, "radius", sign)
        }
        Lie::Corner(sign) => {
            let count = points.len();
            let turn = wall::beam_corner(line.pieces()[piece].turning().abs());
            let runs = [(stretch.run + count - 1) % count, stretch.run];
            let turn = runs.iter().fold(turn, |turn, run| bind_run(turn, house, *run, rows));
            // Between straight runs a corner turns by their angle; where one bends, the rounding says how much of it is left.
            let is_straight = |run: &usize| points[*run].through.is_none() && points[*run].curve.is_none();
            let turn = if runs.iter().all(is_straight) {
                turn
            } else {
                bind(turn, rows, &path(&points[stretch.run], "round"))
            };
            (Some(turn), points[stretch.run].round.value, "round", sign)
        }
        Lie::Curve { least_radius, turning } => (None, Length::m(least_radius), "least-radius", turning.signum()),
    };
    let turn =
        turn.map(|turn| rows.add(stretch.path("turn"), format!("angle by which the bond beam turns {name}"), turn));
    let beam_radius = wall::beam_radius(radius, house.bond_beam.as_ref()?.offset, sign)
        .from("radius", path(&points[stretch.run], noun))
        .from("offset", OFFSET);
    let beam_radius = rows.add(stretch.path("radius"), format!("radius of the bond beam {name}"), beam_radius);
    Some((turn, beam_radius))
}

/// Asks a formula with a run and what corners take off it, and binds both.
fn trimmed<T>(
    house: &House,
    stretch: &Stretch,
    formula: impl Fn(Length, Length) -> Answer<T>,
    rows: &Rows,
) -> Answer<T> {
    let (points, run) = (&house.wall.points, &house.wall.line.runs()[stretch.run]);
    let whole = run.whole.length();
    let answer = formula(Length::m(whole), Length::m(whole - (run.to - run.from)));
    let answer = answer.from("run", path(&points[stretch.run], "run"));
    let answer = bind(answer, rows, &path(&points[stretch.run], "trim-after"));
    bind(answer, rows, &path(&points[(stretch.run + 1) % points.len()], "trim-before"))
}
