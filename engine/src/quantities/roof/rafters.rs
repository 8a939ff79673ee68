//! Rows of straight pole rafters that fall one way: what governs them over their two plates, their seats and their ties.

use super::super::line::bind;
use super::factors::Factors;
use super::loads::Loaded;
use super::members;
use super::opening;
use super::rafter::{Named, Rafter};
use crate::house::{Code, Frame, Held, House, Rafters, Roof};
use crate::roof::poles::{Pole, tapered_volume};
use crate::roof::standing::{Extra, OnPole, Straight, StraightAnswers, Wood};
use crate::row::Rows;
use crate::timber::{asd, section, used};
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
const ENDS_THIN: [&str; 2] = ["roof.rafters.low-thinnest", "roof.rafters.high-thinnest"];

/// A rafter, and the beam that it lies on.
struct OneWay<'a> {
    house: &'a House,
    rafter: &'a Rafter<'a>,
    /// The same, no heavier than it is thick: what lifts it finds the least weight.
    light: &'a StraightAnswers,
    /// What stands before the names of its seats.
    of: &'a str,
}

/// What each seat of a rafter bears, how its notch is sheared, and what lifts it; `of` stands before the names of its seats.
pub(super) fn seats(house: &House, (rafter, light): (&Rafter<'_>, &StraightAnswers), of: &str, rows: &mut Rows) {
    OneWay { house, rafter, light, of }.seats(rows);
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
            opening::walk(house, rafters, &rafter, rows);
            seats(house, (&rafter, &light), "", rows);
        }
        None => not_known(held, rows),
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
        let path = format!("roof.crossings.{}-seat.{}", SEATS[seat], factors.noun("bearing"));
        rows.not_known(path, title);
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
    let (answers, pond, wood) = (answers.ok()?, loaded.pond, heavy);
    Some((Rafter { named, held, beam, wood, light, pond, answers, factors, strength, sag, seat }, lifted.ok()?))
}

/// The wood of a rafter as it is in its place.
pub(super) fn wood(held: &Held, factors: &Factors, density: Density) -> Wood {
    let values = &held.wood.values;
    Wood { young: values.stiffness.value * factors.wet("e"), shear: values.shear_stiffness.value, density }
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
        format!("roof.crossings.{}{}-seat.{noun}", self.of, SEATS[seat])
    }

    fn title(&self, seat: usize) -> String {
        format!("{}{} seat of a rafter", self.of.replace('-', " "), SEATS[seat])
    }

    /// What each seat bears, how its notch is sheared, and what lifts it.
    fn seats(&self, rows: &mut Rows) {
        let strength = &self.rafter.strength;
        for seat in 0..SEATS.len() {
            let diameter = self.rafter.over(seat);
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
            match self.rafter.factors.code {
                Code::En => self.bears(seat, ("up", press, duration, &governs), rows),
                Code::Asce => self.bears_most(seat, rows),
            }
            let area = section::net_area(diameter, self.rafter.seat, Length::ZERO).value;
            let values = &self.rafter.held.wood.values;
            let shear = values.shear.value * self.rafter.factors.wet("shear");
            let kept = match self.rafter.factors.code {
                Code::En => {
                    let kn = crate::timber::tables::factor("kn").map_or(f64::NAN, |fact| fact.number);
                    let kept = crate::timber::eurocode::notch_factor(
                        diameter,
                        diameter - self.rafter.seat,
                        diameter * 0.5,
                        0.0,
                        kn,
                    );
                    used::notch_used(self.sheared(press, area, shear, duration), kept.value)
                }
                Code::Asce => {
                    let carried =
                        asd::notched_shear_of_round(shear * duration, area, diameter, diameter - self.rafter.seat)
                            .value;
                    used::notch_used(Ratio::fraction(press / carried), Ratio::fraction(1.0))
                }
            };
            let share = kept.without("shear used").without("kept");
            let share = bind(bind(share, rows, &self.path(seat, "up")), rows, "roof.seat");
            let share = self.rafter.named.thick.iter().fold(share, |share, path| bind(share, rows, path));
            let share = self.rafter.by_wood(share, "shear", rows);
            let title = format!("{}: shear strength used at the notch under {governs}", self.title(seat));
            rows.add(self.path(seat, &self.rafter.factors.noun("notch")), title, share);
            self.lifted(seat, rows);
        }
    }

    fn sheared(&self, force: Force, area: crate::units::Area, shear: Pressure, duration: f64) -> Ratio {
        used::shear_used(force, area, self.rafter.factors.uncracked, shear, duration, self.rafter.factors.partial).value
    }

    /// Allowable stress across the grain knows no duration: the greatest press of all counts.
    fn bears_most(&self, seat: usize, rows: &mut Rows) {
        let Some(most) = self.rafter.answers.pressed(seat, &self.rafter.strength.combinations, &[]) else { return };
        let governs = self.rafter.at(&self.rafter.strength, most.combination);
        let press = self.rafter.forced(used::foot_force(most.value), (&self.rafter.strength, most.combination), rows);
        let title = format!("{}: the most that it presses on its plate, under {governs}", self.title(seat));
        let press = rows.add(self.path(seat, "borne"), title, press);
        self.bears(seat, ("borne", press, 1.0, &governs), rows);
    }

    fn bears(&self, seat: usize, (noun, press, duration, governs): (&str, Force, f64, &str), rows: &mut Rows) {
        let title = format!("{}: bearing strength used under {governs}", self.title(seat));
        let row = self.path(seat, &self.rafter.factors.noun("bearing"));
        let Some(beam) = &self.house.bond_beam else {
            rows.not_known(row, title);
            return;
        };
        let width = section::seat_width(self.rafter.over(seat), self.rafter.seat).value;
        let area = crate::timber::eurocode::seat_area(beam.width.value, width).from("length", "wall.bond-beam.width");
        let area = bind(area.without("width"), rows, "roof.seat");
        let area = self.rafter.named.thick.iter().fold(area, |area, path| bind(area, rows, path));
        let area = rows.add(self.path(seat, "seat"), format!("{}: area on which it bears", self.title(seat)), area);
        let strength = self.rafter.held.wood.values.across.value * self.rafter.factors.wet("across");
        let share = used::seat_used(press, area, strength, 1.0, duration, self.rafter.factors.partial)
            .from("force", self.path(seat, noun))
            .from("area", self.path(seat, "seat"))
            .without("beside");
        let share = self.rafter.by_wood(share, "across", rows);
        rows.add(row, title, share);
    }

    fn lifted(&self, seat: usize, rows: &mut Rows) {
        let Some(least) = self.light.lifted(seat, &self.rafter.strength.combinations) else { return };
        let governs = self.rafter.at(&self.rafter.strength, least.combination);
        let lifts = self.rafter.lifted(used::foot_force(least.value), (&self.rafter.strength, least.combination), rows);
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
