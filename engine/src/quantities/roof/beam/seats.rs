//! Rows of each seat of a pole on the bond beam, of what it presses on the earth beneath, and of each anchor.

use super::{Laid, OUT, path};
use crate::house::{Code, Ring};
use crate::quantities::line::bind;
use crate::quantities::roof::members;
use crate::reason::Answer;
use crate::roof::beam::{self as ring, Answers, Lifted};
use crate::row::Rows;
use crate::timber::tables::factor;
use crate::timber::{beam as timber, eurocode, used};
use crate::units::{Force, Length, Ratio};

/// What presses on a seat, under what.
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

impl Laid<'_, '_> {
    pub(super) fn seats(&self, answers: &Answers, rows: &mut Rows) {
        for place in 0..self.stood.ring.layout.rafters.len() {
            let on = format!("seat of place {}, {}", place + 1, members::tag(self.stood.ring, place));
            let durations = &self.stood.strength.durations;
            let lasting = |at: usize| if self.stood.factors.code == Code::En { durations[at] } else { 1.0 };
            if let Some(most) = Self::pressed(answers, place, |down, _, at| down / lasting(at)) {
                self.bearing(place, (&on, &most, lasting(most.combination)), rows);
            }
            // Over twice the length and the width: what the edge feels, as long as nothing gapes.
            let lever = self.beam.height.value / self.beam.width.value;
            if let Some(most) = Self::pressed(answers, place, |down, thrust, _| down + 6.0 * lever * thrust) {
                self.beneath(place, (&on, &most), rows);
            }
        }
    }

    /// What presses on a seat under that of which the most counts, by what presses, what thrusts and the combination; nothing where
    /// it never presses.
    fn pressed(answers: &Answers, place: usize, counts: impl Fn(f64, f64, usize) -> f64) -> Option<Pressed> {
        let mut most: Option<(f64, Pressed)> = None;
        for (group, sums) in answers.sums.iter().enumerate() {
            for (combination, sums) in sums.iter().enumerate() {
                let sum = sums[place];
                let (down, thrust) = (-sum[2], sum[0].hypot(sum[1]));
                let counts = counts(down, thrust, combination);
                if down > 0.0 && counts > most.map_or(0.0, |(most, _)| most) {
                    let pressed = Pressed { force: Force::n(down), thrust: Force::n(thrust), combination, group };
                    most = Some((counts, pressed));
                }
            }
        }
        most.map(|(_, pressed)| pressed)
    }

    fn words(&self, at: &Pressed) -> String {
        self.governs(at.combination, at.group).words()
    }

    /// Adds the ring of poles and its loads.
    fn loaded<T>(&self, answer: Answer<T>, at: &Pressed, rows: &Rows) -> Answer<T> {
        self.stood.bound(answer, &self.governs(at.combination, at.group), rows)
    }

    /// How a pole bears on the beam, across its grain.
    fn bearing(&self, place: usize, (on, most, duration): (&str, &Pressed, f64), rows: &mut Rows) {
        let (factors, held) = (&self.stood.factors, self.stood.held);
        let added = if factors.code == Code::En { Length::m(of_code("contact-more-m")) } else { Length::ZERO };
        let area = eurocode::seat_area(self.flats[place] + added * 2.0, self.beam.width.value).without("length");
        let area = area.from("width", self.beam.width.path.as_str());
        let pole = ["butt", "tip", "pole"].map(|noun| Ring::path(place, noun));
        let area = pole.iter().fold(bind(area, rows, "roof.seat"), |area, path| bind(area, rows, path));
        let area = OUT.iter().fold(area, |area, path| bind(area, rows, path));
        let row = |noun: &str| path(&format!("seats.{}.{noun}", place + 1));
        let area = rows.add(row("area"), format!("{on}: area on which it bears on the bond beam"), area);
        let noun = factors.noun("bearing");
        let title = format!("{on}: bearing strength of the bond beam used, under {}", self.words(most));
        let strength = held.wood.values.across.value * factors.wet("across");
        let share = used::seat_used(most.force, area, strength, of_code("kc90-none"), duration, factors.partial)
            .from("area", row("area"));
        let dropped = ["force", "strength", "beside", "duration", "partial"];
        let share: Answer<Ratio> = dropped.iter().fold(share, |share, name| share.without(name));
        let share = bind(bind(share, rows, "poles.strength.across"), rows, "poles.damp");
        let share = self.loaded(share, most, rows);
        rows.add(row(&noun), title, share);
    }

    /// What presses on the earth beneath the beam.
    fn beneath(&self, place: usize, (on, most): (&str, &Pressed), rows: &mut Rows) {
        let row = |noun: &str| path(&format!("seats.{}.{noun}", place + 1));
        let (width, height) = (self.beam.width.value, self.beam.height.value);
        let under = self.words(most);
        let off = ring::off_middle(most.thrust, height, most.force)
            .from("height", self.beam.height.path.as_str())
            .without("force")
            .without("thrust");
        let title = format!("{on}: off the middle of the bond beam it presses on the earth, under {under}");
        let off = rows.add(row("off-middle"), title, self.loaded(off, most, rows));
        let title = format!("{on}: pressure on the earth under the edge of the bond beam, under {under}");
        if off >= width * 0.5 {
            rows.not_known(row("pressure"), format!("{title}: it lies outside of the beam, which tips"));
            return;
        }
        let pressure = ring::bed_pressure(most.force, self.elastic[1], width, off)
            .from("elastic", path("stiff-length"))
            .from("width", self.beam.width.path.as_str())
            .from("off", row("off-middle"))
            .without("force");
        rows.add(row("pressure"), title, pressure);
    }

    pub(super) fn anchors(&self, answers: &Answers, rows: &mut Rows) {
        let all = match answers.anchors() {
            Ok(all) => all,
            Err(fault) => {
                rows.not_known(path("anchors.pull"), format!("what each anchor of the roof must hold down: {fault}"));
                return;
            }
        };
        let spots =
            self.house.anchors.iter().flat_map(|anchors| (0..anchors.spots.len()).map(move |spot| (anchors, spot)));
        for ((anchors, spot), most) in spots.zip(all) {
            let Some(most) = most else { continue };
            let name = anchors.name.replace('-', " ");
            let path = path(&format!("anchors.{}-{}.pull", anchors.name, spot + 1));
            let title = format!("anchor {} of {name}: what its strap must hold down", spot + 1);
            self.pull(&most, (path, title), rows);
        }
    }

    fn pull(&self, most: &Lifted, (path, title): (String, String), rows: &mut Rows) {
        let governs = self.governs(most.combination, most.group);
        let pull = self.stood.bound(timber::anchor_pull(most.pull), &governs, rows);
        rows.add(path, format!("{title}, under {}", governs.words()), self.anchored(pull, rows));
    }
}
