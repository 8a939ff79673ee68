//! Rows of the openings: what each takes out, and the cob that is left beside it.

use super::line::{bind, bind_piece, bind_pieces, path};
use super::uneven::{bind_local, bind_once, is_even, is_of_one_row};
use crate::build::OpeningKind;
use crate::curve::{Cut, Depth, Side};
use crate::house::{House, Opening};
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::Length;
use crate::wall;

/// A corner is where the runs turn by this much or more, in degrees: our judgement.
const CORNER_TURN: f64 = 30.0;

pub(super) fn walk(house: &House, rows: &mut Rows) {
    for opening in &house.openings {
        known(opening, rows);
    }
    for opening in &house.openings {
        holes(house, opening, rows);
        corner_distance(house, opening, rows);
    }
    piers(house, rows);
}

fn known(opening: &Opening, rows: &mut Rows) {
    let name = &opening.name;
    let bottom = if opening.kind == OpeningKind::Door { "threshold" } else { "sill" };
    rows.known(format!("middle of {name} along its run"), &opening.along);
    rows.known(format!("width of {name}"), &opening.width);
    rows.known(format!("height of {name}"), &opening.height);
    rows.known(format!("level of the {bottom} of {name}"), &opening.bottom);
    if let Some(rise) = &opening.rise {
        rows.known(format!("rise of the arch of {name}"), rise);
    }
    if let Some(lintel) = &opening.lintel {
        rows.known(format!("height of the lintel of {name}"), &lintel.height);
        rows.known(format!("how far the lintel of {name} lies on the cob"), &lintel.bearing);
    }
    if let Some(frame) = &opening.frame {
        rows.known(format!("width of the frame of {name}"), &frame.width);
        rows.known(format!("depth of the frame of {name}"), &frame.depth);
        rows.known(format!("set-back of the frame of {name} behind the outer face"), &frame.set_back);
    }
    if let Some(splay) = &opening.splay {
        rows.known(format!("splay of the left jamb of {name}, seen from outside"), &splay.left);
        rows.known(format!("splay of the right jamb of {name}, seen from outside"), &splay.right);
        rows.known(format!("where the splay of {name} begins behind the outer face"), &splay.from);
    }
}

/// Binds the sizes of an opening, its form, and the shape of the wall where it stands.
fn bound<T>(answer: Answer<T>, house: &House, opening: &Opening, rows: &Rows) -> Answer<T> {
    shaped(sized(answer, opening, rows), house, opening, &opening.cut, rows)
}

/// Binds the sizes of an opening and its form.
fn sized<T>(answer: Answer<T>, opening: &Opening, rows: &Rows) -> Answer<T> {
    let bottom = opening.bottom.path.as_str();
    let answer = answer
        .from("width", opening.path("width"))
        .from("height", opening.path("height"))
        .from("bottom", bottom)
        .from("thickness", "wall.thickness")
        .from("batter inside", "wall.batter.inside")
        .from("batter outside", "wall.batter.outside");
    bind(answer, rows, &opening.path("rise"))
}

/// Binds the splay of a cut and the shape of the wall where it stands.
pub(super) fn shaped<T>(mut answer: Answer<T>, house: &House, opening: &Opening, cut: &Cut, rows: &Rows) -> Answer<T> {
    if matches!(cut.depth, Depth::Through { splay, .. } if splay != [0.0; 2]) {
        for noun in ["splay.left", "splay.right", "splay.from", "height"] {
            answer = bind_once(answer, rows, &opening.path(noun));
        }
        answer = bind_once(answer, rows, &opening.bottom.path);
        answer = bind_once(answer, rows, "wall.batter.outside");
    }
    local_shape(answer, house, opening, cut, rows)
}

