//! Secondary rafters of a ring with nothing missing: how many, what bears their heads, how thick they are.

use super::place::{known, within};
use super::{Ring, Wall, second_ring};
use crate::build::{self, SecondaryKind, Source};
use crate::known::{Known, Origin};
use crate::roof::poles::Leaning;
use crate::roof::standing::{self, Between, Secondaries, Trimmed};
use crate::solve::space::{Vector, size, way};
use crate::timber::section::round_area;
use crate::units::{Angle, Density, Length, Ratio, System};

/// Secondary rafters, the same in each bay.
#[derive(Clone, Debug)]
pub struct Secondary {
    /// Diameter of one.
    pub diameter: Known<Length>,
    /// What they are bought as.
    pub of: String,
    /// What bears their heads.
    pub borne: Borne,
    /// As the frame takes them.
    pub between: Secondaries,
}

/// What bears the heads of secondary rafters.
#[derive(Clone, Debug)]
#[allow(clippy::large_enum_variant, reason = "a house has one of it at the most")]
pub enum Borne {
    /// Trimmers from pole to pole.
    Trimmed {
        /// How many rafters in each bay.
        count: Known<u64>,
        /// Where the trimmers lie, as a share of the way from the plate to where the two poles of a bay cross.
        at: Known<Ratio>,
        /// Diameter of a trimmer.
        trimmer: Known<Length>,
        /// Where they lie, bay by bay.
        bays: Vec<Trimmed>,
    },
    /// The next pole: a second ring.
    OnPoles(second_ring::SecondRing),
}

impl Secondary {
    /// Overhang and span of the longest along its axis, and its pitch.
    #[must_use]
    pub fn longest(&self) -> Option<(Length, Length, Angle)> {
        let all: Vec<(Length, Length, Angle)> = match &self.borne {
            Borne::Trimmed { bays, .. } => bays.iter().flat_map(|bay| &bay.rafters).map(lying).collect(),
            Borne::OnPoles(own) => own.rafters.iter().map(|one| (one.lengths[0], one.lengths[1], one.pitch)).collect(),
        };
        all.into_iter().max_by(|one, other| (one.0 + one.1).in_m().total_cmp(&(other.0 + other.1).in_m()))
    }

    /// The widest bay at the eave, from butt to butt of its poles in plan.
    #[must_use]
    pub fn widest_bay(&self) -> Length {
        let bays: Vec<[Vector; 2]> = match &self.borne {
            Borne::Trimmed { bays, .. } => bays.iter().map(|bay| bay.eave).collect(),
            Borne::OnPoles(own) => own.eaves.clone(),
        };
        bays.into_iter().map(|[one, other]| in_plan(one, other)).fold(Length::ZERO, Length::max)
    }

    /// The rafters of a second ring, where these are one.
    #[must_use]
    pub fn on_poles(&self) -> &[Leaning] {
        match &self.borne {
            Borne::Trimmed { .. } => &[],
            Borne::OnPoles(own) => &own.rafters,
        }
    }

    /// The second ring that they are, and as the frame takes it.
    #[must_use]
    pub fn second_ring(&self) -> Option<(&second_ring::SecondRing, &standing::SecondRing)> {
        match (&self.borne, &self.between) {
            (Borne::OnPoles(own), Secondaries::OnPoles(on_frame)) => Some((own, on_frame)),
            _ => None,
        }
    }

    /// Where they lie between poles, bay by bay, where they are trimmed.
    #[must_use]
    pub fn trimmed(&self) -> &[Trimmed] {
        match &self.borne {
            Borne::Trimmed { bays, .. } => bays,
            Borne::OnPoles(_) => &[],
        }
    }

    /// The longest trimmer, from axis to axis.
    #[must_use]
    pub fn longest_trimmer(&self) -> Length {
        self.trimmed().iter().map(|bay| between(bay.trimmer[0], bay.trimmer[1])).fold(Length::ZERO, Length::max)
    }

