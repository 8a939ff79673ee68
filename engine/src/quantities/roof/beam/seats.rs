//! Rows of each seat of a pole on the bond beam: how wood bears there across its grain, and what presses.

use kurbo::{Point, Vec2};

use super::{Laid, path};
use crate::house::Code;
use crate::quantities::line::bind;
use crate::reason::Answer;
use crate::roof::beam::{self as ring, Answers};
use crate::roof::standing::Feet;
use crate::row::Rows;
use crate::timber::tables::factor;
use crate::timber::{eurocode, used};
use crate::units::{Angle, Area, Force, Length, Pressure, Ratio};

/// That of all that presses on a seat which counts most; nothing where it never presses.
pub(super) fn most(all: &[Pressed], counts: impl Fn(&Pressed) -> f64) -> Option<Pressed> {
    all.iter().copied().max_by(|one, other| counts(one).total_cmp(&counts(other)))
}

pub(super) fn row(place: usize, noun: &str) -> String {
    path(&format!("seats.{}.{noun}", place + 1))
}

/// What presses on a seat, under what; its thrust is that across the beam, outwards above zero.
#[derive(Clone, Copy)]
pub(super) struct Pressed {
    pub force: Force,
    pub thrust: Force,
    pub combination: usize,
    pub group: usize,
    /// Whether its foot is about to slip, so that it thrusts no more.
    pub slips: bool,
}

/// One of the two that bear on each other at a seat.
struct Bears<'a> {
    is_pole: bool,
    area: Answer<Area>,
    strength: Pressure,
    durations: &'a [f64],
}

fn of_code(name: &str) -> f64 {
    factor(name).map_or(f64::NAN, |fact| fact.number)
}

impl Pressed {
    /// What a pole does to its seat along x, along y and up, where outwards is so; nothing where it lifts.
    fn of([x, y, up]: [f64; 3], out: Vec2, (group, combination): (usize, usize)) -> Option<Pressed> {
        let thrust = Force::n(x * out.x + y * out.y);
        (up < 0.0).then_some(Pressed { force: Force::n(-up), thrust, combination, group, slips: false })
    }

    /// The same with its thrust at most that at which the foot slips.
    fn up_to_slip(self, friction: Angle) -> Pressed {
        let most = ring::foot_push(friction, self.thrust, self.force).value;
        let slips = most < self.thrust.abs();
        let thrust = if self.thrust < Force::ZERO { -most } else { most };
        Pressed { thrust, slips, ..self }
    }

    pub fn off(&self, height: Length) -> Length {
        ring::off_middle(self.thrust.abs(), height, self.force).value
    }

    pub fn is_under(&self, other: &Pressed) -> bool {
        self.slips && other.slips || (self.combination, self.group) == (other.combination, other.group)
    }

    /// Which way a seat is moved so that the load falls nearer to the middle.
    pub fn way_back(&self) -> &'static str {
        if self.thrust > Force::ZERO { "inwards" } else { "outwards" }
    }
}