/// Binds thickness and curvature of the wall where a cut stands.
fn local_shape<T>(answer: Answer<T>, house: &House, opening: &Opening, cut: &Cut, rows: &Rows) -> Answer<T> {
    if house.wall.thicknesses.is_even() {
        return curvature(answer, house, opening, cut, rows);
    }
    let stretch = cut.reach(&house.wall.shape());
    let answer = bind_local(answer, house, stretch, rows);
    if is_even(house, stretch) {
        return curvature(answer, house, opening, cut, rows);
    }
    bind_once(answer, rows, &opening.along.path)
}

/// In one straight run the place of an opening does not change what it takes out; in one arc its radius does; across a
/// joint its place and both runs do.
fn curvature<T>(answer: Answer<T>, house: &House, opening: &Opening, cut: &Cut, rows: &Rows) -> Answer<T> {
    let line = &house.wall.line;
    let touched = cut.touches(&house.wall.shape());
    let is_of_curve = |piece: usize| !line.is_corner(piece) && house.wall.points[line.owner(piece)].curve.is_some();
    if let [piece] = touched[..]
        && !is_of_curve(piece)
    {
        let point = &house.wall.points[line.owner(piece)];
        return bind_once(answer, rows, &path(point, if line.is_corner(piece) { "round" } else { "radius" }));
    }
    bind_stretch(answer, house, opening, cut, rows)
}

/// Binds the place of an opening and the runs and corners that a cut of it touches.
pub(super) fn bind_stretch<T>(
    answer: Answer<T>,
    house: &House,
    opening: &Opening,
    cut: &Cut,
    rows: &Rows,
) -> Answer<T> {
    let answer = bind_once(answer, rows, &opening.along.path);
    let touched = cut.touches(&house.wall.shape()).into_iter();
    touched.fold(answer, |answer, piece| bind_piece(answer, house, piece, rows))
}

fn holes(house: &House, opening: &Opening, rows: &mut Rows) {
    let wall = &house.wall;
    let (shape, cut) = (wall.shape(), &opening.cut);
    let (thickness, inside, outside) = (wall.thickness.value, wall.batter_inside.value, wall.batter_outside.value);
    let (width, height, bottom) = (opening.width.value, opening.height.value, opening.bottom.value);
    let name = &opening.name;
    let volume = wall::cob_removed(width, height, bottom, thickness, inside, outside, &shape, cut);
    let volume = bound(volume, house, opening, rows);
    rows.add(opening.path("volume"), format!("cob that {name} takes out"), volume);
    for (side, word, batter, batter_path) in
        [(Side::Outer, "outer", outside, "wall.batter.outside"), (Side::Inner, "inner", inside, "wall.batter.inside")]
    {
        let answer = match side {
            Side::Outer => wall::outer_face_removed(width, height, bottom, thickness, batter, &shape, cut),
            Side::Inner => wall::inner_face_removed(width, height, bottom, thickness, batter, &shape, cut),
        };
        let answer = sized(answer.from("batter", batter_path), opening, rows);
        let answer = face(answer, house, opening, side, rows);
        rows.add(opening.path(&format!("{word}-area")), format!("{word} face that {name} takes out"), answer);
    }
    let has_sill = opening.kind == OpeningKind::Window;
    let reveal = wall::reveal(width, height, bottom, thickness, inside, outside, (cut, &shape), has_sill);
    rows.add(opening.path("reveal-area"), format!("reveals of {name}"), bound(reveal, house, opening, rows));
    if opening.kind == OpeningKind::Door && bottom < Length::ZERO {
        let stem = wall::stem_removed(width, bottom, wall.stem_width.value, &wall.stem_shape(), cut);
        let stem = stem
            .from("width", opening.path("width"))
            .from("threshold", opening.bottom.path.as_str())
            .from("stem width", "wall.stem.width");
        let stem = curvature(stem, house, opening, cut, rows);
        rows.add(opening.path("stem-volume"), format!("stem wall that {name} takes out"), stem);
    }
}

