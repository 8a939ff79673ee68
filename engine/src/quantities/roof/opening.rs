//! Rows of the opening for a flue between straight rafters: what it cuts, what it keeps clear of, its trimmers and the rafters that
//! carry them.

use kurbo::{Point, Vec2};

use super::super::line::{bind, bind_piece};
use super::super::uneven::bind_once;
use super::factors::{Factors, pressed_by};
use super::rafter::{Named, Rafter};
use super::rafter_places::OnWall;
use super::rafters::{Whose, ponded, seats};
use crate::house::{Framed, House, Rafters, Roof, RoofOpening, roof_openings};
use crate::reason::Answer;
use crate::roof;
use crate::roof::poles::Pole;
use crate::roof::standing::{Combination, Extra, OnPole, Straight, StraightAnswers};
use crate::row::Rows;
use crate::units::{Angle, Force, Length};

/// An opening, and what it is called.
struct Flue<'a>(&'a RoofOpening<'a>);

impl Flue<'_> {
    fn path(&self, noun: &str) -> String {
        self.0.thing.path(noun)
    }

    fn said(&self) -> String {
        self.0.thing.name.replace('-', " ")
    }

    /// Adds what of its place in plan says how far along a direction it lies, and what says which direction that is.
    fn placed<T>(&self, answer: Answer<T>, along: Vec2, rows: &Rows) -> Answer<T> {
        let counts = [along.x, along.y].into_iter().zip(self.0.at).filter(|(share, _)| share.abs() > 1e-9);
        counts.fold(bind(answer, rows, "roof.falls"), |answer, (_, known)| bind(answer, rows, &known.path))
    }

    /// The same across the fall, from the first rafter.
    fn aside<T>(&self, answer: Answer<T>, rafters: &Rafters, rows: &Rows) -> Answer<T> {
        bind(self.placed(answer, rafters.fall.turn_90(), rows), rows, "roof.rafters.first")
    }
}

/// Adds what says how wide a rafter lies.
fn wide<T>(answer: Answer<T>, rafters: &Rafters, place: usize, rows: &Rows) -> Answer<T> {
    let Some((own, cut)) = rafters.pole(place) else { return bind_once(answer, rows, "poles.diameter") };
    let end = if cut.butt >= cut.tip { "low" } else { "high" };
    bind(bind(answer, rows, &Rafters::path(place, end)), rows, &own.bow[1].path)
}

/// The opening of each flue, what it cuts and keeps clear of, and where its trimmers lie.
pub(super) fn flues(house: &House, roof: &Roof, rafters: &Rafters, rows: &mut Rows) {
    for opening in &roof_openings(house) {
        let flue = Flue(opening);
        let said = flue.said();
        let Some(framed) = &opening.framed else {
            let title = format!(
                "what {said} keeps from the timber of roof and wall over its clearance, which its listing says"
            );
            rows.not_known(flue.path("spare"), title);
            continue;
        };
        let side = roof::flue_opening(opening.diameter.value, framed.clearance.value)
            .from("diameter", opening.diameter.path.as_str())
            .from("clearance", framed.clearance.path.as_str());
        let side = rows.add(flue.path("opening"), format!("side of the opening in the roof for {said}"), side);
        let thick = roof.diameter.value;
        let count = roof::rafters_cut(side, framed.cut.len() as u64).from("opening", flue.path("opening"));
        let count = (0..rafters.places.len()).fold(flue.aside(count, rafters, rows), |count, place| {
            wide(bind(count, rows, &Rafters::path(place, "across")), rafters, place, rows)
        });
        rows.add(flue.path("cuts"), format!("rafters that the opening for {said} cuts"), count);
        flue.spare((house, rafters, framed), thick, rows);
        match framed.beside {
            Some(beside) => flue.trimmers((house, rafters), (framed, beside), thick, rows),
            None if framed.cut.is_empty() => {}
            None => {
                let words = "beside it lies no rafter that is whole and carries no others";
                rows.not_known(flue.path("trimmer-span"), format!("trimmers of the opening for {said}: {words}"));
            }
        }
    }
}

