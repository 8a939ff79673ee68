//! Rows of straight pole rafters that fall one way: what governs them over their two plates, their seats and their ties.

use super::super::line::bind;
use super::factors::{Factors, Lasts};
use super::hold::left;
use super::loads::{self, Loaded};
use super::members;
use crate::house::{Code, Frame, Held, House, Roof};
use crate::reason::Answer;
use crate::roof::poles::Pole;
use crate::roof::standing::{Extra, Lasting, OnPole, Straight, StraightAnswers, Used, Wood};
use crate::row::Rows;
use crate::timber::{asd, section, stress, used};
use crate::units::{Angle, Force, Length, LineLoad, Pressure, Ratio};

const SEATS: [&str; 2] = ["low", "high"];

fn path(noun: &str) -> String {
    format!("roof.members.rafter.{noun}")
}

fn seat_path(seat: usize, noun: &str) -> String {
    format!("roof.crossings.{}-seat.{noun}", SEATS[seat])
}

/// The longest rafter as a beam, with its answers.
struct Rafter<'a> {
    house: &'a House,
    held: &'a Held,
    beam: Straight,
    answers: StraightAnswers,
    factors: Factors,
    strength: Lasts,
    sag: Lasts,
    seat: Length,
}

pub(super) fn walk(house: &House, roof: &Roof, held: &Held, loaded: Option<&Loaded>, rows: &mut Rows) {
    let Frame::OneWay { seat, .. } = &roof.frame else { return };
    let seat = rows.known("how deep a rafter is let into its plates", seat);
    match loaded.and_then(|loaded| rafter(house, roof, held, (loaded, seat), rows)) {
        Some(rafter) => {
            rafter.strength(rows);
            rafter.sags(rows);
            rafter.seats(rows);
        }
        None => not_known(held, rows),
    }
}

fn not_known(held: &Held, rows: &mut Rows) {
    let factors = Factors::of(held);
    for noun in members::NOUNS {
        rows.not_known(path(&factors.noun(noun)), format!("the longest rafter: {}", members::words(noun)));
    }
    for (seat, name) in SEATS.iter().enumerate() {
        let title = format!("{name} seat of a rafter: bearing strength used");
        rows.not_known(seat_path(seat, &factors.noun("bearing")), title);
    }
}

/// The longest rafter: from eave to eave over both plates, as thick as the pile is on the whole.
fn rafter<'a>(
    house: &'a House,
    roof: &Roof,
    held: &'a Held,
    (loaded, seat): (&Loaded, Length),
    rows: &mut Rows,
) -> Option<Rafter<'a>> {
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
    Some(Rafter { house, held, beam, answers, factors, strength, sag, seat })
}

/// Water behind the edge board on the low end of a rafter: a wedge, deepest at the board.
fn ponded(beam: &Straight, (weight, reach): (LineLoad, Length)) -> Extra {
    let along = reach / beam.pitch.in_rad().cos();
    let most = weight * (2.0 * (beam.spacing / along));
    let wet = along.min(beam.pole.length);
    let down = [most, most * (1.0 - wet / along)];
    let load = OnPole::Line { pole: 0, span: [Length::ZERO, wet], down };
    Extra { name: "water behind the edge board".into(), loads: vec![load] }
}

