//! Rows of how far off the middle of the bond beam a pole's load falls, and what it presses on the earth beneath.
//!
//! Feet that slide thrust little, and what they do is held against a rule. What thrust tips under feet that do not give depends on
//! what holds them, which is for an engineer: no limit is held against it.

use super::feet::FRICTION;
use super::seats::{Pressed, most};
use super::{Laid, path};
use crate::house::Code;
use crate::reason::Answer;
use crate::roof::beam::{self as ring, Answers};
use crate::row::{self, Rows};
use crate::rulebook::limit_of;
use crate::units::{Length, Pressure, Quantity, Ratio};

impl Laid<'_> {
    /// What a seat does to the beam and the earth with its foot free to slide; if it were held, in words.
    pub(super) fn on_earth(
        &self,
        place: usize,
        (on, sliding, held): (&str, &[Pressed], &[Pressed]),
        answers: &Answers,
        rows: &mut Rows,
    ) {
        let height = self.beam.height.value;
        let on_it: Vec<Pressed> = sliding.iter().copied().filter(|at| self.is_on(at)).collect();
        let beneath = most(&on_it, |at| self.pressure(at).in_pa());
        // Where something lifts the beam, its twist between the anchors holds what thrusts at its top, and a rule of twist counts it.
        let is_twist = |at: &Pressed| self.on.factors.code == Code::En && answers.is_held(at.group, at.combination);
        let alone: Vec<Pressed> = sliding.iter().copied().filter(|at| !is_twist(at)).collect();
        let farthest = most(&alone, |at| at.off(height).in_m());
        let falls_outside = farthest.as_ref().is_some_and(|at| !self.is_on(at));
        let beneath = beneath.filter(|_| !falls_outside);
        let held = self.pressure_if_held(held);
        match &beneath {
            Some(most) => self.beneath(place, (on, most, &held), rows),
            None => {
                let why = if sliding.is_empty() { "on which it never presses" } else { "off which its load falls" };
                let title = format!("{on}: pressure on the earth under the bond beam, {why}{held}");
                rows.not_known(self.row(place, "pressure"), title);
            }
        }
        if let Some(farthest) = farthest.as_ref().filter(|_| self.on.thrusts()) {
            self.tipping(place, (on, farthest, beneath.as_ref()), rows);
        }
    }

    pub(super) fn is_on(&self, at: &Pressed) -> bool {
        at.off(self.beam.height.value) < self.beam.width.value * 0.5
    }

    fn pressure(&self, at: &Pressed) -> Pressure {
        let (width, off) = (self.beam.width.value, at.off(self.beam.height.value));
        ring::bed_pressure(at.force, self.elastic[1], width, off).value
    }

    pub(super) fn shown(&self, quantity: impl Into<Quantity>) -> String {
        row::shown(quantity.into(), self.house.system)
    }

    /// What a seat would press on the earth if its foot were held, in words.
    fn pressure_if_held(&self, held: &[Pressed]) -> String {
        if held.iter().any(|at| !self.is_on(at)) {
            return "; if its foot were held, its load would fall off the beam".to_owned();
        }
        let most = held.iter().map(|at| self.pressure(at)).reduce(Pressure::max);
        most.map_or_else(String::new, |most| format!("; if its foot were held, {}", self.shown(most)))
    }

    /// How far off the middle of the beam a load falls.
    fn off(&self, (place, at): (usize, &Pressed), rows: &Rows) -> Answer<Length> {
        if let Some(friction) = self.friction.filter(|_| at.slips) {
            let off =
                ring::off_at_slip(friction, self.beam.height.value).from("height", self.beam.height.path.as_str());
            return off.from("friction", FRICTION);
        }
        let off = ring::off_middle(at.thrust.abs(), self.beam.height.value, at.force)
            .from("height", self.beam.height.path.as_str())
            .without("force")
            .without("thrust");
        self.loaded(off, (place, at), rows)
    }

    /// What presses on the earth beneath the beam.
    fn beneath(&self, place: usize, (on, most, held): (&str, &Pressed, &str), rows: &mut Rows) {
        let (width, under) = (self.beam.width.value, self.words(most));
        let off = if self.on.thrusts() {
            let title = format!("{on}: off the middle of the bond beam it presses on the earth, under {under}");
            rows.add(self.row(place, "off-middle"), title, self.off((place, most), rows))
        } else {
            Length::ZERO
        };
        let gapes = if off > width / 6.0 { " while the other gapes," } else { "" };
        let title = format!(
            "{on}: pressure on stiff earth under the edge of the bond beam, before it gives,{gapes} under {under}{held}"
        );
        let pressure = ring::bed_pressure(most.force, self.elastic[1], width, off)
            .from("elastic", path("stiff-length"))
            .from("width", self.beam.width.path.as_str())
            .without("force");
        let pressure = if self.on.thrusts() {
            let pressure = pressure.from("off", self.row(place, "off-middle"));
            if most.slips { self.loaded(pressure, (place, most), rows) } else { pressure }
        } else {
            self.loaded(pressure.without("off"), (place, most), rows)
        };
        rows.add(self.row(place, "pressure"), title, pressure);
    }

    /// How far off the middle of the beam a load falls at most, and what would do where that is too far.
    fn tipping(&self, place: usize, (on, most, noted): (&str, &Pressed, Option<&Pressed>), rows: &mut Rows) {
        let (width, under) = (self.beam.width.value, self.words(most));
        let off = most.off(self.beam.height.value);
        let share = ring::off_share(off, width).from("width", self.beam.width.path.as_str());
        let noun = if noted.is_some_and(|noted| noted.is_under(most)) {
            "off-middle"
        } else {
            let title = format!("{on}: farthest off the middle of the bond beam that it presses, under {under}");
            rows.add(self.row(place, "farthest"), title, self.off((place, most), rows));
            "farthest"
        };
        let share = share.from("off", self.row(place, noun));
        let limit = self.limit().filter(|limit| share.value > *limit);
        let title = if let Some(limit) = limit {
            let fault = if self.is_on(most) {
                format!("the pole's load falls {} off the middle of the bond beam, near its edge", self.shown(off))
            } else {
                let outside = self.shown(off - width * 0.5);
                format!("the pole's load falls {outside} outside of the bond beam: it tips, unless its twist holds it")
            };
            let wide = ring::width_needed(off, limit).from("off", self.row(place, noun)).without("limit");
            let would_do = self.would_do(place, (on, most), (wide, limit), rows);
            format!("{on}: {fault}; {would_do}; off the middle, of half the width")
        } else {
            format!("{on}: how far off the middle of the bond beam its load falls, of half its width")
        };
        rows.add(self.row(place, &self.on.factors.noun("tipping")), format!("{title}, under {under}"), share);
    }

    /// How far off the middle a rule of the house lets a load fall, of half the width.
    fn limit(&self) -> Option<Ratio> {
        let measured = path(&format!("seats.*.{}", self.on.factors.noun("tipping")));
        limit_of(&self.house.rulebooks, &measured)?.bound.si().map(Ratio::fraction)
    }

    /// What would keep a load near enough to the middle: a wider beam where the wall has room for it, or the seat elsewhere.
    fn would_do(
        &self,
        place: usize,
        (on, most): (&str, &Pressed),
        (wide, limit): (Answer<Length>, Ratio),
        rows: &mut Rows,
    ) -> String {
        if wide.value > self.house.wall.least_top_thickness() {
            let force = self.shown(most.force);
            return format!("it hardly presses there, with {force} alone: an anchor beside it or more weight would do");
        }
        // A seat moved by so much lets a load fall as much nearer to the middle.
        let by = (wide.value - self.beam.width.value) * (0.5 * limit.in_fraction());
        let title = format!("{on}: least width of the bond beam at which its load falls near enough to its middle");
        let wide = rows.add(self.row(place, "width-needed"), title, wide);
        let (wide, by, way) = (self.shown(wide), self.shown(by), most.way_back());
        format!("widen it to at least {wide} or move the seat {way} by at least {by}")
    }

    pub(super) fn farthest_if_held(&self, place: usize, (on, most): (&str, &Pressed), rows: &mut Rows) {
        let under = self.words(most);
        let title = format!("{on}: farthest off the middle of the bond beam that it would press, under {under}");
        rows.add(self.row(place, "held-farthest"), title, self.off((place, most), rows));
    }

    /// How far off the middle a load would fall if the feet were held: at the seat where it is the farthest.
    pub(super) fn tipping_if_held(&self, place: usize, most: &Pressed, rows: &mut Rows) {
        let share = ring::off_share(most.off(self.beam.height.value), self.beam.width.value)
            .from("off", self.row(place, "held-farthest"))
            .from("width", self.beam.width.path.as_str());
        let title =
            "how far off the middle of the bond beam its load would fall if its foot were held, of half its width";
        rows.add(
            path("held-tipping"),
            format!("{}: {title}, under {}", self.on.seats[place].on, self.words(most)),
            share,
        );
    }
}