/// Binds what a face is made of where an opening takes it out. In a straight wall that depends on the opening's size alone,
/// and on how its thickness changes; a splay that begins behind the outer face leaves that face as it is.
fn face<T>(answer: Answer<T>, house: &House, opening: &Opening, side: Side, rows: &Rows) -> Answer<T> {
    let (cut, shape) = (&opening.cut, house.wall.shape());
    let along = house.wall.line.along_line(opening.station);
    let is_whole = match cut.depth {
        Depth::Through { crease, splay } => {
            let is_behind = side == Side::Outer && crease < shape.offset(side, along, cut.form.top());
            splay == [0.0; 2] || is_behind
        }
        Depth::Into { .. } => true,
    };
    let straight = matches!(cut.touches(&shape)[..], [piece] if house.wall.line.pieces()[piece].curvature() == 0.0);
    if !is_whole {
        return shaped(answer, house, opening, cut, rows);
    }
    if !straight {
        return local_shape(answer, house, opening, cut, rows);
    }
    let answer = if is_of_one_row(house, cut.reach(&shape)) {
        answer.without("thickness")
    } else {
        let mut answer = local_shape(answer, house, opening, cut, rows);
        answer.reason.inputs.retain(|input| input.path != opening.along.path);
        answer
    };
    if opening.bottom.value < Length::ZERO { answer } else { answer.without("bottom") }
}

/// Half the opening along the centre line, behind and ahead of its middle, in metres.
fn halves(house: &House, opening: &Opening) -> [f64; 2] {
    let line = &house.wall.line;
    let middle = line.along_line(opening.station);
    let [start, end] = opening.on_line(&house.wall).unwrap_or([middle; 2]);
    let turn = if start > middle { line.length() } else { 0.0 };
    [middle + turn - start, end - middle - turn]
}

fn corner_distance(house: &House, opening: &Opening, rows: &mut Rows) {
    let runs = house.wall.line.runs();
    let points = &house.wall.points;
    let count = runs.len();
    // The first run of an open line follows its end, and so does the way on from its last one.
    let is_end = |index: usize| index == 0 && !house.wall.line.is_closed();
    let turns = |index: usize| is_end(index) || runs[index].turn.to_degrees().abs() >= CORNER_TURN;
    if !(0..count).any(turns) {
        return;
    }
    let [behind, ahead] = halves(house, opening);
    let mut back = opening.along.value.in_m() - behind;
    let mut back_over = Vec::new();
    let mut index = opening.run;
    while !turns(index) {
        index = (index + count - 1) % count;
        back += runs[index].whole.length();
        back_over.push(index);
    }
    let mut forward = -opening.along.value.in_m() - ahead;
    let mut forward_over = Vec::new();
    let mut index = opening.run;
    loop {
        forward += runs[index].whole.length();
        forward_over.push(index);
        index = (index + 1) % count;
        if turns(index) {
            break;
        }
    }
    let (distance, over) = if back <= forward { (back, back_over) } else { (forward, forward_over) };
    let mut answer = wall::corner_distance(Length::m(distance))
        .with("middle along the run", opening.along.value, opening.along.path.as_str())
        .with("width", opening.width.value, opening.width.path.as_str());
    for index in over {
        answer = bind(answer, rows, &path(&points[index], "run"));
    }
    answer = curvature_of_line(answer, house, opening, rows);
    let corner = if house.wall.line.is_closed() { "corner" } else { "corner or end" };
    let title = format!("from the nearest {corner} to {}", opening.name);
    rows.add(opening.path("corner-distance"), title, answer);
}

/// Binds the radius that bends half an opening along the centre line.
fn curvature_of_line<T>(answer: Answer<T>, house: &House, opening: &Opening, rows: &Rows) -> Answer<T> {
    let Some(stretch) = opening.on_line(&house.wall) else { return answer };
    let straight =
        house.wall.line.pieces_between(stretch).iter().all(|&piece| house.wall.line.pieces()[piece].curvature() == 0.0);
    if straight { answer } else { curvature(answer, house, opening, &opening.cut, rows) }
}

