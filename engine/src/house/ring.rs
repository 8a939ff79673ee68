//! The measured poles of a reciprocal roof with nothing missing: which one lies where, on the plate as it is.

use kurbo::{Point, Vec2};

use super::Wall;
use super::pile::{self, PilePole};
use super::place::{known, within};
use super::raised;
use super::ring_faults::{self, Refused};
use crate::build::{self, Source, Written};
use crate::known::{Known, Origin};
use crate::roof::poles::{
    self, Band, Candidate, Choice, Errors, Figures, Laid, Layout, Pole, Position, Propped, Rafter, Rests, RestsOn, Wish,
};
use crate::units::{Angle, Length, Mass, System};
use crate::wall;

/// Corners of the plate line as it is followed round.
const PLATE: u32 = 360;

/// How far a chord of the eave may lie from its curve, as a share of the wall's length.
pub(super) const CHORD: f64 = 5e-5;

/// The tail of a pole makes it thinner at its crossings, which makes it lie flatter, and the tail shorter: so many turns are
/// far more than this needs.
const TURNS: u32 = 5;

/// The poles of a ring, chosen from the pile and laid.
#[derive(Clone, Debug)]
pub struct Ring {
    /// The pile.
    pub pile: Vec<PilePole>,
    /// What a millimetre counts that is cut off, that a notch is other than wanted, that a pole bows to the side.
    pub weights: [Known<f64>; 3],
    /// How closely diameters, plate and eye are measured.
    pub measured_to: Known<Length>,
    /// What each of those who lift the poles lifts alone.
    pub alone: Known<Mass>,
    /// Direction of the first corner of the eye from its middle.
    pub turned: Known<Angle>,
    /// How deep a pole is let into the plate.
    pub seat: Known<Length>,
    /// What a crossing beds when the prop goes.
    pub bedding: Known<Length>,
    /// What the prop stands higher.
    pub clearance: Known<Length>,
    /// How far the plate lies above where it should at each pole; none where it was not measured.
    pub seats: Vec<Known<Length>>,
    /// Levels of the poles that are up, in the order of raising: each at its mark where it rests, the prop in.
    pub raised: Vec<Known<Length>>,
    /// The same of every place as they were planned.
    pub planned: Vec<Length>,
    /// From each seat out to the eave in plan, along the pole.
    pub tails: Vec<Length>,
    /// The poles where they lie.
    pub layout: Layout,
    /// The ring that they make.
    pub solved: poles::Ring,
    /// The ring on its prop.
    pub propped: Propped,
    /// The ring when the prop is gone and the crossings have bedded.
    pub settled: poles::Ring,
    /// How far off its figures may be.
    pub bands: Figures<Band>,
    /// Which pole lies where, and what that costs.
    pub choice: Choice,
    /// What is wanted of the pole in each place.
    pub positions: Vec<Position>,
    /// What makes one choice better than another.
    pub wish: Wish,
}

impl Ring {
    /// The pole of the pile that lies in a place.
    #[must_use]
    pub fn pole(&self, place: usize) -> &PilePole {
        &self.pile[self.choice.places[place].pole]
    }

    /// Where the prop stands, in plan, in metres: under the second crossing of the first pole that is raised.
    #[must_use]
    pub fn prop(&self) -> Point {
        let first = self.propped.order.first().map_or(0, |&first| first);
        let rafter = &self.layout.rafters[first];
        let seat = Point::new(rafter.support[0].in_m(), rafter.support[1].in_m());
        let toward = Point::new(rafter.toward[0].in_m(), rafter.toward[1].in_m());
        seat + (toward - seat).normalize() * self.propped.sets[first].plan_lengths[1].in_m()
    }

    /// What a place is called in paths.
    #[must_use]
    pub fn path(place: usize, noun: &str) -> String {
        format!("roof.places.{}.{noun}", place + 1)
    }
}

/// What the roof says of its ring.
pub(super) struct Wanted<'a> {
    pub count: &'a Known<u64>,
    pub eye: &'a Known<Length>,
    pub notch: &'a Known<Length>,
    pub tip: &'a Known<Length>,
    pub overhang: &'a Known<Length>,
    /// Height of the timber on the top of the wall.
    pub beam: Length,
}

