//! Rows of the bond beam: its length, and the pieces that it is cut into.

use super::super::line::{bind, bind_run, path, turned};
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
    let length = whole(house, rows);
    let volume = wall::bond_beam_volume(length, width, height)
        .from("length", "wall.bond-beam.length")
        .from("width", beam.width.path.as_str())
        .from("height", beam.height.path.as_str());
    rows.add("wall.bond-beam.volume", "timber of the bond beam as it lies, joints left out", volume);
    let cuts: Vec<Cut> = beam.stretches.iter().map(|stretch| one(house, beam, stretch, rows)).collect();
    sums(house, beam, &cuts, rows);
    let shims = wall::beam_shims(length, beam.shim_spacing.value)
        .from("length", "wall.bond-beam.length")
        .from("spacing", beam.shim_spacing.path.as_str());
    rows.add("wall.bond-beam.shims", "pairs of level shims under the bond beam", shims);
    vec![
        Need::of(&beam.of, ["timber", "pieces"].map(|noun| format!("wall.bond-beam.{noun}"))),
        Need::of(BondBeam::BOLT, ["wall.bond-beam.bolts-in-all".to_owned()]),
        Need::of(BondBeam::SHIM, ["wall.bond-beam.shims".to_owned()]),
    ]
}

/// Where it lies and how long it is all round.
fn whole(house: &House, rows: &mut Rows) -> Length {
    let on = &house.wall;
    let (inside, outside) = (&on.batter_inside, &on.batter_outside);
    let (height, height_path) = sizes(house, rows)[1];
    let offset = wall::plate_offset(inside.value, outside.value, height)
        .from("batter inside", inside.path.as_str())
        .from("batter outside", outside.path.as_str())
        .from("height", height_path);
    rows.add(OFFSET, "middle of the bond beam, outside the wall's line at the foot", offset);
    let length = Length::m(on.line.length());
    let length = wall::bond_beam_length(length, inside.value, outside.value, height, on.line.turning())
        .from("line length", "wall.length")
        .from("batter inside", inside.path.as_str())
        .from("batter outside", outside.path.as_str())
        .from("height", height_path);
    let length = turned(length, house, rows);
    rows.add("wall.bond-beam.length", "length of the bond beam along its middle, joints left out", length)
}

/// The pieces of one part of the beam.
struct Cut {
    pieces: u64,
    length: Length,
    plank: Option<Length>,
}

fn one(house: &House, beam: &BondBeam, stretch: &Stretch, rows: &mut Rows) -> Cut {
    let name = match stretch.way {
        Lie::Corner(_) => format!("at the corner {}", house.wall.points[stretch.run].name.replace('-', " ")),
        _ => format!("over the run {}", stretch.name.replace('-', " ")),
    };
    let (piece, scarf) = (beam.piece.value, beam.scarf.value);
    let bound = |answer: Answer<u64>| {
        answer
            .from("length", stretch.path("length"))
            .from("radius", stretch.path("radius"))
            .from("piece", beam.piece.path.as_str())
            .from("scarf", beam.scarf.path.as_str())
            .from("fit", beam.fit.path.as_str())
    };
    let Some((turn, radius)) = bends(house, stretch, &name, rows) else {
        let length = trimmed(house, stretch, wall::beam_straight, rows);
        let length = rows.add(stretch.path("length"), format!("length of the bond beam {name}"), length);
        let pieces = bound(wall::straight_pieces(length, piece, scarf));
        let pieces = rows.add(stretch.path("pieces"), format!("pieces of the bond beam {name}, each layer"), pieces);
        let cut = wall::straight_cut(length, pieces, scarf)
            .from("length", stretch.path("length"))
            .from("pieces", stretch.path("pieces"))
            .from("scarf", beam.scarf.path.as_str());
        let cut = rows.add(stretch.path("cut-length"), format!("a piece of the bond beam {name} is cut to"), cut);
        return Cut { pieces, length: cut, plank: None };
    };
    let length = match turn {
        Some(turn) => {
            wall::beam_arc(turn, radius).from("turn", stretch.path("turn")).from("radius", stretch.path("radius"))
        }
        None => {
            let turning = if let Lie::Curve { turning, .. } = stretch.way { turning } else { 0.0 };
            let offset = beam.offset;
            let length = trimmed(house, stretch, |run, trims| wall::beam_curve(run, offset, trims, turning), rows);
            bind_run(length.from("offset", OFFSET), house, stretch.run, rows)
        }
    };
    let length = rows.add(stretch.path("length"), format!("length of the bond beam {name}"), length);
    let pieces = bound(wall::curved_pieces(length, radius, piece, scarf, beam.fit.value));
    let pieces = rows.add(stretch.path("pieces"), format!("pieces of the bond beam {name}, each layer"), pieces);
    fn divided<T>(answer: Answer<T>, stretch: &Stretch) -> Answer<T> {
        ["length", "radius", "pieces"].iter().fold(answer, |answer, noun| answer.from(noun, stretch.path(noun)))
    }
    let cut = wall::curved_cut(length, radius, pieces, scarf).from("scarf", beam.scarf.path.as_str());
    let title = format!("a piece of the bond beam {name} is cut to");
    let cut = rows.add(stretch.path("cut-length"), title, divided(cut, stretch));
    let bevel = match turn {
        Some(turn) => {
            wall::bevel(turn, pieces).from("turn", stretch.path("turn")).from("pieces", stretch.path("pieces"))
        }
        None => divided(wall::bevel_at_most(length, radius, pieces), stretch),
    };
    rows.add(stretch.path("bevel"), format!("bevel at the ends of the pieces {name}, from square"), bevel);
    let sagitta = divided(wall::sagitta(length, radius, pieces), stretch);
    rows.add(stretch.path("sagitta"), format!("how far straight pieces leave the curve {name}"), sagitta);
    let plank = wall::plank_width(beam.width.value, length, radius, pieces).from("width", beam.width.path.as_str());
    let title = format!("plank for pieces sawn to the curve {name}");
    let plank = rows.add(stretch.path("plank"), title, divided(plank, stretch));
    Cut { pieces, length: cut, plank: Some(plank) }
}

