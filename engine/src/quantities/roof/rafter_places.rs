//! Rows of straight rafters where they lie: eaves, seats, what is packed under them, blocking and ties.

use super::super::line::{bind, bind_piece};
use super::super::uneven::{bind_height, bind_line, bind_once};
use super::rafter_pile;
use crate::house::{House, Rafters, Roof};
use crate::reason::Answer;
use crate::roof;
use crate::row::Rows;
use crate::units::{Angle, Length, Slope};

/// The ends of a rafter.
pub(super) const ENDS: [&str; 2] = ["low", "high"];
/// The row that says how deep the deepest seat is.
pub(super) const DEEPEST: &str = "roof.rafters.deepest-seat";
const EAVE: &str = "roof.eave-offset";
const PLATE: &str = "roof.plate-offset";

pub(super) fn walk(house: &House, roof: &Roof, (rafters, seat): (&Rafters, Length), rows: &mut Rows) {
    let plate: Length = rows.value(PLATE).unwrap_or(Length::ZERO);
    let on = house.wall.line.reach(plate.in_m(), rafters.fall.turn_90()).1[0];
    let first = bind(roof::first_rafter(rafters.first), rows, "roof.falls");
    let first = bind_piece(bind(first, rows, PLATE), house, on, rows);
    rows.add("roof.rafters.first", "where the first rafter lies, across the fall from the origin", first);
    for place in 0..rafters.places.len() {
        let on_wall = OnWall { house, rafters, place };
        on_wall.across(rows);
        on_wall.lengths(rows);
        on_wall.packing(rows);
    }
    let thickness = match &rafters.pile {
        Some(pile) => rafter_pile::walk(roof, (rafters, pile), seat, rows),
        None => {
            let deepest = roof::deepest_seat(seat, roof.diameter.value);
            let deepest = deepest.from("seat", "roof.seat").from("diameter", "poles.diameter");
            rows.add(DEEPEST, "deepest seat of a rafter, of its thickness there", deepest);
            (roof.diameter.value, "poles.diameter")
        }
    };
    between((thickness, seat), roof.diameter.value, rows);
}

/// A rafter on the wall.
pub(super) struct OnWall<'a> {
    pub house: &'a House,
    pub rafters: &'a Rafters,
    pub place: usize,
}