pub(super) fn place(
    source: &Source<'_>,
    (roof, written): (&build::Roof, &build::Poles),
    wall: &Wall,
    wanted: &Wanted<'_>,
    system: System,
) -> Option<Ring> {
    let pile = pile::pile(source, written, wanted.count.value, system)?;
    let keys = &roof.ring;
    let length = |written: &Option<Written<Length>>, [from, to]: [f64; 2], what: &str, or: Known<Length>| {
        within(source, written.as_ref(), Length::mm(from)..Length::mm(to), what, system).unwrap_or(or)
    };
    let assumed = |mm: f64, path: &str, why| Known::assumed(Length::mm(mm), path, Origin::Judgement, why);
    let seat = assumed(20.0, "roof.seat", "a flat seat that a pole does not roll from");
    let bedding = assumed(2.0, "roof.bedding", "scribed crossings close by about this under their load");
    let clearance = assumed(60.0, "roof.clearance", "room for the last pole to slip in under the first");
    let measured = assumed(5.0, "poles.measured-to", "a folding rule on bark, a level over four metres");
    let seats = seats(source, keys, wanted, system)?;
    let raised = raised::levels(source, keys, wanted.count.value, system)?;
    let laid = pile::laid(source, written, &pile, wanted.count.value)?;
    if !ring_faults::notch_leaves_something(source, written, &pile, wanted.notch.value, system) {
        return None;
    }
    let ring = Loose {
        weights: pile::weights(source, &written.weights, system),
        measured_to: length(&written.measured_to, [0.5, 50.0], "how closely one measures", measured),
        alone: pile::alone(source, written, system)?,
        turned: known(keys.turned.as_ref()).unwrap_or_else(|| {
            Known::assumed(
                Angle::deg(0.0),
                "roof.turned",
                Origin::Judgement,
                "the first corner of the eye lies along x",
            )
        }),
        seat: length(&keys.seat, [0.0, 150.0], "how deep a pole is let in", seat),
        bedding: length(&keys.bedding, [0.0, 30.0], "what a crossing beds", bedding),
        clearance: length(&keys.clearance, [0.0, 400.0], "what the prop stands higher", clearance),
        seats,
        laid,
        pile,
    };
    let first = written.pile.first().or(written.typical.as_ref())?;
    match ring.laid(wall, wanted) {
        Ok(ring) if ring_faults::prop_is_in_the_room(source, roof, wall, &ring) => {
            raised::solved_again(source, keys, ring, raised)
        }
        Ok(_) => None,
        Err((message, hint)) => {
            let path = if written.pile.is_empty() { "poles.typical" } else { "poles.pile" };
            source.fault(first.tag.span.clone(), path, message, hint);
            None
        }
    }
}

fn seats(
    source: &Source<'_>,
    keys: &build::RingKeys,
    wanted: &Wanted<'_>,
    system: System,
) -> Option<Vec<Known<Length>>> {
    let range = || Length::mm(-300.0)..Length::mm(300.0);
    let what = "how far a plate lies above where it should";
    let hint = "write one for each pole, in their order; the rest lies as drawn";
    raised::at_most_one_each(source, &keys.seats, wanted.count.value, ("roof.seats", "seats", hint))?;
    let read = keys.seats.iter().map(|one| within(source, Some(one), range(), what, system));
    read.collect()
}

/// A ring before its poles are chosen.
struct Loose {
    pile: Vec<PilePole>,
    weights: [Known<f64>; 3],
    measured_to: Known<Length>,
    alone: Known<Mass>,
    turned: Known<Angle>,
    seat: Known<Length>,
    bedding: Known<Length>,
    clearance: Known<Length>,
    seats: Vec<Known<Length>>,
    /// The poles that lie, from the first place on.
    laid: Vec<Laid>,
}

