//! Straight rafters that all fall one way, where each lies: its eaves, its seats, what is packed under them, its pole.

use kurbo::{Point, Vec2};

use super::Wall;
use super::pile::{self, PilePole};
use super::place::shown;
use crate::build::{self, Source};
use crate::known::Known;
use crate::roof::poles::{Laid, Pole};
use crate::roof::{self, along_rafter};
use crate::solve::assignment::assignment;
use crate::units::{Angle, Length, Mass, Slope, System};
use crate::wall;

/// The rafters of a roof that falls one way.
#[derive(Clone, Debug)]
pub struct Rafters {
    /// Unit direction in which they fall, in plan.
    pub fall: Vec2,
    /// Where the first one lies, across the fall from the origin of the plan.
    pub first: Length,
    /// From one to the next.
    pub apart: Length,
    /// Level of their undersides where the reach along the fall is zero, were there no timber on the wall.
    pub base: Length,
    /// The rafters in their order across the fall.
    pub places: Vec<Rafter>,
    /// Their poles; none where nobody measured one.
    pub pile: Option<RafterPile>,
}

/// A rafter; ways up the slope are counted in plan from a line through the origin, across the fall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rafter {
    /// Where its axis crosses the eave, low and high.
    pub eave: [Length; 2],
    /// Where it rests, low and high: over the middle of the wall's top, or from end to end of the side wall that it lies on.
    pub seats: [Length; 2],
    /// How far across from the first one that lies: in its axis, or for one along a side wall half its width inward of it.
    pub bears_at: Length,
    /// Whether it lies along a side wall.
    pub is_on_side: bool,
    /// How high its seats as cut lie over the top of wall or beam.
    pub packing: [Length; 2],
}

/// Which pole lies in which place.
#[derive(Clone, Debug)]
pub struct RafterPile {
    /// The poles.
    pub pile: Vec<PilePole>,
    /// The pole of each place.
    pub laid: Vec<Laid>,
    /// The poles as they are cut, low end first.
    pub cut: Vec<Pole>,
    /// What a millimetre counts that is cut off, and that a pole bows to the side.
    pub weights: [Known<f64>; 2],
    /// What that costs in all, in millimetres: no arrangement costs less.
    pub cost_mm: f64,
    /// What each of those who lift them lifts alone.
    pub alone: Known<Mass>,
}

/// What the roof says of its rafters.
pub(super) struct Wanted<'a> {
    pub pitch: &'a Known<Slope>,
    pub falls: &'a Known<Angle>,
    pub spacing: &'a Known<Length>,
    pub overhang: Length,
}

impl Rafters {
    /// What a place is called in paths.
    #[must_use]
    pub fn path(place: usize, noun: &str) -> String {
        format!("roof.rafters.{}.{noun}", place + 1)
    }

    /// How far across from the first one a rafter lies.
    #[must_use]
    pub fn across(&self, place: usize) -> Length {
        self.apart * place as f64
    }

    /// A point over which a rafter passes, so far across from the first and so far up.
    #[must_use]
    pub fn point(&self, across: Length, up: Length) -> Point {
        (self.fall.turn_90() * (self.first + across).in_m() - self.fall * up.in_m()).to_point()
    }

    /// How far across from the first one, and how far up, a point lies.
    #[must_use]
    pub fn reach(&self, point: Point) -> [Length; 2] {
        let at = point.to_vec2();
        [Length::m(at.dot(self.fall.turn_90())) - self.first, Length::m(-at.dot(self.fall))]
    }

    /// How wide a rafter lies at the most, with what it bows to both sides; the diameter where its pole is not measured.
    #[must_use]
    pub fn width(&self, place: usize, diameter: Length) -> Length {
        self.pole(place).map_or(diameter, |(own, cut)| cut.butt.max(cut.tip) + own.bow[1].value * 2.0)
    }

    /// The pole of a place, as it is cut.
    #[must_use]
    pub fn pole(&self, place: usize) -> Option<(&PilePole, Pole)> {
        let own = self.pile.as_ref()?;
        Some((&own.pile[own.laid.get(place)?.pole], *own.cut.get(place)?))
    }
}