impl OnWall<'_> {
    fn path(&self, noun: &str) -> String {
        Rafters::path(self.place, noun)
    }

    /// Adds what places the rafter over an outline, at its low end, its high end, or both.
    fn over<T>(&self, answer: Answer<T>, outline: &str, ends: &[usize], rows: &Rows) -> Answer<T> {
        let is_on_side = self.rafters.places[self.place].is_on_side;
        let of_side = if outline == PLATE && is_on_side { "poles.diameter" } else { "" };
        let paths = ["roof.falls", outline, of_side];
        let answer = self.aside(paths.iter().fold(answer, |answer, path| bind_once(answer, rows, path)), rows);
        let on = ends.iter().map(|&end| self.on(outline, end, rows));
        on.fold(answer, |answer, piece| bind_piece(answer, self.house, piece, rows))
    }

    /// Adds where it lies across the fall: the last one by the far side of the plate alone.
    fn aside<T>(&self, answer: Answer<T>, rows: &Rows) -> Answer<T> {
        if self.place + 1 < self.rafters.places.len() {
            let answer = bind_once(answer, rows, "roof.rafters.first");
            return bind_once(answer, rows, &self.path("across"));
        }
        let plate: Length = rows.value(PLATE).unwrap_or(Length::ZERO);
        let far = self.house.wall.line.reach(plate.in_m(), self.rafters.fall.turn_90()).1[1];
        bind_piece(bind_once(answer, rows, PLATE), self.house, far, rows)
    }

    /// Adds what a tail lies between: along one straight run eave and plate are everywhere equally far apart.
    fn tail<T>(&self, answer: Answer<T>, end: usize, rows: &Rows) -> Answer<T> {
        let (line, [eave, plate]) = (&self.house.wall.line, [EAVE, PLATE].map(|outline| self.on(outline, end, rows)));
        if eave != plate || line.pieces()[eave].curvature() != 0.0 {
            return self.over(self.over(answer, EAVE, &[end], rows), PLATE, &[end], rows);
        }
        let answer = ["roof.falls", EAVE, PLATE].iter().fold(answer, |answer, path| bind(answer, rows, path));
        bind_piece(answer, self.house, eave, rows)
    }

    /// The piece of the line under one of its ends at an outline.
    fn on(&self, outline: &str, end: usize, rows: &Rows) -> usize {
        let one = &self.rafters.places[self.place];
        let across: Length = rows.value(&self.path("across")).unwrap_or(Length::ZERO);
        let (ups, at) = if outline == EAVE { (one.eave, across) } else { (one.seats, one.bears_at) };
        self.house.wall.line.nearest(self.rafters.point(at, ups[end])).piece
    }

    fn across(&self, rows: &mut Rows) {
        if self.place == 0 {
            return;
        }
        let reach = rows.value("roof.plate-across").unwrap_or(Length::ZERO);
        let count = rows.value("roof.poles.count").unwrap_or(0);
        let across = roof::rafter_place(reach, count, self.place as u64);
        let across = across.from("across", "roof.plate-across").from("count", "roof.poles.count");
        let title = format!("rafter {}, across the fall from the first", self.place + 1);
        rows.add(self.path("across"), title, across);
    }

    fn lengths(&self, rows: &mut Rows) {
        let (one, number) = (&self.rafters.places[self.place], self.place + 1);
        let pitch: Angle = rows.value("roof.angle").unwrap_or(Angle::ZERO);
        let along = |in_plan: Length| roof::along_rafter(pitch, in_plan).from("pitch", "roof.angle");
        let cut = self.over(along(one.eave[1] - one.eave[0]), EAVE, &[0, 1], rows);
        rows.add(self.path("cut-length"), format!("rafter {number}, length from eave to eave"), cut);
        let span = self.over(along(one.seats[1] - one.seats[0]), PLATE, &[0, 1], rows);
        let words = if one.is_on_side { "outermost, rests on its wall for" } else { "from seat to seat" };
        rows.add(self.path("span"), format!("rafter {number}, {words}"), span);
        for (end, tail) in [one.seats[0] - one.eave[0], one.eave[1] - one.seats[1]].into_iter().enumerate() {
            let tail = self.tail(along(tail), end, rows);
            let to = if one.is_on_side { "where its wall begins" } else { "the middle of its seat" };
            let title = format!("rafter {number}, from its {} end to {to}", ENDS[end]);
            rows.add(self.path(&format!("{}-tail", ENDS[end])), title, tail);
        }
    }

    /// Where its low end lies, counted up the slope in plan from the origin.
    pub fn low_end(&self, rows: &mut Rows) -> Length {
        let low = roof::low_end(self.rafters.places[self.place].eave[0]);
        let low = self.over(low, EAVE, &[0], rows);
        let title = format!("rafter {}, its low end up the slope from the origin, in plan", self.place + 1);
        rows.add(self.path("low-end"), title, low)
    }

    fn packing(&self, rows: &mut Rows) {
        let (line, top) = (&self.house.wall.line, &self.house.wall.top);
        let plate: Length = rows.value(PLATE).unwrap_or(Length::ZERO);
        let pitch: Slope = rows.value("roof.pitch").unwrap_or(Slope::ZERO);
        for (end, name) in ENDS.iter().enumerate() {
            let packing = roof::packing(pitch, self.rafters.places[self.place].packing[end]);
            let packing = self.over(packing.from("pitch", "roof.pitch"), PLATE, &[end], rows);
            let packing = if top.is_level() {
                let lowest = line.reach(plate.in_m(), self.rafters.fall).1[1];
                bind_piece(packing, self.house, lowest, rows)
            } else {
                bind_line(bind_height(packing, self.house, rows), self.house, rows)
            };
            let title = format!(
                "rafter {}, its {name} seat over the top of wall or beam: what is packed or built up there",
                self.place + 1
            );
            rows.add(self.path(&format!("{name}-packing")), title, packing);
        }
    }
}

/// Blocking between the rafters, and their ties.
fn between(((thin, of), seat): ((Length, &str), Length), diameter: Length, rows: &mut Rows) {
    let count: u64 = rows.value("roof.poles.count").unwrap_or(0);
    let across: Length = rows.value("roof.plate-across").unwrap_or(Length::ZERO);
    let pieces = roof::blocking_count(count).from("count", "roof.poles.count");
    rows.add("roof.blocking.count", "pieces of blocking between the rafters, over both plates", pieces);
    let long = roof::blocking_length(across, count, diameter)
        .from("across", "roof.plate-across")
        .from("count", "roof.poles.count")
        .from("diameter", "poles.diameter");
    rows.add("roof.blocking.length", "length of a piece of blocking", long);
    let high = roof::blocking_height(thin, seat).from("diameter", of).from("seat", "roof.seat");
    rows.add(
        "roof.blocking.height",
        "height of blocking on the low side, from what the rafters rest on to the boards",
        high,
    );
    let ties = roof::ties(count).from("count", "roof.poles.count");
    rows.add("roof.ties.count", "ties of the rafters, one at each seat", ties);
}
