//! The body of a wall between two levels, with what is cut out of it and laid in it.

use super::clear::{Held, niche_fits};
use super::course::{Course, Ends};
use super::cuboid::Cuboid;
use super::fault::Fault;
use super::mesh::Mesh;
use super::places::{insert, places, stretched};
use super::rim::{Rim, SIDES};
use crate::curve::{Along, Cut, Shape};

/// Heights below this, in metres, are none.
const FLAT: f64 = 1e-9;

/// A lift of a wall, a stem wall, a lintel: what lies between the two faces of a shape, a foot and a top.
///
/// It is there only where the top is above the foot. Cuts may cross a foot or a top that is level everywhere.
#[derive(Clone, Copy, Debug)]
pub struct Band<'a> {
    /// The faces.
    pub shape: Shape<'a>,
    /// Level of its foot along the line, in metres.
    pub foot: &'a Along,
    /// Level of its top along the line, in metres.
    pub top: &'a Along,
    /// From where to where along the line it goes, in metres, with square ends; the whole line when `None`.
    pub stretch: Option<[f64; 2]>,
    /// What is cut out of it; cuts that lie above or below it are let be.
    pub cuts: &'a [Cut],
    /// Boxes laid in it, wholly inside; those on a level foot or top leave a hole in it.
    pub boxes: &'a [Cuboid],
    /// Distances along the line, in metres, at which its faces have points besides those that the shape asks for. Bands of
    /// one shape with the same knots and the same chord error have the same points where they touch.
    pub knots: &'a [f64],
    /// How far a chord may keep from a curve, in metres.
    pub chord: f64,
}

/// A stretch of the line on which the top is above the foot.
type Run = (Vec<f64>, Ends);

