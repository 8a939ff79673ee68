//! The choice of a ring as a picture: for more poles and for fewer, which eye and pitch go together, and what ends each way.

use kurbo::Point;

use crate::check::Limit;
use crate::house::{Frame, House};
use crate::quantities::trade::{counts, with};
use crate::roof;
use crate::roof::trade::Trade;
use crate::row::Rows;
use crate::solve::sign::sign_change;
use crate::structure::rules;
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
    /// Steepest pitch at which the soil stays on, in degrees; none where no pitch of the picture is too steep or none is known.
    pub steepest: Option<f64>,
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
    /// What works and keeps its soil, as a closed outline.
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
    let steepest = steepest(house, rows);
    let panels = with(rows, |trade| counts(count).map(|count| panel(trade, count, steepest)).collect())?;
    let here = Point::new(eye.in_m(), pitch.in_rad().to_degrees());
    Some(Choice { panels, here, count, steepest })
}

fn panel(trade: &Trade<'_>, count: u64, steepest: Option<f64>) -> Panel {
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
        let keeps_soil = steepest.is_none_or(|steepest| pitch <= steepest);
        if let (Some([least, largest]), true) = (eyes.works, keeps_soil) {
            panel.works.push(at(least));
            outer.push(at(largest));
        }
    }
    panel.works.extend(outer.into_iter().rev());
    panel
}

/// Where the safety against sliding is what its rule wants.
fn steepest(house: &House, rows: &Rows) -> Option<f64> {
    let is_slide = |limit: &&Limit| limit.measures == "roof.slide.safety";
    let limit = rules(house).filter_map(|rule| rule.limit.as_ref()).find(is_slide)?;
    let wanted = limit.bound.si()?;
    let friction = rows.value::<Angle>("roof.soil.friction")?;
    let weight = rows.value::<Pressure>("roof.slide.weight")?;
    let battens =
        rows.value::<LineLoad>("roof.soil.battens.holds").zip(rows.value::<Length>("roof.soil.battens.spacing"));
    let spare = |degrees: f64| {
        let pitch = Angle::deg(degrees);
        let bare = roof::slide_safety(friction, pitch).value;
        let safety = match battens {
            Some((holds, spacing)) => roof::batten_slide_safety(bare, holds, spacing, weight, pitch).value,
            None => bare,
        };
        safety - wanted
    };
    sign_change(spare, PITCHES[0], PITCHES[1])
}
