//! Rows of straight pole rafters that fall one way: what governs them over their two plates, their seats and their ties.

use super::super::line::bind;
use super::beam::{self, Planks};
use super::bearing::{Bearing, Press};
use super::factors::{Factors, by_wood};
use super::loads::Loaded;
use super::members;
use super::opening;
use super::rafter::{Named, Rafter};
use crate::house::{Code, Frame, Held, House, Rafters, Roof};
use crate::reason::Answer;
use crate::roof::poles::{Pole, tapered_volume};
use crate::roof::standing::{Extra, OnPole, Straight, StraightAnswers, Wood};
use crate::row::Rows;
use crate::timber::{section, used};
use crate::units::{Angle, Density, Force, Length, LineLoad, Mass, Pressure, Ratio};

const SEATS: [&str; 2] = ["low", "high"];

const LONGEST: Named<'static> = Named {
    stem: "roof.members.rafter",
    words: "longest rafter",
    seats: ["its low seat", "its high seat"],
    from: "its low end",
    frame: &["roof.poles.span", "roof.poles.cut-length", "roof.angle", "roof.spacing", "poles.diameter"],
    heavy: None,
    span: "roof.poles.span",
    thick: &["poles.diameter"],
    seat: "roof.seat",
};

/// The same of measured poles: no thicker anywhere than any of them, as heavy as the heaviest.
const THINNEST: Named<'static> = Named {
    words: "longest rafter, as thin as the thinnest",
    frame: &[LONGEST.frame[0], LONGEST.frame[1], LONGEST.frame[2], LONGEST.frame[3], ENDS_THIN[0], ENDS_THIN[1]],
    heavy: Some("roof.rafters.heaviest"),
    thick: &ENDS_THIN,
    ..LONGEST
};
/// What is said where rafters lie higher over their wall than their seats are deep.
const PACKED: &str =
    "what carries it so far above the wall is not written: let the wall's top rise with the rafters, [wall.top]";
const AT_SEAT: [&str; 2] = ["roof.rafters.low-at-seat", "roof.rafters.high-at-seat"];
const ENDS_THIN: [&str; 2] = ["roof.rafters.low-thinnest", "roof.rafters.high-thinnest"];

/// A rafter, and the beam that it lies on.
struct OneWay<'a> {
    house: &'a House,
    rafter: &'a Rafter<'a>,
    /// The same, no heavier than it is thick: what lifts it finds the least weight.
    light: &'a StraightAnswers,
    of: &'a Whose<'a>,
}

/// Whose seats: what stands before their names in paths, and what the rafter is called.
pub(super) struct Whose<'a> {
    pub stem: &'a str,
    pub words: &'a str,
}