/// How far a part of the beam turns, where that is one figure, and its radius; none where it is straight.
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

fn sums(house: &House, beam: &BondBeam, cuts: &[Cut], rows: &mut Rows) {
    let layers = beam.layers.value;
    let mut pieces = wall::all_pieces(layers, cuts.iter().map(|cut| cut.pieces).sum());
    let sum: f64 = cuts.iter().map(|cut| cut.pieces as f64 * cut.length.in_m()).sum();
    let mut cut_length = wall::all_cut(layers, Length::m(sum));
    let planks =
        cuts.iter().map(|cut| cut.pieces as f64 * cut.length.in_m() * cut.plank.unwrap_or(beam.width.value).in_m());
    let mut timber = wall::beam_timber(beam.height.value, planks.sum()).from("height", beam.height.path.as_str());
    for stretch in &beam.stretches {
        pieces = bind(pieces, rows, &stretch.path("pieces"));
        for noun in ["pieces", "cut-length"] {
            cut_length = bind(cut_length, rows, &stretch.path(noun));
            timber = bind(timber, rows, &stretch.path(noun));
        }
        timber = bind(timber, rows, &stretch.path("plank"));
    }
    if cuts.iter().any(|cut| cut.plank.is_none()) {
        timber = timber.with("width", beam.width.value, beam.width.path.as_str());
    }
    let layers_path = beam.layers.path.as_str();
    let pieces = pieces.from("layers", layers_path);
    let pieces = rows.add("wall.bond-beam.pieces", "pieces of the bond beam, all layers", pieces);
    let cut_length = cut_length.from("layers", layers_path);
    rows.add("wall.bond-beam.cut-length", "length of all pieces of the bond beam, scarfs with them", cut_length);
    let longest = beam.stretches.iter().zip(cuts).max_by(|a, b| a.1.length.in_m().total_cmp(&b.1.length.in_m()));
    if let Some((stretch, cut)) = longest {
        let longest = bind(wall::longest_cut(cut.length), rows, &stretch.path("cut-length"));
        rows.add("wall.bond-beam.longest", "longest piece of the bond beam", longest);
    }
    rows.add("wall.bond-beam.timber", "timber to cut the bond beam from, laps and curves with it", timber);
    let scarfs = wall::beam_scarfs(pieces, layers, house.wall.line.is_closed())
        .from("pieces", "wall.bond-beam.pieces")
        .from("layers", layers_path);
    let scarfs = rows.add("wall.bond-beam.scarfs", "scarfs of the bond beam", scarfs);
    let bolts = wall::beam_bolts(scarfs, beam.bolts.value)
        .from("scarfs", "wall.bond-beam.scarfs")
        .from("each", beam.bolts.path.as_str());
    rows.add("wall.bond-beam.bolts-in-all", "bolts through the scarfs of the bond beam", bolts);
}