impl Laid<'_> {
    pub(super) fn seats(&self, answers: &Answers, rows: &mut Rows) {
        let height = self.beam.height.value;
        let (mut worst, mut pushes): (Option<(usize, Pressed)>, Vec<(usize, Pressed)>) = (None, Vec::new());
        for (place, seat) in self.on.seats.iter().enumerate() {
            let on = &seat.on;
            let pressed = self.pressed(answers, place);
            self.bearing(place, (on, &pressed), rows);
            let is_sliding = |at: &Pressed| self.on.groups[at.group].feet == Feet::Sliding;
            let (free, held): (Vec<Pressed>, Vec<Pressed>) = match self.friction {
                // What a foot thrusts that may slip lies between nothing and its friction.
                Some(friction) => (pressed.into_iter().map(|at| at.up_to_slip(friction)).collect(), Vec::new()),
                None => pressed.into_iter().partition(is_sliding),
            };
            self.on_earth(place, (on, &free, &held), answers, rows);
            self.eased(place, (on, &free), rows);
            pushes.extend(free.iter().map(|at| (place, *at)));
            let Some(held) = most(&held, |at| at.off(height).in_m()) else { continue };
            self.farthest_if_held(place, (on, &held), rows);
            if worst.is_none_or(|(_, worst)| held.off(height) > worst.off(height)) {
                worst = Some((place, held));
            }
        }
        if let Some((place, worst)) = worst {
            self.tipping_if_held(place, &worst, rows);
        }
        self.feet(&pushes, rows);
    }

    /// All that presses on a seat.
    fn pressed(&self, answers: &Answers, place: usize) -> Vec<Pressed> {
        let at = self.on.seats[place].at;
        // The line goes round to the left, so that outwards is to its right.
        let out = -self.house.wall.line.nearest(Point::new(at[0].in_m(), at[1].in_m())).axis.turn_90();
        let (groups, count) = (answers.sums.iter().enumerate(), self.on.strength.combinations.len());
        let all = groups.flat_map(|(group, sums)| {
            sums.iter().take(count).enumerate().map(move |(at, sums)| (sums[place], (group, at)))
        });
        all.filter_map(|(sum, under)| Pressed::of(sum, out, under)).collect()
    }

    pub(super) fn words(&self, at: &Pressed) -> String {
        if at.slips {
            return format!("{}, its foot about to slip", self.on.strength.acting[at.combination].name());
        }
        self.on.words((at.group, at.combination))
    }

    /// Adds the ring of poles and its loads.
    pub(super) fn loaded<T>(&self, answer: Answer<T>, at: &Pressed, rows: &Rows) -> Answer<T> {
        self.on.bound(answer, (at.group, at.combination), rows)
    }

    /// How pole and beam bear on each other, across the grain of both: that of the two counts which uses more of its strength.
    fn bearing(&self, place: usize, (on, pressed): (&str, &[Pressed]), rows: &mut Rows) {
        let (factors, values) = (self.on.factors, &self.on.held.wood.values);
        let lasting = |bears: &Bears<'_>, at: &Pressed| {
            if factors.code == Code::En { bears.durations[at.combination] } else { 1.0 }
        };
        let share = |bears: &Bears<'_>, at: &Pressed| {
            let (area, duration) = (bears.area.value, lasting(bears, at));
            used::seat_used(at.force, area, bears.strength, of_code("kc90-none"), duration, factors.partial)
        };
        let both = self.both(place, rows).into_iter().filter_map(|bears| {
            let most = most(pressed, |at| at.force.in_n() / lasting(&bears, at))?;
            Some((share(&bears, &most), most, bears))
        });
        let more = both.max_by(|(one, ..), (other, ..)| one.value.in_fraction().total_cmp(&other.value.in_fraction()));
        let Some((share, most, bears)) = more else { return };
        let [what, grain] = if bears.is_pole {
            ["the pole on the bond beam", ", along the grain of the pole"]
        } else {
            ["the bond beam", ""]
        };
        let title = format!("{on}: area on which it bears on the bond beam{grain}");
        rows.add(row(place, "area"), title, bears.area);
        let title = format!("{on}: bearing strength of {what} used, under {}", self.words(&most));
        let dropped = ["force", "strength", "beside", "duration", "partial"];
        let share: Answer<Ratio> = dropped.iter().fold(share, |share, name| share.without(name));
        let share = share.from("area", row(place, "area"));
        let share = if bears.is_pole {
            bind(bind(share, rows, &values.across.path), rows, "poles.damp")
        } else {
            self.planks.bound(share, "across", rows)
        };
        let share = self.loaded(share, &most, rows);
        rows.add(row(place, &factors.noun("bearing")), title, share);
    }

    /// The pole and the planks at a seat, each with what helps beside it along its own grain: along the beam for the planks, across it
    /// for the pole, outwards no more than lies there to its end.
    fn both(&self, place: usize, rows: &Rows) -> [Bears<'_>; 2] {
        let (flat, width, factors) = (self.on.flats[place], self.beam.width.value, self.on.factors);
        let seat = &self.on.seats[place];
        let most = if factors.code == Code::En { Length::m(of_code("contact-more-m")) } else { Length::ZERO };
        let outwards = (seat.beyond - width * 0.5).max(Length::ZERO).min(most);
        let along_pole = eurocode::seat_area(width + most.min(width) + outwards, flat);
        let along_beam = eurocode::seat_area(flat + most.min(flat) * 2.0, width);
        let bound = |area: Answer<Area>| {
            let area = bind(area.without("length").without("width"), rows, self.beam.width.path.as_str());
            seat.shape.iter().fold(area, |area, path| bind(area, rows, path))
        };
        let of_pole = self.on.held.wood.values.across.value * factors.wet("across");
        let durations = &self.on.strength.durations;
        let pole = Bears { is_pole: true, area: bound(along_pole), strength: of_pole, durations };
        let (strength, durations) = (self.planks.strength("across"), &self.planks.durations);
        [pole, Bears { is_pole: false, area: bound(along_beam), strength, durations }]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_seat_by_hand_thrusts_outwards_and_inwards_and_falls_as_far_off_either_way() {
        // Outwards is along x: 300 N at the top of 100 mm tip what 1000 N press by 30 mm, which is 30 % of half of 200 mm.
        let out = Vec2::new(1.0, 0.0);
        let [outwards, inwards] =
            [300.0, -300.0].map(|thrust| Pressed::of([thrust, 40.0, -1000.0], out, (0, 0)).unwrap());
        assert_eq!([outwards, inwards].map(|at| at.thrust.in_n()), [300.0, -300.0]);
        assert_eq!([outwards, inwards].map(|at| at.way_back()), ["inwards", "outwards"]);
        for at in [outwards, inwards] {
            let off = at.off(Length::mm(100.0));
            assert!((off.in_m() - 0.030).abs() < 1e-12);
            let share = ring::off_share(off, Length::mm(200.0)).value.in_fraction();
            assert!((share - 0.30).abs() < 1e-12);
            assert!((ring::width_needed(off, Ratio::fraction(2.0 / 3.0)).value.in_m() - 0.090).abs() < 1e-12);
        }
        assert!(Pressed::of([300.0, 0.0, 1000.0], out, (0, 0)).is_none());
    }
}
