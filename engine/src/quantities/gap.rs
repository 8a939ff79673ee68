//! Rows of the gap between the wall and the roof, and of the cob that fills it.

use kurbo::Vec2;

use super::earth::Use;
use super::line::{bind, bind_run, path};
use super::uneven::top_thickness;
use crate::house::{Frame, House, Roof};
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::{Angle, Length, Slope, Volume};
use crate::wall;

/// The rows; what is mixed for it, when its recipe is known.
pub(super) fn walk(house: &House, rows: &mut Rows) -> Option<Use> {
    let (gap, roof) = (house.gap.as_ref()?, house.roof.as_ref()?);
    let joint = rows.known("soft joint between the filling of the gap and the deck", &gap.joint);
    let (slope, count, crossings) = match roof.frame {
        Frame::Reciprocal { .. } => ("roof.pitch", "poles.count", 1),
        Frame::OneWay { .. } => ("roof.angle", "roof.poles.count", 2),
    };
    let pitch: Angle = rows.value(slope)?;
    let poles = wall::gap_at_poles(roof.diameter.value, pitch).from("diameter", "poles.diameter").from("pitch", slope);
    let poles = rows.add("wall.gap.poles", "from the top of wall or beam to the deck at a pole, upright", poles);
    let rise = rise(house, roof, rows);
    let mut height = wall::gap_height(poles, rise.unwrap_or(Length::ZERO), joint)
        .from("poles", "wall.gap.poles")
        .from("joint", "wall.gap.joint");
    height = if rise.is_some() { height.from("rise", "wall.gap.rise") } else { height.without("rise") };
    let height = rows.add("wall.gap.height", "mean height of what fills the gap under the roof", height);
    let length: Length = rows.value("wall.top-length")?;
    let (top, thickness) = top_thickness(house, rows);
    let volume = wall::gap_volume(length, top, height, rows.value(count)?, roof.diameter.value, pitch, crossings)
        .from("length", "wall.top-length")
        .from("top thickness", thickness)
        .from("height", "wall.gap.height")
        .from("count", count)
        .from("diameter", "poles.diameter")
        .from("pitch", slope);
    let volume = rows.add("wall.gap.volume", "cob in the gap under the roof, poles taken out", volume);
    let beside = house.bond_beam.as_ref().map(|beam| {
        let beside = wall::beside_beam(length, top, beam.width.value, beam.height.value)
            .from("length", "wall.top-length")
            .from("top thickness", thickness)
            .from("width", beam.width.path.as_str())
            .from("height", beam.height.path.as_str());
        rows.add("wall.gap.beside-beam", "cob beside the bond beam", beside)
    });
    to_mix(house, (beside, volume), rows);
    Some(Use { recipe: gap.of.clone()?, volume: "wall.gap.to-mix".into() })
}

/// How far the deck of a roof that falls one way rises over the wall, in the mean.
fn rise(house: &House, roof: &Roof, rows: &mut Rows) -> Option<Length> {
    let Frame::OneWay { pitch, falls, .. } = &roof.frame else { return None };
    let on = &house.wall;
    let offset = rows.value("roof.plate-offset").unwrap_or(Length::ZERO);
    let up = -Vec2::from_angle(falls.value.in_rad());
    let top = on.slope.as_ref();
    let rises = top.map_or(Vec2::ZERO, |top| Vec2::from_angle(top.rises.value.in_rad()));
    let slope = top.map_or(Slope::ZERO, |top| top.slope.value);
    let rise = wall::gap_rise(pitch.value, slope, &on.line, offset, up, rises).from("pitch", pitch.path.as_str());
    let mut rise = match top {
        Some(top) => bind(rise.from("slope", top.slope.path.as_str()), rows, &top.rises.path),
        None => rise.without("slope"),
    };
    rise = bind(bind(rise, rows, "roof.falls"), rows, "roof.plate-offset");
    for (index, point) in on.points.iter().enumerate() {
        rise = bind_run(rise, house, index, rows);
        if on.line.runs()[index].corner.is_some() {
            rise = bind(rise, rows, &path(point, "round"));
        }
    }
    Some(rows.add("wall.gap.rise", "rise of the deck over the top of the wall, in the mean", rise))
}

fn to_mix(house: &House, (beside, gap): (Option<Volume>, Volume), rows: &mut Rows) {
    let trimmings: Option<Volume> = rows.value("wall.trimmings");
    let left = trimmings.map(|trimmings| {
        let left = wall::trimmings_left(trimmings, house.wall.trim[1].value)
            .from("trimmings", "wall.trimmings")
            .from("returned", "wall.returned");
        rows.add("wall.gap.trimmings", "trimmings left for the gap", left)
    });
    let bound = |answer: Answer<Volume>, name: &str, is_there: bool, path: &str| {
        if is_there { answer.from(name, path) } else { answer.without(name) }
    };
    let mix = wall::gap_to_mix(beside.unwrap_or(Volume::ZERO), gap, left.unwrap_or(Volume::ZERO));
    let mix = mix.from("gap", "wall.gap.volume");
    let mix = bound(mix, "beside", beside.is_some(), "wall.gap.beside-beam");
    let mix = bound(mix, "trimmings", left.is_some(), "wall.gap.trimmings");
    rows.add("wall.gap.to-mix", "cob to mix for the gap under the roof", mix);
}