impl Rafter<'_> {
    fn at(&self, lasts: &Lasts, combination: usize) -> String {
        lasts.acting[combination].name()
    }

    /// Adds what every force in a rafter follows from.
    fn forced<T>(&self, answer: Answer<T>, (lasts, combination): (&Lasts, usize), rows: &Rows) -> Answer<T> {
        let frame = ["roof.poles.span", "roof.poles.cut-length", "roof.angle", "roof.spacing", "poles.diameter"];
        let answer = frame.iter().fold(answer, |answer, path| bind(answer, rows, path));
        loads::bound(answer, &lasts.acting[combination], rows)
    }

    fn strength(&self, rows: &mut Rows) {
        let (span, diameter) = (self.beam.supports[1] - self.beam.supports[0], self.beam.pole.butt);
        let bears = self.factors.bears(self.held, &self.strength.durations, span, diameter);
        let under = Lasting { combinations: &self.strength.combinations, bears: &bears };
        let seats = [left(diameter, self.seat, Length::ZERO); 2];
        let worst = self.beam.worst(&self.answers, &seats, &under);
        if let Some(most) = &worst.bending {
            self.bending(most, rows);
        }
        if let Some(most) = &worst.shear {
            self.shear(most, rows);
        }
        if let Some(most) = &worst.compression {
            self.along(most, "compression", rows);
        }
        if let Some(most) = &worst.tension {
            self.along(most, "tension", rows);
        }
    }

    fn governs(&self, most: &Used) -> String {
        let near = |at: Length| (most.section.along - at).in_m().abs() < 1e-6;
        let at = match self.beam.supports.iter().position(|at| near(*at)) {
            Some(seat) => format!("at its {} seat", SEATS[seat]),
            None => format!("{:.2} m from its low end", most.section.along.in_m()),
        };
        format!("{at}, under {}", self.at(&self.strength, most.combination))
    }

    fn section<T>(&self, answer: Answer<T>, most: &Used, rows: &Rows) -> Answer<T> {
        let answer = bind(answer, rows, "poles.diameter");
        if most.is_cut { bind(answer, rows, "roof.seat") } else { answer }
    }

    fn by_wood(&self, share: Answer<Ratio>, noun: &str, rows: &Rows) -> Answer<Ratio> {
        let share = share.without("strength").without("duration").without("partial");
        bind(bind(share, rows, &format!("poles.strength.{noun}")), rows, "poles.damp")
    }

    fn bending(&self, most: &Used, rows: &mut Rows) {
        let governs = self.governs(most);
        let by = (&self.strength, most.combination);
        let moment = self.forced(used::governing_moment(most.moment), by, rows);
        let moment = self.section(moment, most, rows);
        rows.add(path("moment"), format!("longest rafter: moment {governs}"), moment);
        let modulus = self.section(used::governing_modulus(most.left.upright), most, rows);
        rows.add(path("modulus"), "longest rafter: section modulus there", modulus);
        let strength = self.held.wood.values.bending.value * self.factors.wet("bending");
        let duration = self.strength.durations[most.combination];
        let share = used::bending_used(most.moment, most.left.upright, strength, duration, self.factors.partial)
            .from("moment", path("moment"))
            .from("modulus", path("modulus"));
        let share = self.by_wood(share, "bending", rows);
        let title = format!("longest rafter: {} {governs}", members::words("bending"));
        rows.add(path(&self.factors.noun("bending")), title, share);
    }

    fn shear(&self, most: &Used, rows: &mut Rows) {
        let governs = self.governs(most);
        let [one, other] = most.section.shear;
        let across = used::governing_shear(one, other).without("upright").without("sideways");
        let across = self.forced(across, (&self.strength, most.combination), rows);
        let across = rows.add(path("shear-force"), format!("longest rafter: force across it {governs}"), across);
        let strength = self.held.wood.values.shear.value * self.factors.wet("shear");
        let duration = self.strength.durations[most.combination];
        let (uncracked, partial) = (self.factors.uncracked, self.factors.partial);
        let share = used::shear_used(across, most.left.area, uncracked, strength, duration, partial)
            .from("shear", path("shear-force"))
            .without("area")
            .without("uncracked");
        let share = self.section(self.by_wood(share, "shear", rows), most, rows);
        let title = format!("longest rafter: {} {governs}", members::words("shear"));
        rows.add(path(&self.factors.noun("shear")), title, share);
    }

    /// Where it is pushed or pulled along the grain, and bent.
    fn along(&self, most: &Used, noun: &str, rows: &mut Rows) {
        let governs = self.governs(most);
        let force = most.section.pull;
        let (row, answer) = if noun == "tension" {
            ("pull", used::governing_pull(force))
        } else {
            ("push", used::governing_push(-force))
        };
        let answer = self.forced(answer, (&self.strength, most.combination), rows);
        let words = members::words(noun);
        rows.add(path(row), format!("longest rafter: {row} along it {governs}"), answer);
        let share = self.section(self.shared(most, noun), most, rows);
        let more = ["roof.poles.span", "poles.strength.bending", "poles.strength.low-stiffness"];
        let more = if noun == "tension" { &more[1..2] } else { &more[..] };
        let share = more.iter().fold(bind(share, rows, &path(row)), |share, path| bind(share, rows, path));
        let share = self.by_wood(share, noun, rows);
        let share = loads::bound(share, &self.strength.acting[most.combination], rows);
        rows.add(path(&self.factors.noun(noun)), format!("longest rafter: {words} {governs}"), share);
    }

    fn shared(&self, most: &Used, noun: &str) -> Answer<Ratio> {
        let (factors, values) = (&self.factors, &self.held.wood.values);
        let (duration, partial) = (self.strength.durations[most.combination], factors.partial);
        let bending = values.bending.value * factors.wet("bending");
        let bent = used::bending_used(most.moment, most.left.upright, bending, duration, partial).value;
        let (force, area) = (most.section.pull, most.left.area);
        let share = if noun == "tension" {
            used::pulled_and_bent(force, area, values.tension.value * factors.wet("tension"), bent, duration, partial)
        } else {
            let (span, diameter) = (self.beam.supports[1] - self.beam.supports[0], self.beam.pole.butt);
            let (kept, buckling) = factors.column(self.held, span, diameter, duration);
            let strength = values.compression.value * factors.wet("compression");
            match buckling {
                None => used::pushed_and_bent(-force, area, kept, strength, bent, duration, partial),
                Some(buckling) => {
                    let strength = strength * (duration * kept.in_fraction());
                    used::pushed_and_bent_further(-force, area, strength, buckling, bent)
                }
            }
        };
        let inputs = ["pull", "push", "area", "kept", "strength", "bending used", "duration", "partial", "buckling"];
        inputs.iter().fold(share, |share, name| share.without(name))
    }

    fn sags(&self, rows: &mut Rows) {
        let Ok(most) = self.answers.envelope(&self.sag.combinations) else { return };
        let Some(sag) = most.sags.first() else { return };
        let governs = self.at(&self.sag, sag.combination);
        let sags = self.forced(used::sag_in_the_end(sag.value), (&self.sag, sag.combination), rows);
        let sags = bind(bind(sags, rows, "poles.strength.stiffness"), rows, "poles.damp");
        rows.add(path("sags"), format!("longest rafter: sag in its middle, in the end, under {governs}"), sags);
        let span = self.beam.supports[1] - self.beam.supports[0];
        let share = stress::sag_of_span(sag.value, span).from("sag", path("sags")).from("span", "roof.poles.span");
        let title = format!("longest rafter: {}", members::words("sag"));
        rows.add(path(&self.factors.noun("sag")), title, share);
    }

    /// What each seat bears, how its notch is sheared, and what lifts it.
    fn seats(&self, rows: &mut Rows) {
        let strength = &self.strength;
        let diameter = self.beam.pole.butt;
        for (seat, name) in SEATS.into_iter().enumerate() {
            let Some(most) = self.answers.pressed(seat, &strength.combinations, &strength.durations) else { continue };
            let governs = self.at(strength, most.combination);
            let press = self.forced(used::foot_force(most.value), (strength, most.combination), rows);
            let press = rows.add(
                seat_path(seat, "up"),
                format!("{name} seat of a rafter: what it presses on its plate under {governs}"),
                press,
            );
            let duration = strength.durations[most.combination];
            match self.factors.code {
                Code::En => self.bears(seat, ("up", press, duration, &governs), rows),
                Code::Asce => self.bears_most(seat, rows),
            }
            let area = section::net_area(diameter, self.seat, Length::ZERO).value;
            let values = &self.held.wood.values;
            let shear = values.shear.value * self.factors.wet("shear");
            let kept = match self.factors.code {
                Code::En => {
                    let kn = crate::timber::tables::factor("kn").map_or(f64::NAN, |fact| fact.number);
                    let kept =
                        crate::timber::eurocode::notch_factor(diameter, diameter - self.seat, diameter * 0.5, 0.0, kn);
                    used::notch_used(self.sheared(press, area, shear, duration), kept.value)
                }
                Code::Asce => {
                    let carried =
                        asd::notched_shear_of_round(shear * duration, area, diameter, diameter - self.seat).value;
                    used::notch_used(Ratio::fraction(press / carried), Ratio::fraction(1.0))
                }
            };
            let share = kept.without("shear used").without("kept");
            let share = [seat_path(seat, "up"), "roof.seat".into(), "poles.diameter".into()]
                .iter()
                .fold(share, |share, path| bind(share, rows, path));
            let share = self.by_wood(share, "shear", rows);
            let title = format!("{name} seat of a rafter: shear strength used at the notch under {governs}");
            rows.add(seat_path(seat, &self.factors.noun("notch")), title, share);
            self.lifted(seat, rows);
        }
    }

    fn sheared(&self, force: Force, area: crate::units::Area, shear: Pressure, duration: f64) -> Ratio {
        used::shear_used(force, area, self.factors.uncracked, shear, duration, self.factors.partial).value
    }

    /// Allowable stress across the grain knows no duration: the greatest press of all counts.
    fn bears_most(&self, seat: usize, rows: &mut Rows) {
        let Some(most) = self.answers.pressed(seat, &self.strength.combinations, &[]) else { return };
        let governs = self.at(&self.strength, most.combination);
        let press = self.forced(used::foot_force(most.value), (&self.strength, most.combination), rows);
        let title = format!("{} seat of a rafter: the most that it presses on its plate, under {governs}", SEATS[seat]);
        let press = rows.add(seat_path(seat, "borne"), title, press);
        self.bears(seat, ("borne", press, 1.0, &governs), rows);
    }

    fn bears(&self, seat: usize, (noun, press, duration, governs): (&str, Force, f64, &str), rows: &mut Rows) {
        let title = format!("{} seat of a rafter: bearing strength used under {governs}", SEATS[seat]);
        let row = seat_path(seat, &self.factors.noun("bearing"));
        let Some(beam) = &self.house.bond_beam else {
            rows.not_known(row, title);
            return;
        };
        let width = section::seat_width(self.beam.pole.butt, self.seat).value;
        let area = crate::timber::eurocode::seat_area(beam.width.value, width).from("length", "wall.bond-beam.width");
        let area =
            ["roof.seat", "poles.diameter"].iter().fold(area.without("width"), |area, path| bind(area, rows, path));
        let area = rows.add(
            seat_path(seat, "seat"),
            format!("{} seat of a rafter: area on which it bears", SEATS[seat]),
            area,
        );
        let strength = self.held.wood.values.across.value * self.factors.wet("across");
        let share = used::seat_used(press, area, strength, 1.0, duration, self.factors.partial)
            .from("force", seat_path(seat, noun))
            .from("area", seat_path(seat, "seat"))
            .without("beside");
        let share = self.by_wood(share, "across", rows);
        rows.add(row, title, share);
    }

    fn lifted(&self, seat: usize, rows: &mut Rows) {
        let Some(least) = self.answers.lifted(seat, &self.strength.combinations) else { return };
        let governs = self.at(&self.strength, least.combination);
        let lifts = self.forced(used::foot_force(least.value), (&self.strength, least.combination), rows);
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