impl Loose {
    fn laid(self, wall: &Wall, wanted: &Wanted<'_>) -> Result<Ring, Refused> {
        let refused = |fault: poles::Fault| ring_faults::refused(fault, "mend the pile, the eye or the notch");
        let count = usize::try_from(wanted.count.value).unwrap_or(usize::MAX);
        if self.pile.len() < count {
            let message = format!("{count} poles bear each other, and the pile has {}", self.pile.len());
            return Err((message, "measure more poles, or take fewer into the ring".to_owned()));
        }
        let starts = self.starts(wall, wanted, count).map_err(refused)?;
        let tails = tails(wall, wanted, &starts);
        let candidates: Vec<Candidate> = self.pile.iter().map(PilePole::candidate).collect();
        let typical = |_: usize| typical(&candidates);
        let even = |_: usize| wanted.notch.value;
        let layout = self.layout(&starts, &tails, wanted, (&typical, &even)).map_err(refused)?;
        let solved = poles::ring(&layout).map_err(refused)?;
        let wish = Wish {
            waste: self.weights[0].value,
            notch: self.weights[1].value,
            bow: self.weights[2].value,
            wanted_notch: wanted.notch.value,
            least_diameter: Length::mm(1.0),
            most_across: Length::m(1.0),
        };
        let positions = poles::positions(&layout, &solved);
        let choice = poles::choose_at_once(&positions, &candidates, &wish, &self.laid)
            .map_err(|short| ring_faults::short(&self.pile, &self.laid, &short.rows, &positions))?;
        let chosen = |place: usize| {
            let placed = &choice.places[place];
            let pole = candidates[placed.pole].pole;
            if placed.is_turned { pole.turned() } else { pole }
        };
        let cut = |place: usize| choice.places[place].notch.max(Length::ZERO);
        let mut layout = self.layout(&starts, &tails, wanted, (&chosen, &cut)).map_err(refused)?;
        let base = wall.height.value + wanted.beam;
        layout.rafters.iter_mut().for_each(|rafter| rafter.support[2] = rafter.support[2] + base);
        let solved = poles::ring(&layout).map_err(refused)?;
        if let Some(fault) = solved.faults.first() {
            let hint = "measure longer poles, make the tip or the overhang shorter, or the eye wider";
            return Err(ring_faults::refused(*fault, hint));
        }
        let bands = bands(&layout, self.measured_to.value).map_err(refused)?;
        let propped = poles::propped(&layout, &solved, 0, self.clearance.value).map_err(refused)?;
        let settled = poles::bedded(&layout, &solved, self.bedding.value).map_err(refused)?;
        let planned = poles::marked_levels(&layout, &solved, &propped.sets).map_err(refused)?;
        let Loose { pile, weights, measured_to, alone, turned, seat, bedding, clearance, seats, .. } = self;
        Ok(Ring {
            pile,
            weights,
            measured_to,
            alone,
            turned,
            seat,
            bedding,
            clearance,
            seats,
            raised: Vec::new(),
            planned,
            tails: tails.into_iter().map(Length::m).collect(),
            layout,
            solved,
            propped,
            settled,
            bands,
            choice,
            positions,
            wish,
        })
    }

    /// The supports, in height from where the plate should be, and a point toward which each pole runs.
    fn starts(&self, wall: &Wall, wanted: &Wanted<'_>, count: usize) -> Result<Vec<poles::Start>, poles::Fault> {
        let offset = wall::plate_offset(wall.batter_inside.value, wall.batter_outside.value, wall.means()[1]).value;
        let plate: Vec<[Length; 3]> = (0..PLATE)
            .map(|place| {
                let along = wall.line.length() * f64::from(place) / f64::from(PLATE);
                let at = wall.line.at(along).beside(offset.in_m());
                let above = wall.top.at(&wall.line, along) - wall.height.value.in_m();
                [Length::m(at.x), Length::m(at.y), Length::m(above)]
            })
            .collect();
        let centre = wall.line.centre();
        let corners: Vec<[Length; 2]> = (0..count)
            .map(|corner| {
                let turn = self.turned.value.in_rad() + std::f64::consts::TAU * corner as f64 / count as f64;
                let at = centre + Vec2::from_angle(turn) * wanted.eye.value.in_m();
                [Length::m(at.x), Length::m(at.y)]
            })
            .collect();
        let mut starts = poles::supports(&plate, &corners, RestsOn::Next)?;
        for (start, above) in starts.iter_mut().zip(&self.seats) {
            start.0[2] = start.0[2] + above.value;
        }
        Ok(starts)
    }

