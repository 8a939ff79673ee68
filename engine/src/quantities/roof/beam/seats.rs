//! Rows of each seat of a pole on the bond beam, of what it presses on the earth beneath, and of each anchor.

use kurbo::Point;

use super::{Laid, OUT, path, unknown};
use crate::house::{Anchors, Code, Ring};
use crate::quantities::line::bind;
use crate::quantities::roof::members;
use crate::reason::Answer;
use crate::roof::beam::{self as ring, Answers, Lifted};
use crate::row::{self, Rows};
use crate::timber::tables::factor;
use crate::timber::{beam as timber, eurocode, used};
use crate::units::{Force, Length, Ratio};

/// That of all that presses on a seat which counts most; nothing where it never presses.
fn most(all: &[Pressed], counts: impl Fn(&Pressed) -> f64) -> Option<Pressed> {
    all.iter().copied().max_by(|one, other| counts(one).total_cmp(&counts(other)))
}

fn row(place: usize, noun: &str) -> String {
    path(&format!("seats.{}.{noun}", place + 1))
}

/// What presses on a seat, under what; its thrust is that across the beam, outwards above zero.
#[derive(Clone, Copy)]
struct Pressed {
    force: Force,
    thrust: Force,
    combination: usize,
    group: usize,
}

fn of_code(name: &str) -> f64 {
    factor(name).map_or(f64::NAN, |fact| fact.number)
}

impl Pressed {
    fn off(&self, height: Length) -> Length {
        ring::off_middle(self.thrust.abs(), height, self.force).value
    }

    fn is_under(&self, other: &Pressed) -> bool {
        (self.combination, self.group) == (other.combination, other.group)
    }
}

impl Laid<'_, '_> {
    pub(super) fn seats(&self, answers: &Answers, rows: &mut Rows) {
        let (width, height) = (self.beam.width.value, self.beam.height.value);
        for place in 0..self.stood.ring.layout.rafters.len() {
            let on = format!("seat of place {}, {}", place + 1, members::tag(self.stood.ring, place));
            let pressed = self.pressed(answers, place);
            let lasting = |at: &Pressed| {
                if self.stood.factors.code == Code::En { self.planks.durations[at.combination] } else { 1.0 }
            };
            if let Some(most) = most(&pressed, |at| at.force.in_n() / lasting(at)) {
                self.bearing(place, (&on, &most, lasting(&most)), rows);
            }
            let pressure = |at: &Pressed| ring::bed_pressure(at.force, self.elastic[1], width, at.off(height)).value;
            let is_on = |at: &Pressed| at.off(height) < width * 0.5;
            let on_it: Vec<Pressed> = pressed.iter().copied().filter(is_on).collect();
            let beneath = most(&on_it, |at| pressure(at).in_pa());
            // Where something lifts the beam, its twist between the anchors holds what thrusts at its top, and is counted there.
            let alone: Vec<Pressed> =
                pressed.into_iter().filter(|at| !answers.is_held(at.group, at.combination)).collect();
            let farthest = most(&alone, |at| at.off(height).in_m());
            let falls_outside = farthest.as_ref().is_some_and(|at| !is_on(at));
            let beneath = beneath.filter(|_| !falls_outside);
            match &beneath {
                Some(most) => self.beneath(place, (&on, most), rows),
                None => {
                    let title = format!("{on}: pressure on the earth under the bond beam, off which its load falls");
                    rows.not_known(row(place, "pressure"), title);
                }
            }
            if let Some(farthest) = &farthest {
                self.tipping(place, (&on, farthest, beneath.as_ref()), rows);
            }
        }
    }

    /// All that presses on a seat.
    fn pressed(&self, answers: &Answers, place: usize) -> Vec<Pressed> {
        let at = self.stood.ring.layout.rafters[place].support;
        // The line goes round to the left, so that outwards is to its right.
        let out = -self.house.wall.line.nearest(Point::new(at[0].in_m(), at[1].in_m())).axis.turn_90();
        let groups = answers.sums.iter().enumerate();
        let all =
            groups.flat_map(|(group, sums)| sums.iter().enumerate().map(move |(at, sums)| (group, at, sums[place])));
        let pressed = all.filter(|(.., sum)| sum[2] < 0.0).map(|(group, combination, [x, y, up])| {
            let thrust = Force::n(x * out.x + y * out.y);
            Pressed { force: Force::n(-up), thrust, combination, group }
        });
        pressed.collect()
    }

    fn words(&self, at: &Pressed) -> String {
        self.governs(at.combination, at.group).words()
    }

    /// Adds the ring of poles and its loads.
    fn loaded<T>(&self, answer: Answer<T>, at: &Pressed, rows: &Rows) -> Answer<T> {
        self.stood.bound(answer, &self.governs(at.combination, at.group), rows)
    }

