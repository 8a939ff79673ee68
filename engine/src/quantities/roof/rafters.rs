//! Rows of straight pole rafters that fall one way: what governs them over their two plates, their seats and their ties.

use super::super::line::bind;
use super::factors::Factors;
use super::loads::Loaded;
use super::members;
use super::rafter::{Named, Rafter};
use crate::house::{Code, Frame, Held, House, Roof};
use crate::roof::poles::Pole;
use crate::roof::standing::{Extra, OnPole, Straight, Wood};
use crate::row::Rows;
use crate::timber::{asd, section, used};
use crate::units::{Angle, Force, Length, LineLoad, Pressure, Ratio};

const SEATS: [&str; 2] = ["low", "high"];

const LONGEST: Named = Named {
    stem: "roof.members.rafter",
    words: "longest rafter",
    seats: ["its low seat", "its high seat"],
    from: "its low end",
    frame: &["roof.poles.span", "roof.poles.cut-length", "roof.angle", "roof.spacing", "poles.diameter"],
    span: "roof.poles.span",
    diameter: "poles.diameter",
    seat: "roof.seat",
};

fn seat_path(seat: usize, noun: &str) -> String {
    format!("roof.crossings.{}-seat.{noun}", SEATS[seat])
}

/// The longest rafter, and the beam that it lies on.
struct OneWay<'a> {
    house: &'a House,
    rafter: Rafter<'a>,
}

pub(super) fn walk(house: &House, roof: &Roof, held: &Held, loaded: Option<&Loaded>, rows: &mut Rows) {
    let Frame::OneWay { seat, .. } = &roof.frame else { return };
    let seat = rows.known("how deep a rafter is let into its plates", seat);
    match loaded.and_then(|loaded| rafter(roof, held, (loaded, seat), rows)) {
        Some(rafter) => {
            rafter.strength(rows);
            rafter.sags(rows);
            OneWay { house, rafter }.seats(rows);
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
        rows.not_known(seat_path(seat, &factors.noun("bearing")), title);
    }
}

/// The longest rafter: from eave to eave over both plates, as thick as the pile is on the whole.
fn rafter<'a>(roof: &Roof, held: &'a Held, (loaded, seat): (&Loaded, Length), rows: &mut Rows) -> Option<Rafter<'a>> {
    let Frame::OneWay { spacing, .. } = &roof.frame else { return None };
    let pitch: Angle = rows.value("roof.angle")?;
    let length: Length = rows.value("roof.poles.cut-length")?;
    let plates: Length = rows.value("roof.plate-along")?;
    let span = crate::roof::longest(plates, pitch).from("along", "roof.plate-along").from("pitch", "roof.angle");
    let span = rows.add("roof.poles.span", "span of the longest rafter from plate to plate, on the slope", span);
    let end = (length - span) * 0.5;
    let diameter = roof.diameter.value;
    let pole = Pole { length, butt: diameter, tip: diameter, bow: Length::ZERO, bow_turn: Angle::ZERO };
    let beam = Straight { pole, supports: vec![end, end + span], pitch, spacing: spacing.value };
    let values = &held.wood.values;
    let factors = Factors::of(held);
    let wood = Wood {
        young: values.stiffness.value * factors.wet("e"),
        shear: values.shear_stiffness.value,
        density: roof.density.value,
    };
    let extras: Vec<Extra> = loaded.pond.map(|pond| ponded(&beam, pond)).into_iter().collect();
    let count = extras.len();
    let answers = beam.answers(&wood, &extras).ok()?;
    let (strength, sag) = (factors.strength(&loaded.loads, count), factors.sag(&loaded.loads, count));
    Some(Rafter { named: &LONGEST, held, beam, answers, factors, strength, sag, seat })
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
    /// What each seat bears, how its notch is sheared, and what lifts it.
    fn seats(&self, rows: &mut Rows) {
        let strength = &self.rafter.strength;
        let diameter = self.rafter.beam.pole.butt;
        for (seat, name) in SEATS.into_iter().enumerate() {
            let Some(most) = self.rafter.answers.pressed(seat, &strength.combinations, &strength.durations) else {
                continue;
            };
            let governs = self.rafter.at(strength, most.combination);
            let press = self.rafter.forced(used::foot_force(most.value), (strength, most.combination), rows);
            let press = rows.add(
                seat_path(seat, "up"),
                format!("{name} seat of a rafter: what it presses on its plate under {governs}"),
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
            let share = [seat_path(seat, "up"), "roof.seat".into(), "poles.diameter".into()]
                .iter()
                .fold(share, |share, path| bind(share, rows, path));
            let share = self.rafter.by_wood(share, "shear", rows);
            let title = format!("{name} seat of a rafter: shear strength used at the notch under {governs}");
            rows.add(seat_path(seat, &self.rafter.factors.noun("notch")), title, share);
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
        let title = format!("{} seat of a rafter: the most that it presses on its plate, under {governs}", SEATS[seat]);
        let press = rows.add(seat_path(seat, "borne"), title, press);
        self.bears(seat, ("borne", press, 1.0, &governs), rows);
    }

    fn bears(&self, seat: usize, (noun, press, duration, governs): (&str, Force, f64, &str), rows: &mut Rows) {
        let title = format!("{} seat of a rafter: bearing strength used under {governs}", SEATS[seat]);
        let row = seat_path(seat, &self.rafter.factors.noun("bearing"));
        let Some(beam) = &self.house.bond_beam else {
            rows.not_known(row, title);
            return;
        };
        let width = section::seat_width(self.rafter.beam.pole.butt, self.rafter.seat).value;
        let area = crate::timber::eurocode::seat_area(beam.width.value, width).from("length", "wall.bond-beam.width");
        let area =
            ["roof.seat", "poles.diameter"].iter().fold(area.without("width"), |area, path| bind(area, rows, path));
        let area = rows.add(
            seat_path(seat, "seat"),
            format!("{} seat of a rafter: area on which it bears", SEATS[seat]),
            area,
        );
        let strength = self.rafter.held.wood.values.across.value * self.rafter.factors.wet("across");
        let share = used::seat_used(press, area, strength, 1.0, duration, self.rafter.factors.partial)
            .from("force", seat_path(seat, noun))
            .from("area", seat_path(seat, "seat"))
            .without("beside");
        let share = self.rafter.by_wood(share, "across", rows);
        rows.add(row, title, share);
    }

    fn lifted(&self, seat: usize, rows: &mut Rows) {
        let Some(least) = self.rafter.answers.lifted(seat, &self.rafter.strength.combinations) else { return };
        let governs = self.rafter.at(&self.rafter.strength, least.combination);
        let lifts = self.rafter.forced(used::foot_force(least.value), (&self.rafter.strength, least.combination), rows);
        let title = format!("{} seat of a rafter: what lifts it, and its tie must hold, under {governs}", SEATS[seat]);
        rows.add(seat_path(seat, "held-down"), title, lifts);
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
