//! Secondary rafters between the poles of a ring with nothing missing: how many, where their trimmers lie, how thick they are.

use super::Ring;
use super::place::{known, within};
use crate::build::{self, Source};
use crate::known::{Known, Origin};
use crate::roof::standing::{Between, Trimmed};
use crate::solve::space::{Vector, size, way};
use crate::timber::section::round_area;
use crate::units::{Angle, Density, Length, Ratio, System};

/// Secondary rafters, the same in each bay.
#[derive(Clone, Debug)]
pub struct Secondary {
    /// How many in each bay.
    pub count: Known<u64>,
    /// Where the trimmers lie, as a share of the way from the plate to where the two poles of a bay cross.
    pub at: Known<Ratio>,
    /// Diameter of a secondary rafter.
    pub diameter: Known<Length>,
    /// Diameter of a trimmer.
    pub trimmer: Known<Length>,
    /// What they are bought as.
    pub of: String,
    /// As the frame takes them.
    pub between: Between,
    /// Where they lie, bay by bay.
    pub trimmed: Vec<Trimmed>,
}

impl Secondary {
    /// Overhang and span of the longest along its axis, and its pitch.
    #[must_use]
    pub fn longest(&self) -> Option<(Length, Length, Angle)> {
        let all = self.trimmed.iter().flat_map(|bay| &bay.rafters).map(|&[eave, plate, end]| {
            let [tail, span] = [between(eave, plate), between(plate, end)];
            (tail, span, Angle::rad(((end[2] - plate[2]) / span.in_m()).asin()))
        });
        all.max_by(|one, other| (one.0 + one.1).in_m().total_cmp(&(other.0 + other.1).in_m()))
    }

    /// The widest bay at the eave, from butt to butt in plan.
    #[must_use]
    pub fn widest_bay(&self) -> Length {
        self.trimmed.iter().map(|bay| in_plan(bay.eave[0], bay.eave[1])).fold(Length::ZERO, Length::max)
    }

    /// The longest trimmer, from axis to axis.
    #[must_use]
    pub fn longest_trimmer(&self) -> Length {
        self.trimmed.iter().map(|bay| between(bay.trimmer[0], bay.trimmer[1])).fold(Length::ZERO, Length::max)
    }

    /// All secondary rafters, and all trimmers, end to end.
    #[must_use]
    pub fn end_to_end(&self) -> [Length; 2] {
        let rafters = self.trimmed.iter().flat_map(|bay| &bay.rafters);
        let rafters = rafters.map(|&[eave, plate, end]| between(eave, plate) + between(plate, end)).sum();
        [rafters, self.trimmed.iter().map(|bay| between(bay.trimmer[0], bay.trimmer[1])).sum()]
    }
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
    ring: Option<&Ring>,
    density: Density,
    system: System,
) -> Option<Option<Secondary>> {
    let Some(written) = &roof.secondary else { return Some(None) };
    let Some(ring) = ring else {
        let hint = "write [poles.pile] for a reciprocal roof, or leave [roof.secondary] out";
        let message = "secondary rafters are trimmed between poles that are measured one by one";
        source.fault(written.at_table.clone(), "roof.secondary", message, hint);
        return None;
    };
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
    let diameters = || Length::mm(40.0)..Length::mm(400.0);
    let diameter = within(source, written.diameter.as_ref(), diameters(), "the diameter of a secondary rafter", system);
    let trimmer = within(source, written.trimmer.as_ref(), diameters(), "the diameter of a trimmer", system);
    let (count, at, diameter, trimmer) = (counted?, at?, diameter?, trimmer?);
    let on_metre = |diameter: Length| density.in_kg_m3() * round_area(diameter).value.in_m2();
    let masses = [on_metre(diameter.value), on_metre(trimmer.value)];
    let number = u32::try_from(count.value).ok()?;
    let between = Between { count: number, at: at.value.in_fraction(), masses };
    let trimmed = between.trimmed(&ring.layout, &ring.solved).ok()?;
    let of = written.of.as_ref()?.value.clone();
    Some(Some(Secondary { count: known(Some(count))?, at, diameter, trimmer, of, between, trimmed }))
}
