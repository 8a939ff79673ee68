//! The roof with nothing missing: how it stands, its poles, its layers. A first cut, for counting.

use super::Wall;
use super::boarding::{self, Boarding};
use super::deck::{self, Deck};
use super::place::{known, shown, within};
use super::planks::{self, Planks};
use super::rafters::{self, Rafters};
use super::ring::{self, Ring};
use super::roof_layers::{self, Layer, Weight};
use super::roof_loads::{self, RoofSoil, SiteLoads, SlidingFeet, Tie};
use super::roof_wood::{self, Bolt, Code, Wood};
use super::second_ring::SecondRing;
use super::secondary::{self, Secondary};
use crate::build::{self, Build, RoofKind, Source};
use crate::known::{Known, Origin};
use crate::units::{Angle, Area, Density, Length, Slope, System, Volume};
use crate::{roof, wall};

/// A roof.
#[derive(Clone, Debug)]
pub struct Roof {
    /// How it stands.
    pub frame: Frame,
    /// From the outer face of the wall's top to the eave, level.
    pub overhang: Known<Length>,
    /// Mean diameter of the poles.
    pub diameter: Known<Length>,
    /// Density of their wood as it is lifted.
    pub density: Known<Density>,
    /// What the poles are bought as.
    pub of: String,
    /// Layers from the poles up.
    pub layers: Vec<Layer>,
    /// The soil among them; none where nothing grows on the roof.
    pub soil: Option<RoofSoil>,
    /// The code by which its timber is held, with what that needs; none where the site names none.
    pub held: Option<Held>,
    /// The deck; none where the poles are not measured one by one.
    pub deck: Option<Box<Deck>>,
    /// The boards over straight rafters; none where nobody asks for them, or where the poles bear each other.
    pub boarding: Option<Box<Boarding>>,
    /// Secondary rafters between its poles, where they are written.
    pub secondary: Option<Secondary>,
}

/// What a code needs to hold a roof.
#[derive(Clone, Debug)]
pub struct Held {
    /// The code.
    pub code: Code,
    /// Loads of the place.
    pub loads: SiteLoads,
    /// The wood of the poles.
    pub wood: Wood,
    /// The bolts of the crossings.
    pub bolt: Bolt,
    /// The wood of the bond beam; none without one.
    pub planks: Option<Planks>,
    /// The tie at an end of a rafter; none where nobody says what it holds.
    pub tie: Option<Tie>,
    /// The feet of poles that may slide on it; none where nobody says what holds them.
    pub feet: Option<SlidingFeet>,
}

/// How a roof stands.
#[derive(Clone, Debug)]
pub enum Frame {
    /// Poles that bear each other round an eye.
    Reciprocal {
        /// How many.
        count: Known<u64>,
        /// Radius of the circle through the crossings.
        eye: Known<Length>,
        /// What notches take off the distance of two poles at their crossing.
        notch: Known<Length>,
        /// What a pole runs on past its last crossing, in plan.
        tip: Known<Length>,
        /// The poles that are measured one by one, where they lie.
        ring: Option<Box<Ring>>,
    },
    /// Straight pole rafters that all fall one way.
    OneWay {
        /// Rise for each run.
        pitch: Known<Slope>,
        /// Direction in which it falls, anticlockwise from the x axis.
        falls: Known<Angle>,
        /// From rafter to rafter, at most.
        spacing: Known<Length>,
        /// How deep a rafter is let into its plates.
        seat: Known<Length>,
        /// Where each of them lies.
        rafters: Box<Rafters>,
    },
}

impl Roof {
    /// Whether what bears the rafters on their high side, and closes the wall below them, is not in the build: they rise over
    /// a level wall, and nothing is written of the gap.
    #[must_use]
    pub fn is_open(&self, wall: &Wall, has_gap: bool) -> bool {
        matches!(self.frame, Frame::OneWay { .. }) && wall.top.is_level() && !has_gap
    }

    /// The second ring that its secondary rafters are.
    #[must_use]
    pub fn second_ring(&self) -> Option<&SecondRing> {
        self.secondary.as_ref()?.second_ring().map(|(own, _)| own)
    }

