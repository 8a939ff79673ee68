//! Rows of each seat of a pole on the bond beam: how wood bears there across its grain, and what presses.

use kurbo::{Point, Vec2};

use super::{Laid, path};
use crate::quantities::line::bind;
use crate::quantities::roof::bearing::{Bearing, Press};
use crate::quantities::uneven::bind_once;
use crate::reason::Answer;
use crate::roof::beam::{self as ring, Answers};
use crate::roof::standing::Feet;
use crate::row::Rows;
use crate::units::{Angle, Force, Length};

/// That of all that presses on a seat which counts most; nothing where it never presses.
pub(super) fn most(all: &[Pressed], counts: impl Fn(&Pressed) -> f64) -> Option<Pressed> {
    all.iter().copied().max_by(|one, other| counts(one).total_cmp(&counts(other)))
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
        let mut worst: Option<(usize, Pressed)> = None;
        let mut pushes = Vec::new();
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

    pub(super) fn row(&self, place: usize, noun: &str) -> String {
        path(&format!("seats.{}.{noun}", self.on.seats[place].name))
    }

    /// Adds what a force on a seat follows from.
    pub(super) fn loaded<T>(&self, answer: Answer<T>, (place, at): (usize, &Pressed), rows: &Rows) -> Answer<T> {
        let answer = self.on.bound(answer, (at.group, at.combination), rows);
        self.on.seats[place].frame.iter().fold(answer, |answer, path| bind_once(answer, rows, path))
    }

    /// How pole and beam bear on each other: that of the two counts which uses more of its strength.
    fn bearing(&self, place: usize, (on, pressed): (&str, &[Pressed]), rows: &mut Rows) {
        let (seat, factors) = (&self.on.seats[place], self.on.factors);
        let (durations, width) = (&self.on.strength.durations, self.beam.width.value);
        let bearing = Bearing { held: self.on.held, factors, durations, planks: &self.planks, width };
        let of = |at: Pressed| Press { force: at.force, combination: at.combination, by: at };
        let most = |lasting: &[f64]| {
            most(pressed, |at| at.force.in_n() / lasting.get(at.combination).copied().unwrap_or(1.0)).map(of)
        };
        let Some((share, most, bears)) = bearing.more_used([self.on.flats[place], seat.beyond], most) else { return };
        let [what, grain] = bears.words();
        let title = format!("{on}: area on which it bears on the bond beam{grain}");
        let share = bearing.bound(share.from("area", self.row(place, "area")), &bears, rows);
        let area = bind(bears.area, rows, self.beam.width.path.as_str());
        let area = seat.shape.iter().fold(area, |area, path| bind_once(area, rows, path));
        rows.add(self.row(place, "area"), title, area);
        let title = format!("{on}: bearing strength of {what} used, under {}", self.words(&most.by));
        let share = self.loaded(share, (place, &most.by), rows);
        rows.add(self.row(place, &factors.noun("bearing")), title, share);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Ratio;

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
