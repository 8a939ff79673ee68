//! The outline of an opening or a niche within one lift: points at which its sides meet both faces, level by level.

use super::fault::Fault;
use crate::curve::{Cut, Depth, Form, Jamb, Shape, Side};

/// The faces in the order of pairs.
pub const SIDES: [Side; 2] = [Side::Inner, Side::Outer];

/// How near to a bed an edge of a cut is drawn onto it, and half of how far a crown is moved off it, in metres: less than a
/// tenth of a millimetre in all.
const NUDGE: f64 = 4.5e-5;

/// The widest step round a circle, in radians: 96 sides hold within a thousandth what the circle does, however small it is.
pub const STEP: f64 = std::f64::consts::TAU / 96.0;

/// A point of the outline.
#[derive(Clone, Copy, Debug)]
pub struct Spot {
    /// x in the frame of the cut and level, in metres.
    pub at: [f64; 2],
    /// Distances along the line where the jamb through it meets the inner and the outer face, in metres.
    pub along: [f64; 2],
    /// The upright line of each face that it ends.
    pub lines: [Option<usize>; 2],
}

/// A part of the outline that no bed interrupts.
#[derive(Clone, Debug)]
pub struct Chain {
    /// Its points; the cut lies to the left as seen from outside.
    pub spots: Vec<Spot>,
    /// What whole turns of a closed line add to its distances, in metres.
    pub turn: f64,
}

impl Chain {
    /// Adds a turn of a closed line to its distances, in metres.
    pub fn turned(&mut self, by: f64) {
        self.turn += by;
        for spot in &mut self.spots {
            spot.along = spot.along.map(|along| along + by);
        }
    }

    /// The least and the greatest distance along the line, on both faces, in metres.
    pub fn range(&self) -> [f64; 2] {
        let all = self.spots.iter().flat_map(|spot| spot.along);
        all.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], along| [low.min(along), high.max(along)])
    }
}

/// The outline of a cut within one lift.
#[derive(Clone, Debug)]
pub struct Rim<'a> {
    /// The cut.
    pub cut: &'a Cut,
    /// Its place in the list.
    pub number: usize,
    /// The outline: closed, or open at the beds that it bites, or two upright sides.
    pub chains: Vec<Chain>,
    /// Whether it bites the foot and the top.
    pub bites: [bool; 2],
    /// Its lowest and highest level within the lift, in metres.
    pub levels: [f64; 2],
}

impl<'a> Rim<'a> {
    /// The part of a cut's outline between two beds, `None` where a bed is not level; `None` where nothing of it is there.
    pub fn within(
        shape: &Shape<'_>,
        (number, cut): (usize, &'a Cut),
        [foot, top]: [Option<f64>; 2],
        chord: f64,
    ) -> Result<Option<Rim<'a>>, Fault> {
        let form = &cut.form;
        if foot.is_some_and(|foot| form.top() <= foot + NUDGE) || top.is_some_and(|top| form.bottom() >= top - NUDGE) {
            return Ok(None);
        }
        // A level edge close to a bed lies on it; a crown is moved off it.
        let [sill, head] = [
            if matches!(form, Form::Round { .. }) { -NUDGE } else { NUDGE },
            if form.circle().is_none() { NUDGE } else { -NUDGE },
        ];
        let low_bitten = foot.filter(|foot| form.bottom() < foot + sill);
        let high_bitten = top.filter(|top| form.top() > top - head);
        let low = low_bitten.unwrap_or_else(|| foot.map_or(form.bottom(), |foot| form.bottom().max(foot + NUDGE)));
        let high = high_bitten.unwrap_or_else(|| top.map_or(form.top(), |top| form.top().min(top - NUDGE)));
        let bites = [low_bitten.is_some(), high_bitten.is_some()];
        let mut rim = Rim { cut, number, chains: Vec::new(), bites, levels: [low, high] };
        let right = rim.upright(shape, chord);
        let left = right.iter().map(|[x, level]| [-x, *level]);
        let is_point = |spot: Option<&[f64; 2]>| spot.is_some_and(|spot| spot[0] == 0.0);
        let (no_sill, no_head) = (is_point(right.first()), is_point(right.last()));
        let outlines: Vec<Vec<[f64; 2]>> = match bites {
            [true, true] => vec![right.clone(), left.rev().collect()],
            [false, true] => vec![left.rev().chain(right[usize::from(no_sill)..].iter().copied()).collect()],
            [is_open, false] => {
                let mut all = right.clone();
                all.extend(left.rev().skip(usize::from(no_head)));
                if !is_open && no_sill {
                    all.pop();
                }
                vec![all]
            }
        };
        for outline in outlines {
            let spot = |at: [f64; 2]| -> Result<Spot, Fault> {
                let along = [rim.along(shape, SIDES[0], at)?, rim.along(shape, SIDES[1], at)?];
                Ok(Spot { at, along, lines: [None; 2] })
            };
            let spots = outline.into_iter().map(spot).collect::<Result<Vec<Spot>, Fault>>()?;
            rim.chains.push(Chain { spots, turn: 0.0 });
        }
        Ok(Some(rim))
    }

    /// Whether it is one closed outline.
    pub fn is_closed(&self) -> bool {
        self.bites == [false; 2]
    }

