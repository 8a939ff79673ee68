//! Rows of what is built onto the wall: benches, buttresses, reliefs.

use super::super::need::Need;
use super::bend::{Bend, batter, with, with_level, with_thickness};
use super::{face, said};
use crate::house::built_in::{Bench, Buttress, Relief, What};
use crate::house::{BuiltIn, House, STONES};
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::{Length, Volume};
use crate::{earth, skin, wall};

/// What the shape of a bench depends on beside its own sizes.
struct Seat<'a> {
    house: &'a House,
    bench: &'a Bench,
    bend: Bend<'a>,
    /// Whether it stands before the stem wall, and before the cob.
    before: [bool; 2],
}

impl Seat<'_> {
    fn is_bent(&self) -> bool {
        !self.bend.is_straight()
    }

    fn along<T>(&self, answer: Answer<T>, rows: &Rows) -> Answer<T> {
        let answer = with(with(answer, "from", &self.bench.from), "to", &self.bench.to);
        if self.is_bent() { self.bend.bind(answer, rows) } else { answer }
    }

    fn batter<T>(&self, answer: Answer<T>) -> Answer<T> {
        with(answer, "batter", batter(self.house, self.bench.side))
    }

    fn stem<T>(&self, answer: Answer<T>) -> Answer<T> {
        with(answer, "stem width", &self.house.wall.stem_width)
    }

    /// What says how far from the wall line the face is at the level of the seat, which matters where it is bent.
    fn place_of_face<T>(&self, answer: Answer<T>) -> Answer<T> {
        if !self.before[1] {
            return self.stem(answer);
        }
        let answer = self.batter(with_thickness(answer, self.house));
        with_level(answer, self.house, self.bench.side, "floor or ground", &self.bench.foot)
    }

    /// What says how far the faces of cob and stem behind it stand from its front.
    fn backs<T>(&self, mut answer: Answer<T>, is_bent: bool) -> Answer<T> {
        let [stem, cob] = self.before;
        if cob && (stem || is_bent) {
            answer = with_thickness(answer, self.house);
        }
        if cob {
            answer = self.batter(answer);
        }
        if stem && (cob || is_bent) {
            answer = self.stem(answer);
        }
        if cob && stem {
            answer = with(answer, "floor or ground", &self.bench.foot);
        } else if cob && is_bent {
            answer = with_level(answer, self.house, self.bench.side, "floor or ground", &self.bench.foot);
        }
        answer
    }
}

pub(super) fn bench(house: &House, thing: &BuiltIn, bench: &Bench, rows: &mut Rows) {
    let name = said(thing);
    rows.known(format!("beginning of {name} along its run"), &bench.from);
    rows.known(format!("end of {name} along its run"), &bench.to);
    rows.known(format!("depth of {name}"), &bench.depth);
    rows.known(format!("height of the seat of {name}"), &bench.seat);
    let body = bench.body(&house.wall);
    let place = vec![bench.from.path.as_str(), bench.to.path.as_str()];
    let seat = Seat {
        house,
        bench,
        bend: Bend::of_stretch(house, &body.shape, bench.stretch, place),
        before: [bench.foot.value < Length::ZERO, bench.top() > Length::ZERO],
    };
    let (depth, high) = (bench.depth.value, bench.seat.value);
    let [depth_path, seat_path] = [bench.depth.path.as_str(), bench.seat.path.as_str()];
    let volume = wall::bench_volume(depth, high, &body).from("depth", depth_path).from("seat", seat_path);
    let volume = seat.along(seat.backs(volume, seat.is_bent()), rows);
    rows.add(thing.path("volume"), format!("cob in {name}"), volume);
    let mut front = wall::bench_front(high, &body).from("seat", seat_path);
    if seat.is_bent() {
        front = seat.place_of_face(with(front, "depth", &bench.depth));
    }
    rows.add(thing.path("front-area"), format!("front of {name}"), seat.along(front, rows));
    let mut top = wall::bench_top(depth, &body).from("depth", depth_path);
    if seat.is_bent() {
        top = seat.place_of_face(top);
        if seat.before[1] {
            top = with_level(top, house, bench.side, "seat", &bench.seat);
        }
    }
    rows.add(thing.path("top-area"), format!("seat of {name}"), seat.along(top, rows));
    let ends = wall::bench_ends(depth, high, &body).from("depth", depth_path).from("seat", seat_path);
    rows.add(thing.path("ends-area"), format!("two ends of {name}"), seat.backs(ends, false));
    if seat.before[1] {
        let batter = batter(house, bench.side);
        let mut covers =
            wall::bench_covers(batter.value, high, &body).from("batter", batter.path.as_str()).from("seat", seat_path);
        if seat.is_bent() {
            covers = with_thickness(covers, house);
        }
        if seat.before[0] {
            covers = with(covers, "floor or ground", &bench.foot);
        } else if seat.is_bent() {
            covers = with_level(covers, house, bench.side, "floor or ground", &bench.foot);
        }
        let (noun, word) = face(bench.side);
        rows.add(thing.path(noun), format!("{word} face that {name} covers"), seat.along(covers, rows));
    }
}

