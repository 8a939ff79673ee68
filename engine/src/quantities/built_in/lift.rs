//! What is built into the wall takes out of each lift.

use super::niche::Into;
use super::said;
use super::through::Through;
use super::timber::deadmen;
use crate::curve::Cut;
use crate::house::built_in::{Service, Way, What};
use crate::house::{BuiltIn, House, Lift};
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::{Length, Volume};

/// Rows of what is taken out of a lift beside openings: title, path and volume of each.
pub(in super::super) fn taken(
    house: &House,
    lift: &Lift,
    below: Option<&Lift>,
    rows: &mut Rows,
) -> Vec<(String, String, Volume)> {
    let mut taken = Vec::new();
    for thing in &house.built_in {
        let Some(answer) = removed(house, thing, lift, below, rows) else { continue };
        let path = lift.path(&format!("less-{}", thing.name));
        let title = format!("cob that {} takes out of {}", said(thing), lift.name);
        taken.push((title.clone(), path.clone(), rows.add(path, title, answer)));
    }
    for anchors in house.anchors.iter().filter(|anchors| anchors.lift == lift.name) {
        let path = lift.path(&format!("less-anchors-{}", anchors.name));
        let title = format!("cob that the deadmen of {} take out of {}", anchors.name.replace('-', " "), lift.name);
        taken.push((title.clone(), path.clone(), rows.add(path, title, deadmen(anchors))));
    }
    taken
}

fn removed(house: &House, thing: &BuiltIn, lift: &Lift, below: Option<&Lift>, rows: &Rows) -> Option<Answer<Volume>> {
    let ends = [below.map_or(Length::ZERO, |below| below.top.value).in_m(), lift.top.value.in_m()];
    let reaches = |cut: &&Cut| cut.form.bottom() < ends[1] && ends[0] < cut.form.top();
    let cuts: Vec<&Cut> = thing.cuts().iter().filter(reaches).collect();
    if cuts.is_empty() {
        return None;
    }
    let starts_below = cuts.iter().any(|cut| cut.form.bottom() < ends[0]);
    let ends_above = cuts.iter().any(|cut| ends[1] < cut.form.top());
    let shape = house.wall.shape();
    let into = |into: Into<'_>| {
        if starts_below || ends_above { into.removed_between(ends, rows) } else { into.removed(rows) }
    };
    let mut answer = match &thing.what {
        What::Niche(niche) => into(Into::of_niche(house, &shape, niche)),
        What::Shelf(shelf) => into(Into::of_shelf(house, &shape, shelf)),
        What::Bottles(bottles) => Through::of_bottles(house, &shape, bottles).removed(ends, rows),
        What::Vent(vent) => Through::of_vent(house, &shape, vent).removed(ends, rows),
        What::Service(Service { way: Way::Through(passing), .. }) => {
            Through::of_passing(house, &shape, passing).removed(ends, rows)
        }
        What::Service(_) | What::Bench(_) | What::Buttress(_) | What::Relief(_) | What::Mosaic(_) | What::Oven(_) => {
            return None;
        }
    };
    if let Some(below) = below.filter(|_| starts_below) {
        answer = answer.with("foot of the lift", below.top.value, below.top.path.as_str());
    }
    if ends_above {
        answer = answer.with("top of the lift", lift.top.value, lift.top.path.as_str());
    }
    Some(answer)
}
