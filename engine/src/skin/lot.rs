//! Plaster by the lot and by the stretch: bins to blend, and the people who keep an edge wet.

use crate::reason::formula;
use crate::solve::whole::rounded_up;
use crate::units::{Area, Days, Length, Ratio, Volume};

formula! {
    /// Plaster to blend into one lot for a coat of a whole face, with what falls and stays on boards.
    ///
    /// Two batches never dry to quite the same colour: all of a face is blended before any of it goes on.
    ///
    /// ```text
    /// V′ = V (1 + p)        p: lost, as a share of what stays on the wall
    /// ```
    /// Source: the definition of the share; one lot a face is common practice, no source.
    pub fn lot(volume: Volume, loss: Ratio) -> Volume {
        volume * (1.0 + loss.in_fraction())
    }
}

formula! {
    /// Bins that a lot fills.
    ///
    /// ```text
    /// n = V / V bin, rounded up
    /// ```
    /// Source: equal bins.
    pub fn bins(lot: Volume, bin: Volume) -> u64 {
        rounded_up(lot / bin)
    }
}

formula! {
    /// What a stretch takes of a lot.
    ///
    /// ```text
    /// V = S d (1 + p)        p: lost, as a share of what stays on the wall
    /// ```
    /// Source: a flat layer, as in the volume of the whole coat.
    pub fn stretch_lot(area: Area, thickness: Length, loss: Ratio) -> Volume {
        area * thickness * (1.0 + loss.in_fraction())
    }
}

formula! {
    /// Area to coat between two stop lines.
    ///
    /// What is measured along a run, openings with their reveals and built-in things, counts to the stretch of that run.
    ///
    /// ```text
    /// S = S gross − Σ S taken out or covered + Σ S of reveals, hollows and bodies that are coated
    /// ```
    /// Source: the sum of its parts.
    pub fn stretch_area(gross: Area; taken: Area, added: Area) -> Area {
        gross - taken + added
    }
}

formula! {
    /// The largest area that a crew closes before its first edge has dried.
    ///
    /// ```text
    /// S = n S hour t        n: people, S hour: what one person covers in an hour, t: time for which an edge stays wet, in hours
    /// ```
    /// Source: equal pace; that an edge is worked into while wet, or shows, is common practice, no source.
    pub fn wet_area(people: u64, pace: Area, open_time: Days) -> Area {
        pace * (people as f64 * open_time.in_hours())
    }
}

formula! {
    /// People with trowels who close a stretch before its first edge has dried.
    ///
    /// ```text
    /// n = S / (S hour t), rounded up        S hour: what one person covers in an hour, t: time for which an edge stays wet, in hours
    /// ```
    /// Source: equal pace; that an edge is worked into while wet, or shows, is common practice, no source.
    pub fn people_needed(area: Area, pace: Area, open_time: Days) -> u64 {
        rounded_up(area / (pace * open_time.in_hours()))
    }
}

formula! {
    /// Bands, one above the other, in which a face is plastered; each but the lowest is reached from a platform.
    ///
    /// ```text
    /// n = h / h reach, rounded up
    /// ```
    /// Source: the definition of reach.
    pub fn bands(height: Length, reach: Length) -> u64 {
        rounded_up(height / reach)
    }
}