    /// All secondary rafters, and all trimmers, end to end.
    #[must_use]
    pub fn end_to_end(&self) -> [Length; 2] {
        let rafters = self.trimmed().iter().flat_map(|bay| &bay.rafters);
        let trimmed: Length = rafters.map(|&[eave, plate, end]| between(eave, plate) + between(plate, end)).sum();
        let on_poles: Length = self.on_poles().iter().map(|one| one.lengths[2]).sum();
        let trimmers = self.trimmed().iter().map(|bay| between(bay.trimmer[0], bay.trimmer[1])).sum();
        [trimmed + on_poles, trimmers]
    }
}

fn lying(&[eave, plate, end]: &[Vector; 3]) -> (Length, Length, Angle) {
    let [tail, span] = [between(eave, plate), between(plate, end)];
    (tail, span, Angle::rad(((end[2] - plate[2]) / span.in_m()).asin()))
}

fn between(one: Vector, other: Vector) -> Length {
    Length::m(size(way(one, other)))
}

fn in_plan([x, y, _]: Vector, [to_x, to_y, _]: Vector) -> Length {
    Length::m((to_x - x).hypot(to_y - y))
}

/// The secondary rafters of a roof; `None` where a fault was told, `Some(None)` where none are written.
pub(super) fn place(
    source: &Source<'_>,
    roof: &build::Roof,
    under: (Option<&Ring>, &Wall),
    density: Density,
    system: System,
) -> Option<Option<Secondary>> {
    let Some(written) = &roof.secondary else { return Some(None) };
    let (Some(ring), wall) = under else {
        let hint = "write [poles.pile] or [poles.typical] for a reciprocal roof, or leave [roof.secondary] out";
        let message = "secondary rafters lie between poles that are measured one by one";
        source.fault(written.at_table.clone(), "roof.secondary", message, hint);
        return None;
    };
    let what = "the diameter of a secondary rafter";
    let diameter = within(source, written.diameter.as_ref(), diameters(), what, system);
    let on_metre = |diameter: Length| density.in_kg_m3() * round_area(diameter).value.in_m2();
    let (borne, between) = match written.kind.as_ref().map_or(SecondaryKind::Trimmed, |kind| kind.value) {
        SecondaryKind::Trimmed => trimmed(source, written, ring, (diameter.as_ref(), &on_metre), system)?,
        SecondaryKind::Ring => {
            let thick = diameter.as_ref()?;
            let own = second_ring::place(source, written, (ring, wall), thick, system)?;
            let diameter = thick.value;
            let between = Secondaries::OnPoles(own.on_frame(ring, diameter, on_metre(diameter)));
            (Borne::OnPoles(own), between)
        }
    };
    let of = written.of.as_ref()?.value.clone();
    Some(Some(Secondary { diameter: diameter?, of, borne, between }))
}

fn diameters() -> std::ops::Range<Length> {
    Length::mm(40.0)..Length::mm(400.0)
}

fn trimmed(
    source: &Source<'_>,
    written: &build::Secondary,
    ring: &Ring,
    (diameter, on_metre): (Option<&Known<Length>>, &dyn Fn(Length) -> f64),
    system: System,
) -> Option<(Borne, Secondaries)> {
    let counted = written.count.as_ref().filter(|count| {
        let is_few = (1..=6).contains(&count.value);
        if !is_few {
            let message = format!("{} secondary rafters in each bay", count.value);
            source.fault(count.span.clone(), &count.path, message, "write a whole number from 1 to 6");
        }
        is_few
    });
    let range = Ratio::percent(10.0)..Ratio::percent(95.0);
    let at = match &written.at {
        Some(_) => within(source, written.at.as_ref(), range, "where trimmers lie on the way to the crossing", system),
        None => Some(Known::assumed(
            Ratio::percent(60.0),
            "roof.secondary.at",
            Origin::Judgement,
            "half the roof beyond it, and room to nail boards",
        )),
    };
    let trimmer = within(source, written.trimmer.as_ref(), diameters(), "the diameter of a trimmer", system);
    let (count, at, diameter, trimmer) = (counted?, at?, diameter?, trimmer?);
    let masses = [on_metre(diameter.value), on_metre(trimmer.value)];
    let between = Between { count: u32::try_from(count.value).ok()?, at: at.value.in_fraction(), masses };
    let bays = between.trimmed(&ring.layout, &ring.solved).ok()?;
    let borne = Borne::Trimmed { count: known(Some(count))?, at, trimmer, bays };
    Some((borne, Secondaries::Trimmed(between)))
}