    /// How a pole bears on the beam, across the grain of both: the softer of the two counts.
    fn bearing(&self, place: usize, (on, most, duration): (&str, &Pressed, f64), rows: &mut Rows) {
        let (factors, values) = (&self.stood.factors, &self.stood.held.wood.values);
        let added = if factors.code == Code::En { Length::m(of_code("contact-more-m")) } else { Length::ZERO };
        let area = eurocode::seat_area(self.flats[place] + added * 2.0, self.beam.width.value).without("length");
        let area = area.from("width", self.beam.width.path.as_str());
        let pole = ["butt", "tip", "pole"].map(|noun| Ring::path(place, noun));
        let area = pole.iter().fold(bind(area, rows, "roof.seat"), |area, path| bind(area, rows, path));
        let area = OUT.iter().fold(area, |area, path| bind(area, rows, path));
        let area = rows.add(row(place, "area"), format!("{on}: area on which it bears on the bond beam"), area);
        let noun = factors.noun("bearing");
        let of_pole = (values.across.value * factors.wet("across"), self.stood.strength.durations[most.combination]);
        let of_pole = if factors.code == Code::En { of_pole } else { (of_pole.0, 1.0) };
        let of_planks = (self.planks.strength("across"), duration);
        let pole_is_softer = of_pole.0 * of_pole.1 < of_planks.0 * of_planks.1;
        let (strength, duration) = if pole_is_softer { of_pole } else { of_planks };
        let what = if pole_is_softer { "the pole, softer than the bond beam," } else { "the bond beam" };
        let title = format!("{on}: bearing strength of {what} used, under {}", self.words(most));
        let share = used::seat_used(most.force, area, strength, of_code("kc90-none"), duration, factors.partial)
            .from("area", row(place, "area"));
        let dropped = ["force", "strength", "beside", "duration", "partial"];
        let share: Answer<Ratio> = dropped.iter().fold(share, |share, name| share.without(name));
        let share = if pole_is_softer {
            bind(bind(share, rows, &values.across.path), rows, "poles.damp")
        } else {
            self.planks.bound(share, "across", rows)
        };
        let share = self.loaded(share, most, rows);
        rows.add(row(place, &noun), title, share);
    }

    /// How far off the middle of the beam a load falls.
    fn off(&self, at: &Pressed, rows: &Rows) -> Answer<Length> {
        let off = ring::off_middle(at.thrust.abs(), self.beam.height.value, at.force)
            .from("height", self.beam.height.path.as_str())
            .without("force")
            .without("thrust");
        self.loaded(off, at, rows)
    }

    /// What presses on the earth beneath the beam.
    fn beneath(&self, place: usize, (on, most): (&str, &Pressed), rows: &mut Rows) {
        let (width, under) = (self.beam.width.value, self.words(most));
        let title = format!("{on}: off the middle of the bond beam it presses on the earth, under {under}");
        let off = rows.add(row(place, "off-middle"), title, self.off(most, rows));
        let gapes = if off > width / 6.0 { ", which gapes at the other," } else { "" };
        let title = format!("{on}: pressure on the earth under the edge of the bond beam{gapes} under {under}");
        let pressure = ring::bed_pressure(most.force, self.elastic[1], width, off)
            .from("elastic", path("stiff-length"))
            .from("width", self.beam.width.path.as_str())
            .from("off", row(place, "off-middle"))
            .without("force");
        rows.add(row(place, "pressure"), title, pressure);
    }

    /// How far off the middle of the beam a load falls at most, and what would do where it falls outside.
    fn tipping(&self, place: usize, (on, most, noted): (&str, &Pressed, Option<&Pressed>), rows: &mut Rows) {
        let (width, under) = (self.beam.width.value, self.words(most));
        let off = most.off(self.beam.height.value);
        let share = ring::off_share(off, width).from("width", self.beam.width.path.as_str());
        let share = if noted.is_some_and(|noted| noted.is_under(most)) {
            share.from("off", row(place, "off-middle"))
        } else {
            let far = self.off(most, rows);
            let title = format!("{on}: farthest off the middle of the bond beam that it presses, under {under}");
            rows.add(row(place, "farthest"), title, far);
            share.from("off", row(place, "farthest"))
        };
        let mut title = format!("{on}: how far off the middle of the bond beam its load falls, of half its width");
        let outside = off - width * 0.5;
        if outside >= Length::ZERO {
            let shown = |length: Length| row::shown(length.into(), self.house.system);
            let way = if most.thrust > Force::ZERO { "inwards" } else { "outwards" };
            let wide = rows.add(
                row(place, "width-needed"),
                format!("{on}: width of the bond beam that its load would stay on"),
                ring::width_needed(off).from("off", row(place, "farthest")),
            );
            title = format!(
                "{on}: the pole's load falls {} outside of the bond beam: it tips, unless its twist holds it; widen it \
                 to more than {} or move the seat {way} by more than {}; off the middle, of half the width",
                shown(outside),
                shown(wide),
                shown(outside)
            );
        }
        rows.add(row(place, &self.stood.factors.noun("tipping")), format!("{title}, under {under}"), share);
    }

    pub(super) fn anchors(&self, answers: &Answers, rows: &mut Rows) {
        let all = match answers.anchors() {
            Ok(all) => all,
            Err(fault) => return unknown::anchors(self.house, &self.stood.factors, &fault.to_string(), rows),
        };
        let spots =
            self.house.anchors.iter().flat_map(|anchors| (0..anchors.spots.len()).map(move |spot| (anchors, spot)));
        for ((anchors, spot), most) in spots.zip(all) {
            if let Some(most) = most {
                self.pull(&most, (anchors, spot), rows);
            }
        }
    }

    /// What an anchor must hold down, against what it holds.
    fn pull(&self, most: &Lifted, (anchors, spot): (&Anchors, usize), rows: &mut Rows) {
        let row = |noun: &str| path(&format!("anchors.{}-{}.{noun}", anchors.name, spot + 1));
        let on = format!("anchor {} of {}", spot + 1, anchors.name.replace('-', " "));
        let governs = self.governs(most.combination, most.group);
        let title = format!("{on}: what its strap must hold down, under {}", governs.words());
        let pull = self.stood.bound(timber::anchor_pull(most.pull), &governs, rows);
        let pull = rows.add(row("pull"), title, self.anchored(pull, rows));
        let (noun, title) = (self.stood.factors.noun("used"), format!("{on}: share used of what it holds"));
        match &anchors.holds {
            Some((holds, _)) => {
                let share = timber::anchor_used(pull, holds.value).from("pull", row("pull"));
                rows.add(row(&noun), title, share.from("holds", holds.path.as_str()));
            }
            None => rows.not_known(row(&noun), title),
        }
    }
}
