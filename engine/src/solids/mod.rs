//! Goes round the house and makes the body of every part: closed, named by its path, with material, lift and day.

mod built_in;
mod ground;
mod openings;
mod wall;

use crate::house::House;
use crate::row::Rows;
use crate::solid::{Fault, Mesh};
use crate::units::{Days, Length, Volume};

/// The body of one part.
#[derive(Clone, Debug)]
pub struct Solid {
    /// Its path, the same as in rows and drawings.
    pub path: String,
    /// What it is called.
    pub name: String,
    /// What it is made of.
    pub material: &'static str,
    /// The lift that it belongs to, or that holds it.
    pub lift: Option<String>,
    /// Days after the start of the first lift on which it is there.
    pub day: Option<Days>,
    /// Its volume as the rows say; none where no row says it.
    pub volume: Option<Volume>,
    /// Its surface, triangulated.
    pub mesh: Mesh,
}

/// The bodies of a house.
#[derive(Clone, Debug, Default)]
pub struct Solids {
    /// One for each part, each closed.
    pub bodies: Vec<Solid>,
    /// Parts that have no body, each with its path and why.
    pub left_out: Vec<(String, String)>,
}

/// The bodies of every part of a house, no chord farther than `chord` from its curve.
#[must_use]
pub fn solids(house: &House, rows: &Rows, chord: Length) -> Solids {
    let mut made = Making { house, rows, chord: chord.in_m(), solids: Solids::default() };
    ground::make(&mut made);
    wall::make(&mut made);
    openings::make(&mut made);
    built_in::make(&mut made);
    made.solids
}

/// The same with the cob in one piece where it can be made so, as it stands when it is finished: for pictures.
#[must_use]
pub fn finished(house: &House, rows: &Rows, chord: Length) -> Solids {
    let mut made = Making { house, rows, chord: chord.in_m(), solids: Solids::default() };
    ground::make(&mut made);
    wall::whole(&mut made);
    openings::make(&mut made);
    built_in::make(&mut made);
    made.solids
}

/// What holds less is no body.
const LEAST: Volume = Volume::m3(1e-5);

/// What is being made, and of what.
struct Making<'a> {
    house: &'a House,
    rows: &'a Rows,
    chord: f64,
    solids: Solids,
}

/// What a body is called, beside its path.
#[derive(Clone, Default)]
struct Named {
    name: String,
    material: &'static str,
    lift: Option<String>,
    day: Option<Days>,
}

impl Named {
    fn new(name: impl Into<String>, material: &'static str) -> Named {
        Named { name: name.into(), material, lift: None, day: None }
    }
}

impl Making<'_> {
    /// Keeps a body, or says why there is none; its volume is that of the row named.
    fn keep(&mut self, path: String, named: Named, volume: &str, mesh: Result<Mesh, Fault>) {
        let volume = self.rows.value::<Volume>(volume);
        if volume.is_some_and(|volume| volume < LEAST) {
            return;
        }
        match (mesh, volume) {
            (Ok(mesh), Some(_)) => {
                let Named { name, material, lift, day } = named;
                self.solids.bodies.push(Solid { path, name, material, lift, day, volume, mesh });
            }
            (Err(fault), _) => self.solids.left_out.push((path, fault.in_words())),
            (Ok(_), None) => self.solids.left_out.push((path, "nothing says how much it holds".to_owned())),
        }
    }

    /// The lift that is being laid at a level, in metres: its name and the day on which it is begun.
    fn lift_at(&self, level: f64) -> (Option<String>, Option<Days>) {
        let lifts = &self.house.wall.lifts;
        let lift = lifts.iter().find(|lift| level < lift.top.value.in_m() - 1e-9).or(lifts.last());
        (lift.map(|lift| lift.name.clone()), lift.map(|lift| lift.start.value))
    }
}