    /// The poles where they lie, their tails reaching to the eave.
    fn layout(
        &self,
        starts: &[poles::Start],
        tails: &[f64],
        wanted: &Wanted<'_>,
        (pole, notch): (&dyn Fn(usize) -> Pole, &dyn Fn(usize) -> Length),
    ) -> Result<Layout, poles::Fault> {
        let rafter = |(place, &(support, toward)): (usize, &poles::Start)| Rafter {
            pole: pole(place),
            support,
            rests: Rests::Top(self.seat.value),
            toward,
            overhang: Length::m(tails[place]),
            notch: notch(place),
            bedding: Length::ZERO,
            beyond: wanted.tip.value,
        };
        let rafters = starts.iter().enumerate().map(rafter).collect();
        let mut layout = Layout { rafters, rests_on: RestsOn::Next };
        let mut near: Option<Vec<Angle>> = None;
        for _ in 0..TURNS {
            let pitches = poles::pitches(&layout, near.as_deref())?;
            for ((rafter, pitch), tail) in layout.rafters.iter_mut().zip(&pitches).zip(tails) {
                let steep = 1.0 / pitch.in_rad().cos();
                rafter.overhang = Length::m(tail * steep);
                rafter.beyond = wanted.tip.value * steep;
            }
            near = Some(pitches);
        }
        Ok(layout)
    }
}

/// How far off the figures of a ring may be.
pub(super) fn bands(layout: &Layout, error: Length) -> Result<Figures<Band>, poles::Fault> {
    // Bands are small differences of large numbers: for them heights count from the plate.
    let mut layout = layout.clone();
    let plate = layout.rafters.first().map_or(Length::ZERO, |rafter| rafter.support[2]);
    layout.rafters.iter_mut().for_each(|rafter| rafter.support[2] = rafter.support[2] - plate);
    let errors = Errors { diameter: error, plate: error, eye: error };
    Ok(poles::bands(&poles::effects(&layout, &poles::ring(&layout)?, &errors)?))
}

/// Poles of one size in the place of those of a ring.
pub(super) fn laid_typically(
    ring: &Ring,
    wall: &Wall,
    wanted: &Wanted<'_>,
    pole: Pole,
) -> Result<Layout, poles::Fault> {
    let loose = Loose {
        pile: Vec::new(),
        weights: ring.weights.clone(),
        measured_to: ring.measured_to.clone(),
        alone: ring.alone.clone(),
        turned: ring.turned.clone(),
        seat: ring.seat.clone(),
        bedding: ring.bedding.clone(),
        clearance: ring.clearance.clone(),
        seats: Vec::new(),
        laid: Vec::new(),
    };
    let starts = loose.starts(wall, wanted, usize::try_from(wanted.count.value).unwrap_or(usize::MAX))?;
    let tails = tails(wall, wanted, &starts);
    loose.layout(&starts, &tails, wanted, (&|_| pole, &|_| wanted.notch.value))
}

/// A pole as the pile is on the whole, straight.
fn typical(pile: &[Candidate]) -> Pole {
    let mean = |of: &dyn Fn(&Pole) -> Length| {
        pile.iter().map(|one| of(&one.pole)).fold(Length::ZERO, |sum, length| sum + length) / pile.len() as f64
    };
    Pole {
        length: mean(&|pole| pole.length),
        butt: mean(&|pole| pole.butt),
        tip: mean(&|pole| pole.tip),
        bow: Length::ZERO,
        bow_turn: Angle::rad(0.0),
    }
}

/// From each support out to the eave along the pole, in plan, in metres.
fn tails(wall: &Wall, wanted: &Wanted<'_>, starts: &[poles::Start]) -> Vec<f64> {
    let [thickness, height] = wall.means();
    let offset = wall::eave_offset(thickness, wall.batter_outside.value, height, wanted.overhang.value).value;
    let eave = wall.line.outline(offset.in_m(), CHORD * wall.line.length());
    let tail = |&([x, y, _], toward): &poles::Start| {
        let from = Point::new(x.in_m(), y.in_m());
        let way = (from - Point::new(toward[0].in_m(), toward[1].in_m())).normalize();
        let sides = eave.iter().zip(eave.iter().cycle().skip(1));
        let met = sides.filter_map(|(&one, &other)| {
            let side = other - one;
            let (along, share) =
                ((one - from).cross(side) / way.cross(side), (one - from).cross(way) / way.cross(side));
            (along > 0.0 && (0.0..=1.0).contains(&share)).then_some(along)
        });
        met.fold(f64::INFINITY, f64::min)
    };
    starts.iter().map(tail).map(|tail| if tail.is_finite() { tail } else { wanted.overhang.value.in_m() }).collect()
}