pub(super) fn buttress(house: &House, thing: &BuiltIn, buttress: &Buttress, rows: &mut Rows) {
    let name = said(thing);
    rows.known(format!("middle of {name} along its run"), &buttress.spot.along);
    let length = rows.known(format!("length of {name} along the wall"), &buttress.length);
    let depth = rows.known(format!("depth of {name} at the foot of the cob"), &buttress.depth);
    let above = rows.known(format!("depth of {name} at its top"), &buttress.depth_at_top);
    let top = rows.known(format!("level of the top of {name}"), &buttress.top);
    let body = buttress.body(&house.wall);
    let bend = bend_of(house, buttress, &[&body.shape]);
    let batter = batter(house, buttress.side);
    fn sized<T>(answer: Answer<T>, buttress: &Buttress) -> Answer<T> {
        answer
            .from("length", buttress.length.path.as_str())
            .from("depth", buttress.depth.path.as_str())
            .from("depth at top", buttress.depth_at_top.path.as_str())
            .from("top", buttress.top.path.as_str())
    }
    let leaning = |answer: Answer<_>| if bend.is_straight() { answer } else { with(answer, "batter", batter) };
    let volume =
        with_bend(sized(wall::buttress_volume(length, depth, above, top, &body), buttress), house, &bend, rows);
    let volume = if bend.is_straight() { volume } else { with(volume, "batter", batter) };
    rows.add(thing.path("volume"), format!("cob in {name}"), volume);
    let front = wall::buttress_front(length, depth, above, top, batter.value, &body);
    let front = sized(front, buttress).from("batter", batter.path.as_str());
    rows.add(thing.path("front-area"), format!("front of {name}"), front);
    let mut sides = sized(wall::buttress_sides(depth, above, top, &body), buttress);
    if !bend.is_straight() {
        sides = with(sides, "length", &buttress.length);
    }
    let sides = leaning(with_bend(sides, house, &bend, rows));
    rows.add(thing.path("sides-area"), format!("two sides of {name}"), sides);
    if above > Length::ZERO {
        let mut level = sized(wall::buttress_top(length, above, &body), buttress);
        if !bend.is_straight() {
            level = with_level(level, house, buttress.side, "top", &buttress.top);
        }
        let level = leaning(with_bend(level, house, &bend, rows));
        rows.add(thing.path("top-area"), format!("top of {name}"), level);
    }
    let (noun, word) = face(buttress.side);
    let covers = sized(wall::buttress_covers(length, top, batter.value, &body), buttress);
    let covers = with_bend(covers.from("batter", batter.path.as_str()), house, &bend, rows);
    let covers = bend.bind_face(covers, rows);
    rows.add(thing.path(noun), format!("{word} face that {name} covers"), covers);
}

fn bend_of<'a>(house: &'a House, buttress: &'a Buttress, shapes: &[&crate::curve::Shape<'_>]) -> Bend<'a> {
    Bend::of_cut(house, shapes, &buttress.cut, &[buttress.side], vec![&buttress.spot.along.path])
}

fn with_bend<T>(answer: Answer<T>, house: &House, bend: &Bend<'_>, rows: &Rows) -> Answer<T> {
    if bend.is_straight() { answer } else { bend.bind(with_thickness(answer, house), rows) }
}

/// The stone under a buttress, as the stone of the stem wall.
pub(super) fn stone(house: &House, thing: &BuiltIn, rows: &mut Rows) -> Option<Need> {
    let What::Buttress(buttress) = &thing.what else { return None };
    if buttress.foot.value >= Length::ZERO {
        return None;
    }
    let name = said(thing);
    let on = &house.wall;
    let body = buttress.body(on);
    let bend = bend_of(house, buttress, &[&body.shape, &body.stem]);
    let (length, depth, foot) = (&buttress.length, &buttress.depth, &buttress.foot);
    let volume = wall::buttress_stone(length.value, depth.value, on.stem_width.value, foot.value, &body)
        .from("length", length.path.as_str())
        .from("depth", depth.path.as_str())
        .from("stem width", on.stem_width.path.as_str())
        .from("foot", foot.path.as_str());
    let volume = bend.bind(with_thickness(volume, house), rows);
    let volume: Volume = rows.add(thing.path("stone-volume"), format!("stone under {name}, as it is laid"), volume);
    let solid = wall::solid_stone(volume, on.stone.solid.value)
        .from("stem", thing.path("stone-volume"))
        .from("solid", "wall.stem.solid");
    let solid = rows.add(thing.path("stone-solid-volume"), format!("solid stone under {name}"), solid);
    let mass = earth::mass(solid, on.stone.density.value)
        .from("volume", thing.path("stone-solid-volume"))
        .from("density", "wall.stem.density");
    rows.add(thing.path("stone-mass"), format!("stone under {name}, by mass"), mass);
    Some(Need::of(STONES[0], [thing.path("stone-mass")]))
}

pub(super) fn relief(thing: &BuiltIn, relief: &Relief, rows: &mut Rows) {
    let name = said(thing);
    let area = rows.known(format!("area of {name}"), &relief.area);
    let thickness = rows.known(format!("mean thickness of {name}"), &relief.thickness);
    let volume =
        skin::coat(area, thickness).from("area", thing.path("area")).from("thickness", thing.path("thickness"));
    rows.add(thing.path("volume"), format!("cob in {name}"), volume);
}