/// The pieces of an open wall before its first opening and after its last one.
fn piers_at_ends(house: &House, order: &[Ordered<'_>], rows: &mut Rows) {
    let ([(start, _, first), ..], [.., (_, end, last)]) = (order, order) else { return };
    let before = wall::pier(Length::m(*start))
        .with("middle along the run", first.along.value, first.along.path.as_str())
        .with("width", first.width.value, first.width.path.as_str());
    let before = curvature_of_line(bind_pieces_to(before, house, first.run, rows), house, first, rows);
    rows.add(first.path("pier-before"), format!("pier from the start of the wall to {}", first.name), before);
    let after = wall::pier(Length::m(house.wall.line.length() - end))
        .with("middle along the run", last.along.value, last.along.path.as_str())
        .with("width", last.width.value, last.width.path.as_str());
    let after = bind(after, rows, &path(&house.wall.points[last.run], "run"));
    let after = bind_pieces(after, house, last.run + 1..house.wall.points.len(), rows);
    let after = curvature_of_line(after, house, last, rows);
    rows.add(last.path("pier"), format!("pier from {} to the end of the wall", last.name), after);
}

/// Adds the runs and corners that the tape passes from the start of the line to a run.
fn bind_pieces_to<T>(answer: Answer<T>, house: &House, run: usize, rows: &Rows) -> Answer<T> {
    let answer = bind_pieces(answer, house, 0..run, rows);
    let nouns = ["trim-before", "corner", "trim-after"];
    nouns.iter().fold(answer, |answer, noun| bind(answer, rows, &path(&house.wall.points[run], noun)))
}

/// Where an opening starts and ends along the line, in metres.
type Ordered<'a> = (f64, f64, &'a Opening);

fn piers(house: &House, rows: &mut Rows) {
    let mut order: Vec<Ordered<'_>> = Vec::new();
    for opening in &house.openings {
        let Some([start, end]) = opening.on_line(&house.wall) else { continue };
        order.push((start, end, opening));
    }
    order.sort_by(|a, b| a.0.total_cmp(&b.0));
    let whole = house.wall.line.length();
    if !house.wall.line.is_closed() {
        piers_at_ends(house, &order, rows);
    }
    for (place, (_, end, opening)) in order.iter().enumerate() {
        let last = place + 1 == order.len();
        if last && !house.wall.line.is_closed() {
            break;
        }
        let (start, _, next) = &order[(place + 1) % order.len()];
        let length = if last { start + whole } else { *start } - end;
        if order.len() < 2 || length < 0.0 {
            continue;
        }
        let mut answer = wall::pier(Length::m(length));
        for opening in [*opening, *next] {
            answer = answer
                .with(format!("middle of {}", opening.name), opening.along.value, opening.along.path.as_str())
                .with(format!("width of {}", opening.name), opening.width.value, opening.width.path.as_str());
        }
        answer = between(answer, house, opening, next, last, rows);
        answer = curvature_of_line(answer, house, opening, rows);
        answer = curvature_of_line(answer, house, next, rows);
        rows.add(opening.path("pier"), format!("pier from {} to {}", opening.name, next.name), answer);
    }
}

/// Binds what the tape passes from one opening to the next: the rest of its run, corners, whole runs.
fn between<T>(
    mut answer: Answer<T>,
    house: &House,
    from: &Opening,
    to: &Opening,
    last: bool,
    rows: &Rows,
) -> Answer<T> {
    let points = &house.wall.points;
    if from.run == to.run && !(last && to.along.value <= from.along.value) {
        return answer;
    }
    let mut index = from.run;
    answer = bind(answer, rows, &path(&points[index], "run"));
    loop {
        index = (index + 1) % points.len();
        for noun in ["trim-before", "corner", "trim-after"] {
            answer = bind(answer, rows, &path(&points[index], noun));
        }
        if index == to.run {
            return answer;
        }
        answer = bind(answer, rows, &path(&points[index], "run"));
    }
}
