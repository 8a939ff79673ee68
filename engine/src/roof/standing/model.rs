//! A ring of poles ready to be answered: where each pole lies, what it is of, how it is joined.

use super::super::poles::{self, Layout, Lie, Ring};
use super::build::Parts;
use super::second::Seat;
use super::{Fault, Feet, Joints, Passing, Wood};

/// A ring of poles as a frame.
///
/// Every pole is a row of straight round tapered members between butt, support, the middle of its span, where it carries, where
/// it rests, and tip; a bow is followed through these places. A notch weakens the pole along the stretch that the other pole
/// takes: flat cuts, the upper pole below where it rests, the lower above where it carries. Loads and feet act on the axis.
#[derive(Clone, Debug)]
pub struct Model {
    pub(super) layout: Layout,
    pub(super) lies: Vec<Lie>,
    /// Along each pole from its butt: support, where it carries, where it rests, tip.
    pub(super) marks: Vec<[f64; 4]>,
    pub(super) wood: Wood,
    pub(super) joints: Joints,
    /// Where the rafter of a second ring rests on each pole; none where there is no such ring.
    pub(super) seats: Vec<Seat>,
}

/// A rafter that rests so near to the middle of a span is taken to rest there with its own stop, in metres.
const NEAR: f64 = 0.05;

/// A pole that ends so near to its last joint has no end of its own there, in metres.
const NO_END: f64 = 1e-3;

/// Takes a solved ring for a frame.
///
/// # Errors
/// A pole that does not reach, a size that nothing has.
pub fn model(layout: &Layout, ring: &Ring, wood: &Wood, joints: &Joints) -> Result<Model, Fault> {
    Model::of(layout, &ring.sets, wood, joints)
}

impl Model {
    pub(super) fn of(layout: &Layout, sets: &[poles::Set], wood: &Wood, joints: &Joints) -> Result<Model, Fault> {
        let above_zero = [wood.young.in_pa(), wood.shear.in_pa(), wood.density.in_kg_m3()];
        if !above_zero.iter().all(|size| size.is_finite() && *size > 0.0) {
            return Err(Fault::Size("moduli and a density above zero"));
        }
        let (push, tie) = match joints.passing {
            Passing::Touching { push, tie } => (push.in_n_m(), tie.in_n_m()),
            Passing::Plumb { push } => (push.in_n_m(), 0.0),
        };
        if !(push.is_finite() && push > 0.0 && tie.is_finite() && tie >= 0.0) {
            return Err(Fault::Size("crossings that resist a push, and ties not below zero"));
        }
        if !(0.0..=1.0).contains(&joints.upper_share) {
            return Err(Fault::Size("notches shared from 0 to 1"));
        }
        let lies = poles::laid(layout, sets)?;
        let mut marks = Vec::with_capacity(lies.len());
        for (place, (set, rafter)) in sets.iter().zip(&layout.rafters).enumerate() {
            let lie = &lies[place];
            let [carry, rest] = match joints.passing {
                Passing::Touching { .. } => [set.carry, set.rest].map(|mark| mark.in_m()),
                Passing::Plumb { .. } => [lie.first, lie.second()].map(|reach| reach - lie.ends[0]),
            };
            let (support, tip) = (rafter.overhang.in_m(), rafter.pole.length.in_m());
            if rest > tip {
                let wanted = set.rest + rafter.beyond;
                return Err(poles::Fault::TooShort { place, length: rafter.pole.length, wanted }.into());
            }
            if !(support + NO_END < carry && carry + NO_END < rest) {
                return Err(poles::Fault::NotRoundTheEye(place).into());
            }
            marks.push([support, carry, rest, tip]);
        }
        Ok(Model { layout: layout.clone(), lies, marks, wood: *wood, joints: *joints, seats: Vec::new() })
    }

    pub(super) fn whole(&self, feet: Feet) -> Parts {
        let count = self.lies.len();
        Parts { stands: vec![true; count], joined: vec![true; count], feet, prop: None }
    }

    /// The places along a pole at which members meet, and which of them are its support, middle, carry, rest.
    pub(super) fn stops(&self, place: usize) -> (Vec<f64>, [usize; 4]) {
        let [support, carry, rest, tip] = self.marks[place];
        let mut stops = Vec::with_capacity(7);
        if support > NO_END {
            stops.push(0.0);
        }
        let first = stops.len();
        let middle = 0.5 * (support + carry);
        let mut at = [first, first + 1, first + 2, first + 3];
        stops.push(support);
        match self.seats.get(place).map(|seat| seat.along).filter(|along| support < *along && *along < carry) {
            None => stops.push(middle),
            Some(along) if (along - middle).abs() < NEAR => stops.push(along),
            Some(along) => {
                stops.extend([along.min(middle), along.max(middle)]);
                at = [first, first + if along < middle { 2 } else { 1 }, first + 3, first + 4];
            }
        }
        stops.extend([carry, rest]);
        if tip > rest + NO_END {
            stops.push(tip);
        }
        (stops, at)
    }

    /// The axis of a pole at a place along it from its butt.
    pub(super) fn at(&self, place: usize, along: f64) -> [f64; 3] {
        self.lies[place].at(along + self.lies[place].ends[0])
    }

    pub(super) fn diameter(&self, place: usize, along: f64) -> f64 {
        self.lies[place].diameter(along + self.lies[place].ends[0])
    }
}