    /// Whether a second ring lifts the boards of its deck off the poles.
    #[must_use]
    pub fn is_raised(&self) -> bool {
        self.second_ring().is_some()
    }

    /// Whether boards are laid out on its poles as they lie: what lies on those is more than a first cut.
    #[must_use]
    pub fn is_decked(&self) -> bool {
        self.deck.is_some() || self.boarding.is_some()
    }

    /// The layer that is its deck where boards are laid out: the first that is not a sheet.
    #[must_use]
    pub fn board_layer(&self) -> Option<(&Layer, &Known<Length>)> {
        let first = self.layers.iter().find_map(|layer| match &layer.weight {
            Weight::Thick(thickness, ..) => Some((layer, thickness)),
            Weight::Sheet(_) => None,
        });
        first.filter(|_| self.is_decked())
    }

    /// What a bucket holds as it is hoisted to what is laid out.
    #[must_use]
    pub fn bucket(&self) -> Option<&Known<Volume>> {
        let of_boarding = || self.boarding.as_ref().map(|boarding| &boarding.bucket);
        self.deck.as_ref().map(|deck| &deck.bucket).or_else(of_boarding)
    }
}

/// The roof of a build file, on its wall.
pub(super) fn place(
    source: &Source<'_>,
    build: &Build,
    wall: &Wall,
    (beam, are_planks_wood): (Length, bool),
    system: System,
) -> Option<Roof> {
    let written = build.roof.as_ref()?;
    let kind = written.kind.as_ref()?.value;
    let overhangs = Length::ZERO..Length::m(3.0);
    let overhang = within(source, written.overhang.as_ref(), overhangs, "the overhang of a roof", system);
    let Some(poles) = &build.poles else {
        let at = written.kind.as_ref()?;
        source.fault(
            at.span.clone(),
            "poles",
            "a roof of poles has no poles",
            "write [poles] with their mean diameter, such as diameter = \"180 mm\"",
        );
        return None;
    };
    let diameters = Length::mm(40.0)..Length::mm(600.0);
    let diameter = within(source, poles.diameter.as_ref(), diameters, "a pole's diameter", system);
    let densities = Density::kg_m3(200.0)..Density::kg_m3(1300.0);
    let density =
        within(source, poles.density.as_ref(), densities, "the density of a pole", system).unwrap_or_else(|| {
            let why = "half-dry softwood; weigh a pole of yours";
            Known::assumed(Density::kg_m3(600.0), "poles.density", Origin::Judgement, why)
        });
    let layers: Vec<Layer> =
        written.layers.iter().filter_map(|layer| roof_layers::layer(source, layer, system)).collect();
    let of = poles.of.as_ref().map_or_else(|| "pole".to_owned(), |of| of.value.clone());
    let (overhang, diameter) = (overhang?, diameter?);
    if !eave_is_whole(source, written, wall, overhang.value, system) {
        return None;
    }
    let mut frame = match kind {
        RoofKind::Reciprocal => reciprocal(source, written, poles, &diameter, wall, system)?,
        RoofKind::OneWay => one_way(source, (written, poles), wall, overhang.value, system)?,
    };
    if let Frame::Reciprocal { count, eye, notch, tip, ring } = &mut frame
        && (!poles.pile.is_empty() || poles.typical.is_some())
    {
        let wanted = ring::Wanted { count, eye, notch, tip, overhang: &overhang, beam };
        *ring = Some(Box::new(ring::place(source, (written, poles), wall, &wanted, system)?));
    }
    let soil = roof_loads::soil(source, &written.soil, &layers, system)?;
    let held = match roof_wood::code(source, build)? {
        None => None,
        Some(code) => {
            let wood = roof_wood::wood(source, &poles.wood, code, system)?;
            let planks = match &build.wall.bond_beam {
                Some(beam) if are_planks_wood => {
                    Some(planks::place(source, &beam.planks, (&wood, &density), code, system)?)
                }
                _ => None,
            };
            let loads = roof_loads::site(source, &build.site.loads, code, system);
            let feet = match &written.feet {
                Some(feet) => Some(roof_loads::feet(source, feet, system)?),
                None => None,
            };
            let tie = match &written.tie {
                Some(tie) => Some(roof_loads::tie(source, tie, system)?),
                None => None,
            };
            Some(Held { code, loads, wood, bolt: roof_wood::bolt(source, &written.bolt, system)?, planks, feet, tie })
        }
    };
    let deck = match &frame {
        Frame::Reciprocal { eye, ring: Some(ring), .. } => {
            let under = deck::Under { ring, eye, overhang: overhang.value };
            Some(Box::new(deck::place(source, written, wall, &under, system)?))
        }
        Frame::Reciprocal { .. } => {
            deck_without_poles(source, written);
            None
        }
        Frame::OneWay { .. } => None,
    };
    let boarding = match &frame {
        Frame::OneWay { rafters, pitch, .. } => {
            boarding::place(source, written, wall, (rafters, pitch.value, overhang.value), system)?.map(Box::new)
        }
        Frame::Reciprocal { .. } => None,
    };
    let ring = match &frame {
        Frame::Reciprocal { ring, .. } => ring.as_deref(),
        Frame::OneWay { .. } => None,
    };
    let secondary = secondary::place(source, written, (ring, wall), density.value, system)?;
    if let (Some(held), Some((own, _))) = (&held, secondary.as_ref().and_then(Secondary::second_ring))
        && let (Some(bolt), Some(keys)) = (&own.bolt, &written.secondary)
        && !roof_wood::covers(source, (keys.bolt.as_ref(), "[roof.bolt]"), (held.bolt.washer.value, bolt.value), system)
    {
        return None;
    }
    Some(Roof { frame, overhang, diameter, density, of, layers, soil, held, deck, boarding, secondary })
}