impl Flue<'_> {
    /// What is left over its clearance to the nearest rafter that is not cut, and to the timber on the wall.
    fn spare(&self, (house, rafters, framed): (&House, &Rafters, &Framed<'_>), thick: Length, rows: &mut Rows) {
        let said = self.said();
        let flue = self.0.diameter;
        let far = |place: usize| (rafters.across(place) - self.0.reach[0]).abs() - rafters.width(place, thick) * 0.5;
        let whole = (0..rafters.places.len()).filter(|place| !framed.cut.contains(place));
        let nearest = whole.min_by(|&one, &other| far(one).in_m().total_cmp(&far(other).in_m()));
        let mut near: Vec<(Length, String)> = Vec::new();
        if let Some(nearest) = nearest {
            let off = (rafters.across(nearest) - self.0.reach[0]).abs();
            let beside = roof::flue_to_rafter(flue.value, rafters.width(nearest, thick), off);
            let beside = wide(beside.from("flue", flue.path.as_str()).without("diameter"), rafters, nearest, rows);
            let beside = bind(self.aside(beside, rafters, rows), rows, &Rafters::path(nearest, "across"));
            let title = format!("from {said} to the side of rafter {}", nearest + 1);
            near.push((rows.add(self.path("to-rafter"), title, beside), self.path("to-rafter")));
        }
        if let Some(beam) = &house.bond_beam {
            let at = Point::new(self.0.at[0].value.in_m(), self.0.at[1].value.in_m());
            let station = house.wall.line.nearest(at);
            let plate: Length = rows.value("roof.plate-offset").unwrap_or(Length::ZERO);
            let between = Length::m((at - station.beside(plate.in_m())).hypot());
            let beside = roof::flue_to_beam(flue.value, beam.width.value, between)
                .from("flue", flue.path.as_str())
                .from("width", beam.width.path.as_str());
            let all = [Vec2::new(1.0, 0.0), Vec2::new(0.0, 1.0)].map(|way| way.dot(station.axis).abs() < 1.0 - 1e-9);
            let at = self.0.at.iter().zip(all).filter(|(_, counts)| *counts);
            let beside = at.fold(beside, |beside, (known, _)| bind(beside, rows, &known.path));
            let beside = bind_piece(bind(beside, rows, "roof.plate-offset"), house, station.piece, rows);
            let title = format!("from {said} to the bond beam");
            near.push((rows.add(self.path("to-beam"), title, beside), self.path("to-beam")));
        }
        let Some((least, path)) = near.into_iter().min_by(|a, b| a.0.in_m().total_cmp(&b.0.in_m())) else { return };
        let spare = roof::over_clearance(least, framed.clearance.value)
            .from("between", path)
            .from("clearance", framed.clearance.path.as_str());
        rows.add(
            self.path("spare"),
            format!("what {said} keeps from the timber of roof and wall over its clearance"),
            spare,
        );
    }

    /// Where the trimmers lie, and how long they are.
    fn trimmers(
        &self,
        (house, rafters): (&House, &Rafters),
        (framed, beside): (&Framed<'_>, [usize; 2]),
        thick: Length,
        rows: &mut Rows,
    ) {
        let said = self.said();
        let reach: Length = rows.value("roof.plate-across").unwrap_or(Length::ZERO);
        let span = roof::trimmer_span(reach, rafters.places.len() as u64, framed.cut.len() as u64)
            .from("across", "roof.plate-across")
            .from("count", "roof.poles.count")
            .from("cut", self.path("cuts"));
        rows.add(self.path("trimmer-span"), format!("trimmers of the opening for {said}, from axis to axis"), span);
        let pitch: Angle = rows.value("roof.angle").unwrap_or(Angle::ZERO);
        let place = longest(rafters, beside);
        let low = OnWall { house, rafters, place }.low_end(rows);
        let half = (framed.side + thick) * 0.5;
        let up = self.0.reach[1];
        for (noun, at) in [("below", up - half), ("above", up + half)] {
            let along = roof::along_rafter(pitch, at - low).from("pitch", "roof.angle");
            let along =
                bind(bind(self.placed(along, rafters.fall, rows), rows, &self.path("opening")), rows, "poles.diameter");
            let along = bind(along, rows, &Rafters::path(place, "low-end"));
            let title = format!("trimmer {noun} {said}: from the low end of rafter {}, along it", place + 1);
            rows.add(self.path(noun), title, along);
        }
    }
}

/// The one of two rafters that spans farther.
fn longest(rafters: &Rafters, [one, other]: [usize; 2]) -> usize {
    let long = |place: usize| rafters.places[place].seats[1] - rafters.places[place].seats[0];
    if long(other) > long(one) { other } else { one }
}

/// What is not known of trimmers while snow or wind is not.
pub(super) fn not_known(house: &House, factors: &Factors, rows: &mut Rows) {
    for opening in roof_openings(house).iter().filter(|one| one.framed.as_ref().is_some_and(|own| own.beside.is_some()))
    {
        let name = &opening.thing.name;
        let title = format!("trimmers of the opening for {}, and the rafter beside", name.replace('-', " "));
        rows.not_known(format!("roof.members.{name}-below.{}", factors.noun("bending")), title);
    }
}

/// What governs the trimmers and the rafter beside them that spans farther.
pub(super) fn walk(house: &House, rafters: &Rafters, all: &Rafter<'_>, rows: &mut Rows) {
    for opening in &roof_openings(house) {
        let flue = Flue(opening);
        let Some(framed) = &opening.framed else { continue };
        let Some(beside) = framed.beside else { continue };
        let length = |noun: &str| rows.value::<Length>(&flue.path(noun));
        let (Some(span), Some(below), Some(above)) = (length("trimmer-span"), length("below"), length("above")) else {
            continue;
        };
        let beside = longest(rafters, beside);
        let opened = Opened { house, flue: &flue, all, span, at: [below, above], cut: framed.cut.len(), beside };
        let name = &opening.thing.name;
        if opened.rows(rows).is_none() {
            let title = format!(
                "trimmers of the opening for {}: a half of the cut rafter would tip over its wall",
                flue.said()
            );
            rows.not_known(format!("roof.members.{name}-below.{}", all.factors.noun("bending")), title);
        }
        let title = format!("what holds the trimmers of the opening for {}: an engineer decides", flue.said());
        rows.not_known(flue.path("joint"), title);
    }
}

/// An opening with its loads.
struct Opened<'a, 'b> {
    house: &'a House,
    flue: &'a Flue<'a>,
    all: &'a Rafter<'b>,
    span: Length,
    /// From the low end of the rafter beside to the trimmers.
    at: [Length; 2],
    cut: usize,
    beside: usize,
}

impl Opened<'_, '_> {
    fn rows(&self, rows: &mut Rows) -> Option<()> {
        let of = |noun: &str| Rafters::path(self.beside, noun);
        let [low, span, long] = ["low-tail", "span", "cut-length"].map(|noun| rows.value::<Length>(&of(noun)));
        let (low, span, long) = (low?, span?, long?);
        let [below, above] = self.at;
        let thin = self.all.beam.pole.butt.min(self.all.beam.pole.tip);
        let pitch = self.all.beam.pitch;
        let spacing = self.all.beam.spacing;
        let round = |length: Length| Pole { length, butt: thin, tip: thin, bow: Length::ZERO, bow_turn: Angle::ZERO };
        // A half that reaches farther out over its wall than in would tip, and press its seat more than the whole one does.
        if below - low < low || low + span - above < long - low - span {
            return None;
        }
        // The cut rafter, below and above.
        let foot = Straight { pole: round(below), supports: vec![low, below], pitch, spacing };
        let head =
            Straight { pole: round(long - above), supports: vec![Length::ZERO, low + span - above], pitch, spacing };
        let ponds: Vec<Extra> = self.all.pond.map(|pond| ponded(&foot, pond)).into_iter().collect();
        let halves = [(foot.answers(&self.all.wood, &ponds).ok()?, 1), (head.answers(&self.all.wood, &[]).ok()?, 0)];
        let beam =
            Straight { pole: round(self.span), supports: vec![Length::ZERO, self.span], pitch: Angle::ZERO, spacing };
        let at = |one: usize| self.span * ((one + 1) as f64 / (self.cut + 1) as f64);
        let loads = (0..self.cut).map(|one| OnPole::Point { pole: 0, at: at(one), down: Force::n(1.0) }).collect();
        let trimmer = beam.answers(&self.all.wood, &[Extra { name: "cut rafters".into(), loads }]).ok()?;
        let name = &self.flue.0.thing.name;
        let frame = [
            of("low-tail"),
            of("span"),
            of("cut-length"),
            self.flue.path("below"),
            self.flue.path("above"),
            self.flue.path("trimmer-span"),
        ];
        let mut frame: Vec<&str> = frame.iter().map(String::as_str).collect();
        // Its own length and span stand in place of those of the longest.
        frame.extend(self.all.named.frame.iter().skip(2));
        let span_path = self.flue.path("trimmer-span");
        for (half, word) in halves.iter().zip(["below", "above"]) {
            let stem = format!("roof.members.{name}-{word}");
            let words = format!("trimmer {word} {}, no thinner than the thinnest rafter", self.flue.said());
            let named = Named {
                stem: &stem,
                words: &words,
                seats: ["one of its rafters", "the other of its rafters"],
                from: "its end",
                frame: &frame,
                span: &span_path,
                ..self.all.named.clone()
            };
            let lasts =
                [&self.all.strength, &self.all.sag].map(|lasts| lasts.with(|own| pressed_by(own, press(half, own))));
            let one = self.all.like(&named, (&beam, &trimmer), lasts);
            one.strength(rows);
            one.sags(rows);
        }
        self.carries((low, span, long), (&halves, &trimmer), &frame, rows)
    }

    /// The rafter beside, under the trimmers.
    fn carries(
        &self,
        (low, span, long): (Length, Length, Length),
        (halves, trimmer): (&[(StraightAnswers, usize); 2], &StraightAnswers),
        frame: &[&str],
        rows: &mut Rows,
    ) -> Option<()> {
        let pole = Pole { length: long, ..self.all.beam.pole };
        let beam = Straight { pole, supports: vec![low, low + span], ..self.all.beam.clone() };
        let mut extras: Vec<Extra> = self.all.pond.map(|pond| ponded(&beam, pond)).into_iter().collect();
        let count = extras.len();
        extras.extend(self.at.map(|at| Extra {
            name: "trimmer".into(),
            loads: vec![OnPole::Point { pole: 0, at, down: Force::n(1.0) }],
        }));
        let answers = beam.answers(&self.all.wood, &extras).ok()?;
        let stem = format!("roof.members.{}-beside", self.flue.0.thing.name);
        let words = format!("rafter {}, beside {}, not cut there", self.beside + 1, self.flue.said());
        let span_path = Rafters::path(self.beside, "span");
        let named = Named { stem: &stem, words: &words, frame, span: &span_path, ..self.all.named.clone() };
        let onto = |own: &Combination| {
            let mut all = own.extras.clone();
            all.resize(count, 0.0);
            all.extend(halves.iter().map(|half| {
                let on_trimmer = pressed_by(own, press(half, own));
                trimmer.pressed(0, &[on_trimmer], &[]).map_or(0.0, |at| at.value.in_n())
            }));
            Combination { extras: all, ..own.clone() }
        };
        let lasts = [&self.all.strength, &self.all.sag].map(|lasts| lasts.with(onto));
        let light = beam.answers(&self.all.light, &extras).ok()?;
        let one = self.all.like(&named, (&beam, &answers), lasts);
        one.strength(rows);
        one.sags(rows);
        let stem = format!("{}-beside-", self.flue.0.thing.name);
        let words = format!("the rafter beside {}", self.flue.said());
        seats(self.house, (&one, &light), &Whose { stem: &stem, words: &words }, rows);
        Some(())
    }
}

/// What half of a cut rafter presses on its trimmer in a combination, in newtons.
fn press((answers, seat): &(StraightAnswers, usize), own: &Combination) -> f64 {
    answers.pressed(*seat, std::slice::from_ref(own), &[]).map_or(0.0, |at| at.value.in_n())
}