/// What each seat of a rafter bears, how its notch is sheared, and what lifts it.
pub(super) fn seats(house: &House, (rafter, light): (&Rafter<'_>, &StraightAnswers), of: &Whose<'_>, rows: &mut Rows) {
    OneWay { house, rafter, light, of }.seats(rows);
}

/// The notch at a seat: how thick the pole is there, how deep it is cut, and the row that says so.
struct Notch {
    diameter: Length,
    seat: Length,
    path: Option<String>,
}

pub(super) fn walk(
    house: &House,
    (roof, rafters): (&Roof, &Rafters),
    held: &Held,
    loaded: Option<&Loaded>,
    rows: &mut Rows,
) {
    let Frame::OneWay { seat, .. } = &roof.frame else { return };
    let named = if rafters.pile.is_some() { &THINNEST } else { &LONGEST };
    match loaded.and_then(|loaded| rafter(roof, held, (loaded, seat.value), named, rows)) {
        Some((rafter, light)) => {
            rafter.strength(rows);
            rafter.sags(rows);
            Planks::noted(held, rows);
            opening::walk(house, rafters, &rafter, rows);
            let whole = OneWay { house, rafter: &rafter, light: &light, of: &Whose { stem: "", words: "a rafter" } };
            whole.seats(rows);
            side_rafter(rafters, &rafter, rows);
            beam::plate(house, rafters, (&rafter, whole.is_packed_anywhere().then_some(PACKED)), rows);
        }
        None => {
            not_known(held, rows);
            opening::not_known(house, &Factors::of(held), rows);
            beam::not_known(house, &Factors::of(held), rows);
        }
    }
}

fn not_known(held: &Held, rows: &mut Rows) {
    let factors = Factors::of(held);
    for noun in members::NOUNS {
        rows.not_known(
            format!("{}.{}", LONGEST.stem, factors.noun(noun)),
            format!("the longest rafter: {}", members::words(noun)),
        );
    }
    for (seat, name) in SEATS.iter().enumerate() {
        let title = format!("{name} seat of a rafter: bearing strength used");
        let path = |noun: &str| format!("roof.crossings.{}-seat.{}", SEATS[seat], factors.noun(noun));
        rows.not_known(path("bearing"), title);
        let title = format!("{name} seat of a rafter: share used of what its tie holds (its loads are not known)");
        rows.not_known(path("tie"), title);
    }
}

/// The longest rafter, from eave to eave over both plates: as thick as the pile is on the whole, or as thin at each end as the
/// thinnest of those that are measured. Beside it its answers with no more weight than it is thick.
fn rafter<'a>(
    roof: &Roof,
    held: &'a Held,
    (loaded, seat): (&Loaded, Length),
    named: &'a Named<'a>,
    rows: &mut Rows,
) -> Option<(Rafter<'a>, StraightAnswers)> {
    let Frame::OneWay { spacing, .. } = &roof.frame else { return None };
    let pitch: Angle = rows.value("roof.angle")?;
    let length: Length = rows.value("roof.poles.cut-length")?;
    let plates: Length = rows.value("roof.plate-along")?;
    let span = crate::roof::longest(plates, pitch).from("along", "roof.plate-along").from("pitch", "roof.angle");
    let span = rows.add("roof.poles.span", "span of the longest rafter from plate to plate, on the slope", span);
    let end = (length - span) * 0.5;
    let [butt, tip] = ENDS_THIN.map(|path| rows.value(path).unwrap_or(roof.diameter.value));
    let pole = Pole { length, butt, tip, bow: Length::ZERO, bow_turn: Angle::ZERO };
    let beam = Straight { pole, supports: vec![end, end + span], pitch, spacing: spacing.value };
    let factors = Factors::of(held);
    let light = wood(held, &factors, roof.density.value);
    let own = tapered_volume(butt, tip, length).value;
    let density = rows.value::<Mass>("roof.rafters.heaviest").map_or(light.density, |mass| mass / own);
    let heavy = wood(held, &factors, density.max(light.density));
    let extras: Vec<Extra> = loaded.pond.map(|pond| ponded(&beam, pond)).into_iter().collect();
    let count = extras.len();
    let [answers, lifted] = [&heavy, &light].map(|wood| beam.answers(wood, &extras));
    let (strength, sag) = (factors.strength(&loaded.loads, count), factors.sag(&loaded.loads, count));
    let (answers, pond, loads, wood) = (answers.ok()?, loaded.pond, loaded.loads, heavy);
    let bored = (Length::ZERO, "");
    Some((
        Rafter { named, held, beam, wood, light, pond, loads, answers, factors, strength, sag, seat, bored },
        lifted.ok()?,
    ))
}

/// The wood of a rafter as it is in its place.
pub(super) fn wood(held: &Held, factors: &Factors, density: Density) -> Wood {
    let values = &held.wood.values;
    Wood { young: values.stiffness.value * factors.wet("e"), shear: values.shear_stiffness.value, density }
}

/// What lifts the ends of the outermost rafter whose tails are longest, which carries half a bay and all of the eave beside it.
fn side_rafter(rafters: &Rafters, all: &Rafter<'_>, rows: &mut Rows) {
    let reach = |path: &str| rows.value::<Length>(path).unwrap_or(Length::ZERO);
    let (eave, plate) = (reach("roof.eave-across"), reach("roof.plate-across"));
    let strip = crate::roof::side_strip(plate, eave, rafters.places.len() as u64)
        .from("plate", "roof.plate-across")
        .from("eave", "roof.eave-across")
        .from("count", "roof.poles.count");
    let strip = rows.add(
        "roof.rafters.side-strip",
        "roof that an outermost rafter carries, half a bay and the eave beside it",
        strip,
    );
    let tails =
        |place: usize| ["low-tail", "span", "cut-length"].map(|noun| rows.value::<Length>(&Rafters::path(place, noun)));
    let last = rafters.places.len().saturating_sub(1);
    let long = |place: usize| tails(place)[0].map_or(0.0, Length::in_m);
    let place = if long(last) > long(0) { last } else { 0 };
    let [Some(low), Some(span), Some(length)] = tails(place) else { return };
    let pole = Pole { length, ..all.beam.pole };
    let beam = Straight { pole, supports: vec![low, low + span], pitch: all.beam.pitch, spacing: strip };
    let Ok(light) = beam.answers(&all.light, &[]) else { return };
    let (paths, lifting) = (["low-tail", "span", "cut-length"].map(|noun| Rafters::path(place, noun)), all.lifting());
    for (seat, name) in SEATS.iter().enumerate() {
        let Some(least) = light.lifted(seat, &lifting.combinations) else { continue };
        let governs = all.at(&lifting, least.combination);
        let lifts = paths.iter().fold(used::foot_force(least.value), |lifts, path| bind(lifts, rows, path));
        let lifts = bind(bind(lifts, rows, "roof.rafters.side-strip"), rows, "roof.angle");
        let lifts = all.named.thick.iter().fold(lifts, |lifts, path| bind(lifts, rows, path));
        let lifts = super::loads::bound(lifts, &lifting.acting[least.combination], rows);
        let title = format!(
            "rafter {}, along a side wall: what lifts its {name} end, and its tie must hold, under {governs}",
            place + 1
        );
        rows.add(format!("roof.crossings.side-{name}-seat.held-down"), title, lifts);
    }
}