fn deck_without_poles(source: &Source<'_>, written: &build::Roof) {
    if let Some(at) = &written.deck.at {
        let hint = "write [poles.pile] or [poles.typical], or leave [roof.deck] out";
        source.fault(at.clone(), "roof.deck", "a deck is laid out on poles that are measured one by one", hint);
    }
}

fn reciprocal(
    source: &Source<'_>,
    written: &build::Roof,
    poles: &build::Poles,
    diameter: &Known<Length>,
    wall: &Wall,
    system: System,
) -> Option<Frame> {
    let Some(count) = &poles.count else {
        let at = poles.diameter.as_ref()?;
        let hint = "write count = 9 in [poles]";
        source.fault(at.span.clone(), "poles.count", "nothing says how many poles bear each other", hint);
        return None;
    };
    if !(3..=60).contains(&count.value) {
        let message = format!("{} poles cannot bear each other round an eye", count.value);
        source.fault(count.span.clone(), &count.path, message, "write a whole number from 3 to 60");
        return None;
    }
    let count = known(Some(count))?;
    let lengths = |from_mm: f64, to_m: f64| Length::mm(from_mm)..Length::m(to_m);
    let eye = within(source, written.eye.as_ref(), lengths(50.0, 5.0), "the radius of an eye", system)?;
    let notch = within(source, written.notch.as_ref(), lengths(0.0, 0.3), "what notches take off", system)
        .unwrap_or_else(|| {
            Known::assumed(Length::ZERO, "roof.notch", Origin::Judgement, "poles lie on each other unnotched")
        });
    let tip = within(source, written.tip.as_ref(), lengths(0.0, 1.5), "what a pole runs on past its crossing", system)
        .unwrap_or_else(|| {
            let why = "tips are left long and trimmed when all poles lie";
            Known::assumed(Length::mm(300.0), "roof.tip", Origin::CommonPractice, why)
        });
    let at = written.eye.as_ref()?;
    let plate = wall::plate_offset(wall.batter_inside.value, wall.batter_outside.value, wall.means()[1]).value;
    let area = roof::eave_area(Area::m2(wall.line.area()), Length::m(wall.line.length()), plate).value;
    let plan = roof::plan_radius(area).value;
    if eye.value >= plan {
        let message = format!("the eye, of radius {}, is wider than the house", shown(eye.value, system));
        source.fault(at.span.clone(), &at.path, message, format!("write a radius well below {}", shown(plan, system)));
        return None;
    }
    let distance = diameter.value - notch.value;
    if distance <= Length::ZERO
        && let Some(written) = &written.notch
    {
        let message = format!(
            "a notch of {} goes through poles of {}",
            shown(notch.value, system),
            shown(diameter.value, system)
        );
        source.fault(written.span.clone(), &written.path, message, "notch less, or take thicker poles");
        return None;
    }
    if !roof::closes(count.value, eye.value, distance) {
        let message = format!(
            "{} poles {} apart at their crossings do not close round an eye of radius {}: they must lie less than \
             r sin(2π/n) = {} apart",
            count.value,
            shown(distance, system),
            shown(eye.value, system),
            shown(roof::most_apart(count.value, eye.value), system)
        );
        source.fault(
            at.span.clone(),
            &at.path,
            message,
            "make the eye wider, or the poles thinner, or notch them less",
        );
        return None;
    }
    Some(Frame::Reciprocal { count, eye, notch, tip, ring: None })
}