pub(super) fn place(
    source: &Source<'_>,
    (roof, written): (&build::Roof, &build::Poles),
    wall: &Wall,
    wanted: &Wanted<'_>,
    system: System,
) -> Option<Rafters> {
    let [thickness, height] = wall.means();
    let plate = wall::plate_offset(wall.batter_inside.value, wall.batter_outside.value, height).value.in_m();
    let eave = wall::eave_offset(thickness, wall.batter_outside.value, height, wanted.overhang).value.in_m();
    let fall = Vec2::from_angle(wanted.falls.value.in_rad());
    let [least, most] = wall.line.reach(plate, fall.turn_90()).0;
    let across = Length::m(most - least);
    let count = roof::rafter_count(across, wanted.spacing.value).value;
    let pitch = wanted.pitch.value;
    let base = base(wall, plate, fall, pitch.in_ratio());
    let half = written.diameter.as_ref().map_or(0.0, |diameter| 0.5 * diameter.value.in_m());
    let one = |place: u64| {
        let at = least + roof::rafter_place(across, count, place).value.in_m();
        let is_on_side = place == 0 || place + 1 == count;
        // The outermost two lie over the middle of their walls: what bears them is the wall under their own width.
        let inward = if place == 0 { half } else { -half };
        let bearing = if is_on_side { at + inward } else { at };
        let [eave, seats] = [(eave, at), (plate, bearing)].map(|(offset, at)| {
            let origin = (fall.turn_90() * at).to_point();
            let met = wall.line.crossings(offset, origin, -fall);
            Some([*met.first()?, *met.last()?])
        });
        let seats = seats?;
        let packing = seats.map(|up| {
            let under = (fall.turn_90() * bearing - fall * up).to_point();
            let along = wall.line.along_line(wall.line.nearest(under));
            Length::m(base + up * pitch.in_ratio() - wall.top.at(&wall.line, along))
        });
        let (eave, seats) = (eave?.map(Length::m), seats.map(Length::m));
        Some(Rafter { eave, seats, bears_at: Length::m(bearing - least), is_on_side, packing })
    };
    let places: Option<Vec<Rafter>> = (0..count).map(one).collect();
    let Some(places) = places else {
        let at = roof.spacing.as_ref()?;
        let message = "a rafter of this roof meets its eave nowhere";
        source.fault(at.span.clone(), &at.path, message, "write another spacing, or another direction of fall");
        return None;
    };
    let angle = roof::angle(pitch).value;
    let lengths: Vec<Length> = places.iter().map(|one| along_rafter(angle, one.eave[1] - one.eave[0]).value).collect();
    let pile = laid(source, written, &lengths, system)?;
    let apart = roof::rafter_place(across, count, 1).value;
    Some(Rafters { fall, first: Length::m(least), apart, base: Length::m(base), places, pile })
}

/// Level of the undersides where the reach along the fall is zero, in metres: they lie on the low side of a level wall, else
/// where the top stands highest against their fall.
fn base(wall: &Wall, plate: f64, fall: Vec2, pitch: f64) -> f64 {
    if wall.top.is_level() {
        let [_, lowest] = wall.line.reach(plate, fall).0;
        return wall.height.value.in_m() + lowest * pitch;
    }
    wall::highest_against(&wall.line, plate, fall * -pitch, |along| wall.top.at(&wall.line, along))
}

