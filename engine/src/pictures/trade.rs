//! The choice of a ring as a picture: for more poles and for fewer, which eye and pitch go together, and what ends each way.

use kurbo::Point;

use crate::house::{Frame, House};
use crate::quantities::trade::{counts, with};
use crate::roof;
use crate::roof::trade::Trade;
use crate::row::Rows;
use crate::rulebook::limit_of;
use crate::solve::sign::sign_change;
use crate::units::{Angle, Length, LineLoad, Pressure};

/// Flattest and steepest pitch of the picture, in degrees.
const PITCHES: [f64; 2] = [6.0, 36.0];
/// From pitch to pitch along a line, in degrees.
const STEP: f64 = 0.5;

/// Which rings of equal poles work. Points have the radius of the eye in metres and the pitch in degrees.
#[derive(Clone, Debug)]
pub struct Choice {
    /// A panel for each count of poles.
    pub panels: Vec<Panel>,
    /// The ring of the house.
    pub here: Point,
    /// How many poles it has.
    pub count: u64,
    /// Up to which pitch the soil stays on.
    pub soil: SoilStays,
}

/// Up to which pitch the soil of a roof stays on, of those that the picture shows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SoilStays {
    /// At every one, or there is no soil.
    AtEvery,
    /// Up to this one, in degrees.
    UpTo(f64),
    /// At none: it slides at the flattest already.
    AtNone,
    /// There is soil, and what holds it or what its rule wants is not known.
    NotKnown,
}

/// The rings of so many poles.
#[derive(Clone, Debug)]
pub struct Panel {
    /// How many poles.
    pub count: u64,
    /// Where poles touch without a notch; beyond it they lie apart.
    pub touching: Vec<Point>,
    /// Where the notch is as deep as it may be.
    pub deepest: Vec<Point>,
    /// Where bending uses all of the strength.
    pub bends: Vec<Point>,
    /// What works and is known to keep its soil, as a closed outline.
    pub works: Vec<Point>,
}

/// The choice of the ring of a house; none where its roof is another, or its loads are not known.
#[must_use]
pub fn choice(house: &House, rows: &Rows) -> Option<Choice> {
    if !matches!(house.roof.as_ref()?.frame, Frame::Reciprocal { .. }) {
        return None;
    }
    let (eye, pitch) = (rows.value::<Length>("roof.eye")?, rows.value::<Angle>("roof.pitch")?);
    let count = rows.value::<u64>("poles.count")?;
    let soil = soil_stays(house, rows);
    let panels = with(rows, |trade| counts(count).map(|count| panel(trade, count, soil)).collect())?;
    let here = Point::new(eye.in_m(), pitch.in_rad().to_degrees());
    Some(Choice { panels, here, count, soil })
}

fn panel(trade: &Trade<'_>, count: u64, soil: SoilStays) -> Panel {
    let steps = ((PITCHES[1] - PITCHES[0]) / STEP) as u32;
    let mut panel = Panel { count, touching: vec![], deepest: vec![], bends: vec![], works: vec![] };
    let mut outer = Vec::new();
    for step in 0..=steps {
        let pitch = PITCHES[0] + STEP * f64::from(step);
        let Some(eyes) = trade.eyes(count, Angle::deg(pitch)) else { continue };
        let at = |eye: Length| Point::new(eye.in_m(), pitch);
        panel.touching.push(at(eyes.touching));
        panel.deepest.push(at(eyes.deepest));
        panel.bends.extend(eyes.bends.map(at));
        let keeps_soil = match soil {
            SoilStays::AtEvery => true,
            SoilStays::UpTo(steepest) => pitch <= steepest,
            SoilStays::AtNone | SoilStays::NotKnown => false,
        };
        if let (Some([least, largest]), true) = (eyes.works, keeps_soil) {
            panel.works.push(at(least));
            outer.push(at(largest));
        }
    }
    panel.works.extend(outer.into_iter().rev());
    panel
}

fn soil_stays(house: &House, rows: &Rows) -> SoilStays {
    if house.roof.as_ref().is_none_or(|roof| roof.soil.is_none()) {
        return SoilStays::AtEvery;
    }
    let Some(spare) = spare(house, rows) else { return SoilStays::NotKnown };
    // The steeper, the less is spare.
    let [at_flattest, at_steepest] = PITCHES.map(&spare);
    if at_steepest >= 0.0 {
        SoilStays::AtEvery
    } else if at_flattest < 0.0 {
        SoilStays::AtNone
    } else {
        sign_change(spare, PITCHES[0], PITCHES[1]).map_or(SoilStays::NotKnown, SoilStays::UpTo)
    }
}

/// By how much the safety against sliding at a pitch, in degrees, is more than what its rule wants; `None` where it is not known.
fn spare(house: &House, rows: &Rows) -> Option<impl Fn(f64) -> f64> {
    let wanted = limit_of(&house.rulebooks, "roof.slide.safety")?.bound.si()?;
    let friction = rows.value::<Angle>("roof.soil.friction")?;
    let weight = rows.value::<Pressure>("roof.slide.weight")?;
    let battens =
        rows.value::<LineLoad>("roof.soil.battens.holds").zip(rows.value::<Length>("roof.soil.battens.spacing"));
    Some(move |degrees: f64| {
        let pitch = Angle::deg(degrees);
        let bare = roof::slide_safety(friction, pitch).value;
        let safety = match battens {
            Some((holds, spacing)) => roof::batten_slide_safety(bare, holds, spacing, weight, pitch).value,
            None => bare,
        };
        safety - wanted
    })
}
