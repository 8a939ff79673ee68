//! What a ring answers to each basic load case, and to any combination of them: superposed, not solved again.

use super::build::{Built, Row};
use super::cases::ZONES;
use super::{Combination, Fault, Feet, Loading, Model};
use crate::solve::frame::{Answer, Factorised, LoadCase, Six};
use crate::solve::space::{size, way};
use crate::units::{Force, Length, Moment};

/// The answers of a ring to every basic load, for each kind of feet.
#[derive(Clone, Debug)]
pub struct Answers {
    pub(super) of: Vec<(Feet, Vec<Found>)>,
    /// For each pole the places of its sections, in metres from its butt, and which of them are support, carry and rest: the
    /// last before and the first after each.
    pub(super) places: Vec<Places>,
    extras: usize,
}

#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Places {
    pub along: Vec<f64>,
    /// Of support, middle, carry, rest, tip, in metres from the butt.
    pub marks: [f64; 5],
}

/// What is found under one load.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Found {
    /// Forces within each pole at its places, local axes.
    pub sections: Vec<Vec<Six>>,
    /// How far each pole sinks in the middle of its span, at its tip, where it carries, where it rests.
    pub sags: Vec<[f64; 4]>,
    /// Push along the normal where each pole rests, and both ways across it.
    pub crossings: Vec<[f64; 3]>,
    /// What each foot exerts on its pole: inwards, across, up.
    pub feet: Vec<[f64; 3]>,
}

/// What is found at one place of a pole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Section {
    /// From the butt.
    pub along: Length,
    /// Pull along the pole; below zero, push.
    pub pull: Force,
    /// Force across, in the pole's upright plane and across that.
    pub shear: [Force; 2],
    /// Twist.
    pub twist: Moment,
    /// Moment that bends the pole in its upright plane; above zero, the top is pressed.
    pub upright: Moment,
    /// Moment that bends it sideways.
    pub sideways: Moment,
}

/// Into how many parts a member is divided for its sections: those of the span, and the others.
const PARTS: [u32; 2] = [8, 2];

impl Model {
    /// Solves every basic load case once for each kind of feet asked for. Poles that pass plumb forces alone need feet that are
    /// held.
    ///
    /// # Errors
    /// A mechanism, or a load beside its pole.
    pub fn answers(&self, loading: &Loading, feet: &[Feet]) -> Result<Answers, Fault> {
        let mut answers = Answers { of: Vec::new(), places: Vec::new(), extras: loading.extras.len() };
        for &feet in feet {
            let built = self.build(&self.whole(feet))?;
            let whole = built.factorise()?;
            let cases = self.cases(&built, loading)?;
            let found = self.found(&built, &whole, &cases)?;
            answers.of.push((feet, found));
        }
        answers.places = (0..self.lies.len()).map(|place| self.places(place)).collect();
        Ok(answers)
    }

    pub(super) fn found(&self, built: &Built, whole: &Factorised<'_>, cases: &[LoadCase]) -> Result<Vec<Found>, Fault> {
        let solved = whole.solve(cases).map_err(Fault::Frame)?;
        solved.iter().zip(cases).map(|(answer, case)| self.read(built, whole, case, answer)).collect()
    }

    /// Reads one answer off; poles that do not stand have no sections and no forces.
    fn read(&self, built: &Built, whole: &Factorised<'_>, case: &LoadCase, answer: &Answer) -> Result<Found, Fault> {
        let mut found = Found::default();
        for (place, row) in built.rows.iter().enumerate() {
            let Some(row) = row else {
                found.push(Vec::new(), [0.0; 4], [0.0; 3], [0.0; 3]);
                continue;
            };
            let sections = sections(built, row, (whole, case, answer), |pair| self.parts(place, pair))?;
            let sunk = |stop: usize| -answer.movements[row.node + stop][2];
            let crossing = row.rests.map_or([0.0; 3], |link| {
                let force = answer.links[link];
                [-force[0], force[1], force[2]]
            });
            let foot = row.foot_forces(&answer.reactions[row.node + row.at[0]], &answer.links[row.foot]);
            let sags = [row.at[1], row.stops.len() - 1, row.at[2], row.at[3]].map(sunk);
            found.push(sections, sags, crossing, foot);
        }
        Ok(found)
    }

    fn parts(&self, place: usize, pair: &[f64]) -> u32 {
        let [support, carry, ..] = self.marks[place];
        PARTS[usize::from(pair[0] < support || pair[1] > carry)]
    }