/// Water behind the edge board on the low end of a rafter: a wedge, deepest at the board.
pub(super) fn ponded(beam: &Straight, (weight, reach): (LineLoad, Length)) -> Extra {
    let along = reach / beam.pitch.in_rad().cos();
    let most = weight * (2.0 * (beam.spacing / along));
    let wet = along.min(beam.pole.length);
    let down = [most, most * (1.0 - wet / along)];
    let load = OnPole::Line { pole: 0, span: [Length::ZERO, wet], down };
    Extra { name: "water behind the edge board".into(), loads: vec![load] }
}

impl OneWay<'_> {
    fn path(&self, seat: usize, noun: &str) -> String {
        format!("roof.crossings.{}{}-seat.{noun}", self.of.stem, SEATS[seat])
    }

    fn title(&self, seat: usize) -> String {
        format!("{} seat of {}", SEATS[seat], self.of.words)
    }

    /// The seats at a side: of each measured pole its own, which is the deeper the thicker it is.
    fn notches(&self, seat: usize, rows: &Rows) -> Vec<Notch> {
        let places = (0..).map(|place| Rafters::path(place, &format!("{}-seat", SEATS[seat])));
        let measured = places.map_while(|path| Some((rows.value::<Length>(&path)?, path)));
        let thin: Option<Length> = rows.value(&format!("roof.rafters.{}-at-seat", SEATS[seat]));
        let of = |(deep, path): (Length, String)| {
            // All stand as high over their seats as the thinnest.
            let diameter = thin.map_or(Length::ZERO, |thin| thin - self.rafter.seat + deep);
            Notch { diameter, seat: deep, path: Some(path) }
        };
        let all: Vec<Notch> = measured.map(of).collect();
        if !all.is_empty() {
            return all;
        }
        vec![Notch { diameter: self.rafter.over(seat), seat: self.rafter.seat, path: None }]
    }

    /// What each seat bears, how its notch is sheared, and what lifts it.
    fn seats(&self, rows: &mut Rows) {
        let strength = &self.rafter.strength;
        for (seat, at_seat) in AT_SEAT.into_iter().enumerate() {
            let Some(most) = self.rafter.answers.pressed(seat, &strength.combinations, &strength.durations) else {
                continue;
            };
            let governs = self.rafter.at(strength, most.combination);
            let press = self.rafter.forced(used::foot_force(most.value), (strength, most.combination), rows);
            let press = rows.add(
                self.path(seat, "up"),
                format!("{}: what it presses on its plate under {governs}", self.title(seat)),
                press,
            );
            let duration = strength.durations[most.combination];
            self.bears(seat, most.combination, rows);
            let strength = self.rafter.held.wood.values.shear.value * self.rafter.factors.wet("shear");
            let used = |notch: &Notch| self.notched(notch, (press, strength, duration)).value;
            let notches = self.notches(seat, rows);
            let worst = notches.iter().max_by(|a, b| used(a).in_fraction().total_cmp(&used(b).in_fraction()));
            let Some(worst) = worst else { continue };
            let share = self.notched(worst, (press, strength, duration));
            let share = bind(bind(share, rows, &self.path(seat, "up")), rows, "roof.seat");
            let share = match &worst.path {
                Some(path) => bind(bind(share, rows, path), rows, at_seat),
                None => self.rafter.named.thick.iter().fold(share, |share, path| bind(share, rows, path)),
            };
            let share = by_wood(share, "shear", rows);
            let title = format!("{}: shear strength used at the notch under {governs}", self.title(seat));
            rows.add(self.path(seat, &self.rafter.factors.noun("notch")), title, share);
            self.lifted(seat, rows);
        }
    }

    /// Share of its strength in shear that a notch uses under a force.
    fn notched(&self, notch: &Notch, (force, shear, duration): (Force, Pressure, f64)) -> Answer<Ratio> {
        let round = (notch.diameter, notch.seat, Length::ZERO);
        self.rafter.factors.notched(force, round, notch.diameter * 0.5, shear, duration)
    }

    /// How it and the beam bear on each other there; `up` is the combination of the row of that name.
    fn bears(&self, seat: usize, up: usize, rows: &mut Rows) {
        let (rafter, of) = (self.rafter, self.title(seat));
        let row = self.path(seat, &rafter.factors.noun("bearing"));
        let title = format!("{of}: bearing strength used");
        if self.is_packed(seat) {
            return rows.not_known(row, format!("{title} ({PACKED})"));
        }
        let (beam, planks) = (self.house.bond_beam.as_ref(), Planks::of(rafter.held, &rafter.strength));
        let (Some(beam), Some(planks)) = (beam, planks) else {
            return rows.not_known(row, title);
        };
        let (durations, width) = (&rafter.strength.durations, beam.width.value);
        let bearing = Bearing { held: rafter.held, factors: &rafter.factors, durations, planks: &planks, width };
        let most = |lasting: &[f64]| {
            let at = rafter.answers.pressed(seat, &rafter.strength.combinations, lasting)?;
            Some(Press { force: at.value, combination: at.combination, by: () })
        };
        let flat = section::seat_width(rafter.over(seat), rafter.seat).value;
        let [low, high] = [rafter.beam.supports[0], rafter.beam.pole.length - rafter.beam.supports[1]];
        let beyond = if seat == 0 { low } else { high } * rafter.beam.pitch.in_rad().cos();
        let Some((share, most, bears)) = bearing.more_used([flat, beyond], most) else { return };
        let by = (&rafter.strength, most.combination);
        let governs = rafter.at(&rafter.strength, most.combination);
        let noun = if most.combination == up && rafter.factors.code == Code::En {
            "up"
        } else {
            let press = rafter.forced(used::foot_force(most.force), by, rows);
            rows.add(
                self.path(seat, "borne"),
                format!("{of}: the most that it presses on its plate, under {governs}"),
                press,
            );
            "borne"
        };
        let [what, grain] = bears.words();
        let share = bearing.bound(share, &bears, rows).from("area", self.path(seat, "seat"));
        let share = bind(share, rows, &self.path(seat, noun));
        let area = bind(bind(bears.area, rows, "wall.bond-beam.width"), rows, "roof.seat");
        let area = rafter.named.thick.iter().fold(area, |area, path| bind(area, rows, path));
        rows.add(self.path(seat, "seat"), format!("{of}: area on which it bears{grain}"), area);
        rows.add(row, format!("{of}: bearing strength of {what} used under {governs}"), share);
    }

    /// Whether what carries the rafters between the side walls stands higher over wall or beam than their seats are deep: it is not
    /// written what that is.
    fn is_packed(&self, seat: usize) -> bool {
        let Some(Frame::OneWay { rafters, .. }) = self.house.roof.as_ref().map(|roof| &roof.frame) else {
            return false;
        };
        // The outermost two lie on their walls.
        let between = rafters.places.iter().filter(|one| !one.is_on_side);
        between.map(|one| one.packing[seat]).any(|high| high > self.rafter.seat)
    }

    fn is_packed_anywhere(&self) -> bool {
        (0..SEATS.len()).any(|seat| self.is_packed(seat))
    }

    fn lifted(&self, seat: usize, rows: &mut Rows) {
        let lifting = self.rafter.lifting();
        let Some(least) = self.light.lifted(seat, &lifting.combinations) else { return };
        let governs = self.rafter.at(&lifting, least.combination);
        let lifts = self.rafter.lifted(used::foot_force(least.value), (&lifting, least.combination), rows);
        let title = format!("{}: what lifts it, and its tie must hold, under {governs}", self.title(seat));
        rows.add(self.path(seat, "held-down"), title, lifts);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_water_behind_the_board_lies_on_the_low_ends_and_on_a_short_rafter_what_reaches_over_it() {
        let mm = Length::mm;
        let pole =
            Pole { length: Length::m(5.0), butt: mm(160.0), tip: mm(160.0), bow: mm(0.0), bow_turn: Angle::ZERO };
        let (supports, pitch) = (vec![mm(500.0), mm(4500.0)], Angle::deg(10.0));
        let beam = Straight { pole, supports, pitch, spacing: mm(600.0) };
        let laid = |reach: f64| {
            let extra = ponded(&beam, (LineLoad::n_m(400.0), Length::m(reach)));
            let [OnPole::Line { span: [from, to], down: [first, last], .. }] = extra.loads[..] else { panic!() };
            (first + last).in_n_m() * 0.5 * (to - from).in_m()
        };
        assert!((laid(0.8) - 240.0).abs() < 1e-9, "{}", laid(0.8));
        assert!(laid(8.0) < 240.0 && laid(8.0) > 120.0);
    }
}
