//! The basic load cases of a ring: its own weight, each zone under a load of one, each extra load.

use super::super::STANDARD_GRAVITY_M_S2;
use super::bays::{Band, Bay};
use super::build::{Built, Row};
use super::{Fault, Loading, Model, OnPole, Secondaries};
use crate::solve::frame::{LoadCase, MemberLoad, Sense};
use crate::solve::space::{size, way};

/// How many zones there are.
pub(super) const ZONES: usize = 4;

impl Model {
    /// Own weight, one pascal on each zone, each extra load once.
    pub(super) fn cases(&self, built: &Built, loading: &Loading) -> Result<Vec<LoadCase>, Fault> {
        let mut all = vec![self.weight(built)];
        let bays = super::bays::bays(&self.layout, &self.lies, loading.first_half);
        let bands = super::bays::bands(&bays, loading.between.as_ref());
        for zone in 0..ZONES {
            let mut case = LoadCase::default();
            for Band { pole, span, widths, .. } in bands.iter().filter(|band| band.zone == zone) {
                line(built, *pole, *span, *widths, &mut case);
            }
            all.push(case);
        }
        if let Some(between) = &loading.between {
            self.between(built, between, &bays, &mut all);
        }
        for extra in &loading.extras {
            let mut case = LoadCase::default();
            for load in &extra.loads {
                self.extra(built, load, &mut case)?;
            }
            all.push(case);
        }
        Ok(all)
    }

    pub(super) fn weight(&self, built: &Built) -> LoadCase {
        let down = -self.wood.density.in_kg_m3() * STANDARD_GRAVITY_M_S2;
        let members = 0..built.frame.members.len();
        let body = |member| (member, MemberLoad::Body { on_volume: [0.0, 0.0, down] });
        LoadCase { members: members.map(body).collect(), ..LoadCase::default() }
    }

    /// Adds to own weight and zones what secondary rafters lay on the two poles of their bay.
    fn between(&self, built: &Built, between: &Secondaries, bays: &[Bay], cases: &mut [LoadCase]) {
        for (pole, bay) in bays.iter().enumerate() {
            let share = between.share(pole);
            for pressing in between.presses(&self.layout, &self.lies, pole, bay) {
                let loads = std::iter::once(pressing.weight).chain(pressing.zones);
                for (case, pressed) in cases.iter_mut().zip(loads).filter(|(_, pressed)| *pressed != 0.0) {
                    let sides = [(bay.inside[0], 1.0 - pressing.across), (bay.inside[1], pressing.across)];
                    for (side, part) in sides.into_iter().filter(|(_, part)| *part > 0.0) {
                        let at = side.span[0] + share * (side.span[1] - side.span[0]);
                        match self.seat_node(built, side.pole) {
                            Some(node) => case.nodes.push((node, [0.0, 0.0, -part * pressed, 0.0, 0.0, 0.0])),
                            None => point(built, side.pole, at, part * pressed, case),
                        }
                    }
                }
            }
        }
    }

    /// The node of a pole on which the rafter of a second ring rests.
    fn seat_node(&self, built: &Built, pole: usize) -> Option<usize> {
        let (seat, row) = (self.seats.get(pole)?, built.rows.get(pole)?.as_ref()?);
        row.stops.iter().position(|stop| *stop == seat.along).map(|stop| row.node + stop)
    }

    fn extra(&self, built: &Built, load: &OnPole, case: &mut LoadCase) -> Result<(), Fault> {
        let pole = match load {
            OnPole::Point { pole, .. } | OnPole::Line { pole, .. } => *pole,
        };
        let on_it = |along: f64| self.marks.get(pole).is_some_and(|marks| (0.0..=marks[3]).contains(&along));
        match *load {
            OnPole::Point { at, down, .. } if on_it(at.in_m()) && down.in_n().is_finite() => {
                point(built, pole, at.in_m(), down.in_n(), case);
            }
            OnPole::Line { span, down, .. } if span.iter().all(|at| on_it(at.in_m())) && span[0] < span[1] => {
                line(built, pole, span.map(|at| at.in_m()), down.map(|load| load.in_n_m()), case);
            }
            _ => return Err(Fault::Load(pole)),
        }
        Ok(())
    }
}

/// The members of a row, each with its stretch of the pole and its own length over that of the stretch.
fn members<'r>(built: &'r Built, row: &'r Row) -> impl Iterator<Item = (usize, [f64; 2], f64)> + 'r {
    row.stops.windows(2).enumerate().map(|(index, pair)| {
        let [from, to] = [index, index + 1].map(|index| built.frame.nodes[row.node + index].at);
        (row.member + index, [pair[0], pair[1]], size(way(from, to)) / (pair[1] - pair[0]))
    })
}

/// Lays a plumb load along a stretch of a pole on its members; a pole that does not stand takes nothing.
pub(super) fn line(built: &Built, pole: usize, [start, end]: [f64; 2], down: [f64; 2], case: &mut LoadCase) {
    let Some(row) = &built.rows[pole] else { return };
    let at = |along: f64| down[0] + (down[1] - down[0]) * (along - start) / (end - start);
    for (member, [from, to], longer) in members(built, row) {
        let (first, last) = (start.max(from), end.min(to));
        if last - first > 1e-9 {
            let [near, far] = [first, last].map(|along| (along - from) * longer);
            let [one, other] = [first, last].map(|along| [0.0, 0.0, -at(along) / longer]);
            let load = MemberLoad::Line { span: Some([near, far]), first: one, last: other, sense: Sense::Global };
            case.members.push((member, load));
        }
    }
}

pub(super) fn point(built: &Built, pole: usize, at: f64, down: f64, case: &mut LoadCase) {
    let Some(row) = &built.rows[pole] else { return };
    let inside = members(built, row).find(|(_, [_, to], _)| at <= *to);
    let found = inside.or_else(|| members(built, row).last());
    if let Some((member, [from, to], longer)) = found {
        let at = (at.clamp(from, to) - from) * longer;
        let load = MemberLoad::Point { at, force: [0.0, 0.0, -down, 0.0, 0.0, 0.0], sense: Sense::Global };
        case.members.push((member, load));
    }
}

/// A case that is so many times each of the basic ones.
pub(super) fn together(cases: &[LoadCase], factors: &[f64]) -> LoadCase {
    let mut whole = LoadCase::default();
    for (case, &factor) in cases.iter().zip(factors).filter(|(_, factor)| **factor != 0.0) {
        whole.nodes.extend(case.nodes.iter().map(|(node, load)| (*node, load.map(|part| factor * part))));
        whole.members.extend(case.members.iter().map(|(member, load)| (*member, times(load, factor))));
    }
    whole
}

fn times(load: &MemberLoad, factor: f64) -> MemberLoad {
    let by = |three: [f64; 3]| three.map(|part| factor * part);
    match *load {
        MemberLoad::Point { at, force, sense } => {
            MemberLoad::Point { at, force: force.map(|part| factor * part), sense }
        }
        MemberLoad::Line { span, first, last, sense } => {
            MemberLoad::Line { span, first: by(first), last: by(last), sense }
        }
        MemberLoad::Body { on_volume } => MemberLoad::Body { on_volume: by(on_volume) },
    }
}
