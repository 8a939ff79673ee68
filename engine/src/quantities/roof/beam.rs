//! Rows of the bond beam under a ring of poles: what bends, pulls, shears and twists each part of it, and what its scarfs must carry.

mod anchors;
mod earth;
mod feet;
mod held;
mod left;
mod on_beam;
mod part;
mod planks;
mod plate;
mod scarfs;
mod seats;
mod tipping;
mod unknown;

pub(super) use on_beam::OnBeam;
pub(super) use planks::Planks;
pub(super) use plate::plate;
pub(super) use unknown::{not_known, unmeasured};

use std::f64::consts::TAU;

use super::super::line::bind;
use crate::house::built_in::Stretch;
use crate::house::{BondBeam, Code, House};
use crate::reason::Answer;
use crate::roof::beam::{self as ring, Answers, Beam, Left, Presses, Resists, Under, Used};
use crate::roof::standing::Feet;
use crate::row::Rows;
use crate::solve::whole::rounded_up;
use crate::timber::beam as timber;
use crate::units::{Angle, Length};
use part::Part;

/// How far eave and plate lie outside of the wall's line.
const OUT: [&str; 2] = ["roof.eave-offset", "roof.plate-offset"];

/// Why neither shares of its strength nor of its anchors are known where secondary rafters lie on it.
const BESIDE: &str = "what secondary rafters press on it and lift between the poles is not counted";

/// No side of the line that is followed is longer than such a part of the way round, nor turns by more than such a part of a whole turn.
const SIDES: f64 = 56.0;

fn number(name: &str) -> f64 {
    timber::fact(name).unwrap_or(f64::NAN)
}

fn path(noun: &str) -> String {
    format!("roof.beam.{noun}")
}

/// The beam with all that its rows have in common.
struct Laid<'a> {
    house: &'a House,
    beam: &'a BondBeam,
    on: &'a OnBeam<'a>,
    planks: Planks<'a>,
    left: Left,
    shape: f64,
    /// Where each corner of its line lies along that of the wall, in metres, and of which part the side after it is.
    corners: Vec<(f64, usize)>,
    /// Rows that place its anchors, and its sizes, by which it shares out among them.
    anchored: Vec<String>,
    /// Over which it hands a load on: to soft earth, to stiff earth.
    elastic: [Length; 2],
    /// Why no share of its strength is known.
    unknown: Option<String>,
    /// Friction of feet that may slide on it; none where nobody says what holds them.
    friction: Option<Angle>,
}

pub(super) fn walk(house: &House, on: &OnBeam<'_>, rows: &mut Rows) {
    let beam = house.bond_beam.as_ref().filter(|_| house.wall.line.is_closed());
    let Some((beam, planks)) = beam.and_then(|beam| Some((beam, Planks::of(on.held, on.strength)?))) else {
        return unknown::without_beam(house, on.factors, rows);
    };
    let mut laid = Laid::of((house, beam), on, planks, rows);
    let weights: Vec<f64> = on.lifting.combinations.iter().map(|one| one.weight).collect();
    let groups: Vec<&[Presses]> = on.groups.iter().map(|group| group.loads.as_slice()).collect();
    let answers = match laid.ring().answers(&groups, &on.shares, &weights) {
        Ok(answers) => answers,
        Err(fault) => return unknown::all(house, on.factors, &fault.to_string(), rows),
    };
    laid.unknown = match answers.anchors() {
        Err(fault) => Some(fault.to_string()),
        Ok(_) if timber::whole_planks(beam.layers.value).value == 0 => {
            Some("each scarf cuts its only layer, and what a scarf carries is not known".to_owned())
        }
        Ok(_) if laid.has_secondary() => Some(BESIDE.to_owned()),
        Ok(_) => None,
    };
    let (resists, scarfs) = (laid.resists(), laid.scarfs(rows));
    let under = Under {
        combinations: &on.shares[..resists.len()],
        resists: &resists,
        elastic: laid.elastic[0],
        spreads: &on.flats,
        left: laid.left,
        scarfs: scarfs.as_ref().ok().map(|(scarfs, _)| scarfs),
    };
    laid.parts(&answers, (&under, &scarfs), rows);
    laid.seats(&answers, rows);
    laid.anchors(&answers, rows);
}