/// The poles in their places, at the least waste and bow to the side; `None` where a fault was told, `Some(None)` without a pile.
fn laid(source: &Source<'_>, written: &build::Poles, lengths: &[Length], system: System) -> Option<Option<RafterPile>> {
    let Some(first) = written.pile.first().or(written.typical.as_ref()) else {
        return is_of_no_use(source, written).then_some(None);
    };
    let path = if written.pile.is_empty() { "poles.typical" } else { "poles.pile" };
    let pile = pile::pile(source, written, lengths.len() as u64, system)?;
    let fixed = pile::laid(source, written, &pile, lengths.len() as u64)?;
    let [waste, _, bow] = pile::weights(source, &written.weights, system);
    if let Some(notch) = &written.weights.notch {
        let hint = "leave it out: waste and bow choose among rafters";
        source.fault(notch.span.clone(), &notch.path, "rafters that lie side by side have no notch together", hint);
        return None;
    }
    let alone = pile::alone(source, written, system)?;
    if pile.len() < lengths.len() {
        let message = format!("the roof has {} rafters, and the pile has {} poles", lengths.len(), pile.len());
        source.fault(
            first.tag.span.clone(),
            path,
            message,
            "measure more poles, write [poles.typical], or space them wider",
        );
        return None;
    }
    let cost = |(place, wants): (usize, &Length)| {
        let of = |(number, pole): (usize, &PilePole)| {
            let is_fixed = |own: &Laid| own.pole == number;
            let is_taken = fixed.get(place).map_or_else(|| fixed.iter().any(is_fixed), |own| !is_fixed(own));
            if is_taken || pole.length.value < *wants {
                return f64::INFINITY;
            }
            waste.value * (pole.length.value - *wants).in_mm() + bow.value * pole.bow[1].value.in_mm()
        };
        pile.iter().enumerate().map(of).collect::<Vec<f64>>()
    };
    let costs: Vec<Vec<f64>> = lengths.iter().enumerate().map(cost).collect();
    // Equal rafters may exchange their poles: rounding must not say which.
    let even: Vec<Vec<f64>> = costs.iter().map(|row| row.iter().map(|cost| (cost * 1e6).round()).collect()).collect();
    let chosen = match assignment(&even) {
        Ok(chosen) => chosen,
        Err(short) => {
            let (message, hint) = too_short(&pile, &fixed, &short.rows, lengths, system);
            source.fault(first.tag.span.clone(), path, message, hint);
            return None;
        }
    };
    let cost_mm = chosen.iter().enumerate().map(|(place, &pole)| costs[place][pole]).sum();
    let laid: Vec<Laid> = chosen
        .iter()
        .enumerate()
        .map(|(place, &pole)| Laid { pole, is_turned: fixed.get(place).is_some_and(|own| own.is_turned) })
        .collect();
    let cut = laid.iter().zip(lengths).map(|(own, &length)| {
        let pole = pile[own.pole].candidate().pole;
        if own.is_turned { pole.turned().cut(length) } else { pole.cut(length) }
    });
    let cut = cut.collect();
    Some(Some(RafterPile { cut, laid, weights: [waste, bow], cost_mm, alone, pile }))
}

/// Refuses what says how poles of a pile are laid where there is none.
fn is_of_no_use(source: &Source<'_>, written: &build::Poles) -> bool {
    let weights = [&written.weights.waste, &written.weights.notch, &written.weights.bow];
    let weights = weights.into_iter().flatten().map(|weight| (&weight.span, weight.path.as_str()));
    let laid = written.laid.iter().map(|laid| (&laid.span, laid.path.as_str()));
    let alone = written.alone.iter().map(|alone| (&alone.span, alone.path.as_str()));
    let Some((span, path)) = laid.chain(weights).chain(alone).next() else { return true };
    let hint = "write [poles.pile.TAG] for each pole, or leave it out";
    source.fault(span.clone(), path, "this says how measured poles are laid, and none is measured", hint);
    false
}

fn too_short(
    pile: &[PilePole],
    fixed: &[Laid],
    rows: &[usize],
    lengths: &[Length],
    system: System,
) -> (String, &'static str) {
    if let [place] = rows
        && let Some(own) = fixed.get(*place)
    {
        let (pole, wants) = (&pile[own.pole], shown(lengths[*place], system));
        let long = shown(pole.length.value, system);
        let message = format!("`{}` is {long} long, and the rafter in place {} wants {wants}", pole.tag, place + 1);
        return (message, "lay a longer pole there, or make the overhang smaller");
    }
    let least = rows.iter().map(|&row| lengths[row]).fold(Length::m(f64::INFINITY), Length::min);
    let reaching = pile.iter().filter(|pole| pole.length.value >= least).count();
    let rafters = if rows.len() == 1 {
        "one rafter wants a pole".to_owned()
    } else {
        format!("{} rafters want poles", rows.len())
    };
    let message = format!("{rafters} of {} and more, and the pile has {reaching} as long", shown(least, system));
    (message, "measure longer poles, or make the overhang smaller")
}