    pub(super) fn places(&self, place: usize) -> Places {
        let (stops, at) = self.stops(place);
        let [support, middle, carry, rest] = at.map(|stop| stops[stop]);
        let tip = stops.last().copied().unwrap_or(rest);
        Places::of(&stops, |pair| self.parts(place, pair), [support, middle, carry, rest, tip])
    }
}

impl Places {
    pub fn of(stops: &[f64], parts: impl Fn(&[f64]) -> u32, marks: [f64; 5]) -> Places {
        let mut along = Vec::new();
        for pair in stops.windows(2) {
            let parts = parts(pair);
            along.extend((0..=parts).map(|part| pair[0] + (pair[1] - pair[0]) * f64::from(part) / f64::from(parts)));
        }
        Places { along, marks }
    }
}

/// The forces within a pole at its places, member by member, from both ends of each on.
pub(super) fn sections(
    built: &Built,
    row: &Row,
    (whole, case, answer): (&Factorised<'_>, &LoadCase, &Answer),
    parts: impl Fn(&[f64]) -> u32,
) -> Result<Vec<Six>, Fault> {
    let mut sections = Vec::new();
    for (index, pair) in row.stops.windows(2).enumerate() {
        let [from, to] = [index, index + 1].map(|index| built.frame.nodes[row.node + index].at);
        let (long, parts) = (size(way(from, to)), parts(pair));
        let at: Vec<f64> = (0..=parts).map(|part| long * f64::from(part) / f64::from(parts)).collect();
        sections.extend(whole.forces_along(case, answer, row.member + index, &at).map_err(Fault::Frame)?);
    }
    Ok(sections)
}

impl Answers {
    /// The sections of a pole under a combination, from butt to tip; two at each place where members meet, before and after.
    ///
    /// # Errors
    /// No such pole or feet.
    pub fn sections(&self, pole: usize, feet: Feet, combination: &Combination) -> Result<Vec<Section>, Fault> {
        let (_, found) = self.of.iter().find(|(own, _)| *own == feet).ok_or(Fault::Size("feet that were solved"))?;
        let places = self.places.get(pole).ok_or(Fault::Load(pole))?;
        let whole = Found::together(found, &self.factors(combination));
        let section = |(along, force): (&f64, &Six)| Section {
            along: Length::m(*along),
            pull: Force::n(force[0]),
            shear: [Force::n(force[1]), Force::n(force[2])],
            twist: Moment::n_m(force[3]),
            upright: Moment::n_m(force[5]),
            sideways: Moment::n_m(force[4]),
        };
        Ok(places.along.iter().zip(&whole.sections[pole]).map(section).collect())
    }

    /// How much of each basic case a combination takes.
    pub(super) fn factors(&self, combination: &Combination) -> Vec<f64> {
        factors(combination, self.extras)
    }
}

pub(super) fn factors(combination: &Combination, extras: usize) -> Vec<f64> {
    let mut all = vec![combination.weight];
    all.extend(combination.areas.iter().map(|area| area.in_pa()));
    all.extend(combination.extras.iter().copied().chain(std::iter::repeat(0.0)).take(extras));
    all.resize(1 + ZONES + extras, 0.0);
    all
}

impl Found {
    fn push(&mut self, sections: Vec<Six>, sags: [f64; 4], crossing: [f64; 3], foot: [f64; 3]) {
        self.sections.push(sections);
        self.sags.push(sags);
        self.crossings.push(crossing);
        self.feet.push(foot);
    }

    /// So many times each of what was found.
    pub fn together(all: &[Found], factors: &[f64]) -> Found {
        let Some(first) = all.first() else { return Found::default() };
        let mut whole = Found {
            sections: first.sections.iter().map(|own| vec![[0.0; 6]; own.len()]).collect(),
            sags: vec![[0.0; 4]; first.sags.len()],
            crossings: vec![[0.0; 3]; first.crossings.len()],
            feet: vec![[0.0; 3]; first.feet.len()],
        };
        for (found, &factor) in all.iter().zip(factors).filter(|(_, factor)| **factor != 0.0) {
            whole.add(found, factor);
        }
        whole
    }

    fn add(&mut self, other: &Found, factor: f64) {
        let sections = self.sections.iter_mut().flatten().flatten();
        sections.zip(other.sections.iter().flatten().flatten()).for_each(|(own, more)| *own += factor * more);
        let sags = self.sags.iter_mut().flatten().zip(other.sags.iter().flatten());
        sags.for_each(|(own, more)| *own += factor * more);
        let crossings = self.crossings.iter_mut().flatten().zip(other.crossings.iter().flatten());
        crossings.chain(self.feet.iter_mut().flatten().zip(other.feet.iter().flatten())).for_each(|(own, more)| {
            *own += factor * more;
        });
    }
}