    /// The least and the greatest distance along the line, on both faces, in metres.
    pub fn range(&self) -> [f64; 2] {
        let ranges = self.chains.iter().map(Chain::range);
        ranges.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], [from, to]| [low.min(from), high.max(to)])
    }

    /// Whether a face has it, by place in the pair.
    pub fn is_on(&self, face: usize) -> bool {
        match self.cut.depth {
            Depth::Through { .. } => true,
            Depth::Into { side, .. } => side == SIDES[face],
        }
    }

    /// The jamb through a point of the outline, x and level in metres.
    pub fn jamb(&self, [x, _]: [f64; 2]) -> Jamb {
        match self.cut.depth {
            // A lintel is as long inside as outside.
            Depth::Through { crease, .. } if x.abs() > self.cut.form.half() + NUDGE => Jamb { x, crease, splay: 0.0 },
            Depth::Through { crease, splay } => {
                Jamb { x, crease, splay: splay[usize::from(x > 0.0)] * x / self.cut.form.half() }
            }
            Depth::Into { .. } => Jamb { x, crease: 0.0, splay: 0.0 },
        }
    }

    /// Distance along the line at which that jamb meets a face, in metres, no turns added.
    pub fn along(&self, shape: &Shape<'_>, side: Side, at: [f64; 2]) -> Result<f64, Fault> {
        shape.meeting(side, self.cut.station, self.jamb(at), at[1]).ok_or(Fault::NoMeeting(self.number))
    }

    /// The first and the last point of each open end at a bed, left before right: chain and place in it.
    pub fn bitten(&self, bed: usize) -> [(usize, usize); 2] {
        let last = |chain: usize| self.chains[chain].spots.len() - 1;
        match (self.bites, bed) {
            ([true, true], 0) => [(1, last(1)), (0, 0)],
            ([true, true], _) => [(1, 0), (0, last(0))],
            ([true, false], _) => [(0, last(0)), (0, 0)],
            _ => [(0, 0), (0, last(0))],
        }
    }

    /// A point between two neighbours of the outline, as x and level in metres.
    pub fn between(&self, a: [f64; 2], b: [f64; 2], share: f64) -> [f64; 2] {
        let [x, level] = [0, 1].map(|part| a[part] + (b[part] - a[part]) * share);
        let curved =
            self.cut.form.circle().filter(|_| a[1] != b[1] && a[1].min(b[1]) >= self.cut.form.spring() - NUDGE);
        let Some([radius, middle]) = curved else { return [x, level] };
        let out = radius / x.hypot(level - middle);
        [x * out, (middle + (level - middle) * out).clamp(self.levels[0], self.levels[1])]
    }

    /// The right side from its lowest to its highest point: x and level in metres.
    fn upright(&self, shape: &Shape<'_>, chord: f64) -> Vec<[f64; 2]> {
        let form = &self.cut.form;
        let [low, high] = self.levels;
        // Where a face leans and bends, an upright jamb meets it in a flat curve: four chord steps of a metre's bend.
        let step = if shape.lean == [0.0; 2] { f64::INFINITY } else { 4.0 * (8.0 * chord).sqrt() };
        let climb = |side: &mut Vec<[f64; 2]>, x: f64, from: f64, to: f64| {
            let parts = ((to - from) / step).ceil().clamp(1.0, 4096.0) as usize;
            side.extend((1..=parts).map(|part| [x, from + (to - from) * part as f64 / parts as f64]));
        };
        if let Form::Shouldered { half, head, wide, .. } = *form {
            let mut side = Vec::new();
            if low < head - NUDGE {
                side.push([half, low]);
                climb(&mut side, half, low, if high > head + NUDGE { head } else { high });
            }
            if high > head + NUDGE {
                let foot = if low < head - NUDGE { head } else { low };
                side.push([wide, foot]);
                climb(&mut side, wide, foot, high);
            }
            return side;
        }
        let half = |level: f64| form.half_at(level.clamp(form.bottom(), form.top()));
        let foot = if matches!(form, Form::Round { .. }) && !self.bites[0] { 0.0 } else { half(low) };
        let mut side = vec![[foot, low]];
        let spring = form.spring().min(high);
        if spring > low + NUDGE {
            climb(&mut side, foot, low, spring);
        }
        let Some([radius, middle]) = form.circle().filter(|_| high > spring.max(low) + NUDGE) else { return side };
        let angle = |level: f64| ((level - middle) / radius).clamp(-1.0, 1.0).asin();
        let from = if foot == 0.0 { -std::f64::consts::FRAC_PI_2 } else { angle(spring.max(low)) };
        let to = if self.bites[1] { angle(high) } else { std::f64::consts::FRAC_PI_2 };
        let widened = match self.cut.depth {
            Depth::Through { splay, .. } => {
                1.0 + splay[0].max(splay[1]).max(0.0) * shape.thickness.range()[1] / form.half()
            }
            Depth::Into { .. } => 1.0,
        };
        let step = (8.0 * chord / (radius * widened)).sqrt().min(STEP);
        let parts = ((to - from) / step).ceil().clamp(1.0, 4096.0) as usize;
        for part in 1..=parts {
            let angle = from + (to - from) * part as f64 / parts as f64;
            let level = if part == parts { high } else { (middle + radius * angle.sin()).clamp(low, high) };
            let is_crown = part == parts && !self.bites[1];
            side.push([if is_crown { 0.0 } else { radius * angle.cos() }, level]);
        }
        side
    }
}