fn one_way(
    source: &Source<'_>,
    (written, poles): (&build::Roof, &build::Poles),
    wall: &Wall,
    overhang: Length,
    system: System,
) -> Option<Frame> {
    let pitches = Slope::ratio(0.005)..Slope::ratio(2.0);
    let pitch = within(source, written.pitch.as_ref(), pitches, "the pitch of a roof that falls one way", system);
    let spacings = Length::mm(100.0)..Length::m(3.0);
    let spacing = within(source, written.spacing.as_ref(), spacings, "a spacing of rafters", system);
    let seats = Length::ZERO..Length::mm(150.0);
    let seat = within(source, written.ring.seat.as_ref(), seats, "how deep a rafter is let in", system);
    let seat = seat.unwrap_or_else(|| {
        let why = "a flat seat that a pole does not roll from";
        Known::assumed(Length::mm(20.0), "roof.seat", Origin::Judgement, why)
    });
    if let Some(count) = &poles.count {
        let hint = "leave it out: `spacing` says how many there are";
        source.fault(count.span.clone(), &count.path, "rafters that fall one way are not counted out", hint);
        return None;
    }
    if let Some(measured) = &poles.measured_to {
        let hint = "leave it out: no band is made of the marks of straight rafters";
        source.fault(measured.span.clone(), &measured.path, "this is for poles that bear each other", hint);
        return None;
    }
    let (pitch, falls, spacing) = (pitch?, known(written.falls.as_ref())?, spacing?);
    let wanted = rafters::Wanted { pitch: &pitch, falls: &falls, spacing: &spacing, overhang };
    let rafters = Box::new(rafters::place(source, (written, poles), wall, &wanted, system)?);
    Some(Frame::OneWay { pitch, falls, spacing, seat, rafters })
}

fn eave_is_whole(source: &Source<'_>, written: &build::Roof, wall: &Wall, overhang: Length, system: System) -> bool {
    let [thickness, height] = wall.means();
    let eave = wall::eave_offset(thickness, wall.batter_outside.value, height, overhang).value;
    let line = &wall.line;
    let name = |run: usize| &wall.points[run].name;
    let what = if let Some(piece) = line.first_fold(eave.in_m()) {
        let radius = shown(Length::m(1.0 / line.pieces()[piece].curvature().abs()), system);
        format!("the eave folds over the hollow at `{}`, whose radius is {radius}", name(line.owner(piece)))
    } else if let Some((a, b)) = line.first_crossing(eave.in_m()) {
        format!("the eave crosses itself between the runs from `{}` and `{}`", name(a), name(b))
    } else {
        return true;
    };
    if let Some(at) = &written.overhang {
        let message = format!("{what}: {} from the middle of the wall is too far", shown(eave, system));
        source.fault(at.span.clone(), &at.path, message, "make the overhang smaller, or the hollow wider");
    }
    false
}