impl Band<'_> {
    /// Its surface: closed, of as many shells as there are bodies and hollows.
    ///
    /// # Errors
    /// The first [`Fault`] found.
    pub fn mesh(&self) -> Result<Mesh, Fault> {
        let runs = self.runs()?;
        let mut rims = self.rims()?;
        let beds = [self.foot, self.top];
        let mut held = Vec::new();
        for numbered in self.boxes.iter().enumerate() {
            held.push(Held::within(&self.shape, numbered, beds, self.chord)?);
        }
        let mut mesh = Mesh::default();
        for (places, ends) in runs {
            self.sound(&places)?;
            let mine = self.of_run(&mut rims, &places, ends)?;
            let length = self.shape.line.length();
            let (here, elsewhere) = held.into_iter().partition(|one: &Held| {
                let turns = ((places[0] - one.range[0]) / length).ceil() * length;
                ends == Ends::Joined || one.range[1] + turns < places[places.len() - 1]
            });
            held = elsewhere;
            Course::new(self, &mut mesh, places, ends, mine, here)?.build()?;
        }
        if let Some(left) = held.first() {
            return Err(Fault::BoxLeaves(left.number));
        }
        Ok(mesh.tidied())
    }

    /// Level of the foot (0) or the top (1) where it is level everywhere, in metres.
    fn level(&self, bed: usize) -> Option<f64> {
        let along = [self.foot, self.top][bed];
        along.is_even().then(|| along.at(0.0))
    }

    /// Points along the line, stretch by stretch where there is something between foot and top.
    fn runs(&self) -> Result<Vec<Run>, Fault> {
        let (line, thickness) = (self.shape.line, self.shape.thickness);
        let length = line.length();
        let given = |along: &Along| along.breaks().collect::<Vec<f64>>();
        let mut knots = if thickness.is_even() { Vec::new() } else { given(thickness) };
        knots.extend(self.knots);
        let mut whole = places(line, &knots, 0.5 * thickness.range()[1], self.chord);
        for along in [self.foot, self.top].into_iter().filter(|along| !along.is_even()) {
            for knot in along.breaks() {
                insert(&mut whole, knot.rem_euclid(length));
            }
        }
        let is_ring = self.stretch.is_none() && line.is_closed();
        let along = if is_ring {
            let mut round = whole;
            round.push(round[0] + length);
            round
        } else {
            stretched(&whole, length, self.stretch.unwrap_or([0.0, length]))
        };
        let height = |at: f64| self.top.at(at) - self.foot.at(at);
        let mut pieces: Vec<Vec<f64>> = Vec::new();
        let mut open = false;
        for pair in along.windows(2) {
            let [a, b] = [height(pair[0]), height(pair[1])];
            let crossing = || pair[0] + (pair[1] - pair[0]) * a / (a - b);
            if a.max(b) <= FLAT {
                open = false;
                continue;
            }
            let from = if a < -FLAT { crossing() } else { pair[0] };
            match pieces.last_mut().filter(|_| open && a > FLAT) {
                Some(_) => {}
                None => pieces.push(vec![from]),
            }
            if let Some(piece) = pieces.last_mut() {
                piece.push(if b < -FLAT { crossing() } else { pair[1] });
            }
            open = b > FLAT;
        }
        let is_whole = is_ring && pieces.len() == 1 && pieces[0].len() == along.len();
        if is_whole && height(along[0]) > FLAT {
            return Ok(vec![(pieces.remove(0), Ends::Joined)]);
        }
        // What goes over the start of a closed line is one stretch.
        if is_ring && pieces.len() > 1 && height(along[0]) > FLAT {
            let last = pieces.pop().unwrap_or_default();
            let first = pieces.remove(0);
            pieces.insert(0, last.into_iter().chain(first[1..].iter().map(|at| at + length)).collect());
        }
        if pieces.is_empty() {
            Err(Fault::Nowhere)
        } else {
            Ok(pieces.into_iter().map(|run| (run, Ends::Square)).collect())
        }
    }

    /// No face folds and the faces stay apart.
    fn sound(&self, places: &[f64]) -> Result<(), Fault> {
        let shape = &self.shape;
        for pair in places.windows(2) {
            let piece = shape.line.at(0.5 * (pair[0] + pair[1])).piece;
            let bend = shape.line.pieces()[piece].curvature();
            for &at in pair {
                for level in [self.foot.at(at), self.top.at(at)] {
                    let [inner, outer] = SIDES.map(|side| shape.offset(side, at, level));
                    if outer - inner < 1e-3 {
                        return Err(Fault::NoThickness(piece));
                    }
                    if 1.0 + bend * inner < 0.02 || 1.0 + bend * outer < 0.02 {
                        return Err(Fault::Folds(piece));
                    }
                }
            }
        }
        Ok(())
    }

    /// The outlines of the cuts that are there between foot and top.
    fn rims(&self) -> Result<Vec<Rim<'_>>, Fault> {
        let mut rims = Vec::new();
        let [foot, top] = [self.foot.range(), self.top.range()];
        for (number, cut) in self.cuts.iter().enumerate() {
            if cut.form.top() <= foot[0] || cut.form.bottom() >= top[1] {
                continue;
            }
            let found = Rim::within(&self.shape, (number, cut), [self.level(0), self.level(1)], self.chord)?;
            let Some(rim) = found else { continue };
            if self.is_cut(&rim)? {
                niche_fits(&self.shape, &rim, self.chord)?;
                rims.push(rim);
            }
        }
        Ok(rims)
    }

    /// Whether an outline lies between beds that are not level, and not above or below them.
    fn is_cut(&self, rim: &Rim<'_>) -> Result<bool, Fault> {
        if self.level(0).is_some() && self.level(1).is_some() {
            return Ok(true);
        }
        let spots = || rim.chains.iter().flat_map(|chain| &chain.spots);
        let places = || spots().flat_map(|spot| spot.along.map(|along| (along, spot.at[1])));
        let above = |(along, level): (f64, f64)| self.level(1).is_none() && level >= self.top.at(along);
        let below = |(along, level): (f64, f64)| self.level(0).is_none() && level <= self.foot.at(along);
        if places().all(above) || places().all(below) {
            return Ok(false);
        }
        if places().any(|place| above(place) || below(place)) { Err(Fault::MeetsSlope(rim.number)) } else { Ok(true) }
    }

    /// Takes the outlines that lie on a run.
    fn of_run<'r>(&self, rims: &mut Vec<Rim<'r>>, places: &[f64], ends: Ends) -> Result<Vec<Rim<'r>>, Fault> {
        if ends == Ends::Joined {
            return Ok(std::mem::take(rims));
        }
        let length = self.shape.line.length();
        let [from, to] = [places[0], places[places.len() - 1]];
        let mut mine = Vec::new();
        for mut rim in std::mem::take(rims) {
            let [low, high] = rim.range();
            let turns = ((from - high) / length).ceil() * length;
            if low + turns >= to {
                rims.push(rim);
                continue;
            }
            if low + turns <= from || high + turns >= to {
                return Err(Fault::PastEnd(rim.number));
            }
            rim.chains.iter_mut().for_each(|chain| chain.turned(turns));
            mine.push(rim);
        }
        Ok(mine)
    }
}