impl<'a> Laid<'a> {
    fn of(
        (house, beam): (&'a House, &'a BondBeam),
        on: &'a OnBeam<'a>,
        planks: Planks<'a>,
        rows: &mut Rows,
    ) -> Laid<'a> {
        let left = left::left(beam, rows);
        let plank = beam.height.value / beam.layers.value as f64;
        let shape = match on.factors.code {
            Code::En => timber::twist_shape(beam.width.value, plank, number("twist-more"), number("twist-most")).value,
            Code::Asce => 1.0,
        };
        let elastic = left::elastic(beam, &planks, plank, rows);
        let corners = corners(beam, house.wall.line.length());
        let sizes = ["width", "height", "layers"].map(|noun| format!("wall.bond-beam.{noun}"));
        let nouns = house.anchors.iter().flat_map(|own| ["along", "spacing", "count"].map(|noun| own.path(noun)));
        let wood = [&planks.wood.density.path, &planks.wood.values.stiffness.path];
        let wood = wood.into_iter().chain([&planks.wood.values.shear_stiffness.path]).cloned();
        let anchored = sizes.into_iter().chain(nouns).chain(wood).collect();
        let friction = on.held.feet.as_ref().map(|feet| feet.friction.value);
        Laid { house, beam, on, planks, left, shape, corners, anchored, elastic, unknown: None, friction }
    }

    fn has_secondary(&self) -> bool {
        self.house.roof.as_ref().is_some_and(|roof| roof.secondary.is_some())
    }

    fn ring(&self) -> Beam {
        let line = &self.house.wall.line;
        let at = |along: f64| {
            let at = line.at(along).beside(self.beam.offset.in_m());
            [at.x, at.y].map(Length::m)
        };
        // A strap comes up through the beam plumb over its deadman.
        let spots = self.house.anchors.iter().flat_map(|anchors| &anchors.spots);
        let anchors = spots.map(|spot| ring::Anchor { at: at(line.along_line(spot.station)), gives: None });
        Beam {
            line: self.corners.iter().map(|&(along, _)| at(along)).collect(),
            width: self.beam.width.value,
            height: self.beam.height.value,
            layers: self.beam.layers.value,
            wood: self.planks.ring(),
            seats: self.on.seats.iter().map(|seat| seat.at).collect(),
            anchors: anchors.collect(),
        }
    }

    fn resists(&self) -> Vec<Resists> {
        let planks = &self.planks;
        let resists = |duration: &f64| {
            let bears = |noun: &str| planks.strength(noun) * (duration / planks.factors.partial);
            Resists {
                bending: bears("bending"),
                tension: bears("tension"),
                compression: bears("compression"),
                shear: bears("shear") * planks.factors.uncracked,
                twist: bears("shear") * self.shape,
            }
        };
        planks.durations.iter().map(resists).collect()
    }

    fn parts(&self, answers: &Answers, (under, scarfs): (&Under<'_>, &scarfs::Known), rows: &mut Rows) {
        let sides: Vec<usize> = self.corners.iter().map(|&(_, part)| part).collect();
        let of = |kind: Feet| (0..self.on.groups.len()).filter(move |&group| self.on.groups[group].feet == kind);
        let mut free = of(Feet::Sliding);
        let Some(first) = free.next() else { return };
        let held = of(Feet::Held).next().filter(|_| self.friction.is_none());
        let held = held.map_or_else(Vec::new, |group| answers.thrust(group, &sides, under));
        let worst = free.fold(answers.worst(first, &sides, under), |worst, group| {
            let other = answers.worst(group, &sides, under);
            worst.into_iter().zip(other).map(|(one, other)| one.or(other)).collect()
        });
        for (place, worst) in worst.iter().enumerate().filter(|(_, worst)| worst.bending.share > 0.0) {
            let part = self.part(place);
            part.bending(worst, rows);
            if self.on.thrusts() {
                part.ring(worst, rows);
            }
            part.shear(worst, rows);
            part.twist(worst, rows);
            part.scarf(worst, scarfs, rows);
            if let Some(held) = held.get(place) {
                part.held(held, rows);
            }
        }
        let most = held.iter().enumerate().max_by(|one, other| one.1.share.total_cmp(&other.1.share));
        let Some((place, most)) = most else { return };
        self.part(place).held_alone(most, rows);
    }

    fn part(&self, place: usize) -> Part<'_> {
        let part = &self.beam.parts[place];
        let words: Vec<String> = part.over.iter().map(|&place| self.beam.stretches[place].words()).collect();
        let name = &self.beam.stretches[part.longest].name;
        Part { laid: self, place, name, on: format!("bond beam over {}", words.join(" with ")) }
    }

    /// Adds what makes a force in plan where the beam is used most: the planks that count have a part in which place that is.
    fn in_plan_at_the_worst<T>(&self, answer: Answer<T>, used: &Used, rows: &Rows) -> Answer<T> {
        bind(self.in_plan(answer, used, rows), rows, &path("planks"))
    }

    /// Adds what makes a force in plan: the ring of poles and its loads, and how easily the beam bends there against being pulled.
    fn in_plan<T>(&self, answer: Answer<T>, used: &Used, rows: &Rows) -> Answer<T> {
        let answer = self.on.bound(answer, (used.group, used.combination), rows);
        bind(answer, rows, "wall.bond-beam.width")
    }

    /// Adds what makes a force that the earth and, where it is lifted, the anchors have a part in.
    fn upright<T>(&self, answer: Answer<T>, used: &Used, rows: &Rows) -> Answer<T> {
        let answer = self.on.bound_all(answer, (used.group, used.combination), rows);
        let answer = bind(bind(answer, rows, &path("soft-length")), rows, "roof.seat");
        if used.is_lifted { self.anchored(answer, rows) } else { answer }
    }

    fn anchored<T>(&self, answer: Answer<T>, rows: &Rows) -> Answer<T> {
        self.anchored.iter().fold(answer, |answer, path| bind(answer, rows, path))
    }
}

/// Where the corners of a beam's line lie along a wall's line so long, and of which part each side is.
fn corners(beam: &BondBeam, whole: f64) -> Vec<(f64, usize)> {
    let of = |(place, stretch): (usize, &Stretch)| {
        let part = beam.parts.iter().position(|part| part.over.contains(&place)).unwrap_or(0);
        let [from, long] = [stretch.along[0], stretch.along[1] - stretch.along[0]];
        let sides = rounded_up(SIDES * (long / whole).max(stretch.bends() / TAU)).max(1);
        (0..sides).map(move |side| (from + long * side as f64 / sides as f64, part))
    };
    beam.stretches.iter().enumerate().flat_map(of).collect()
}
