//! Rows of the floor's bays and of its coats of oil.

use super::line::{bind_piece, bind_run};
use super::need::Need;
use super::uneven::bind_once;
use crate::house::{Bays, House, Layer, OIL, Of, Oil, THINNER};
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::{Area, Length, Ratio, Volume};
use crate::{earth, skin};

pub(super) fn walk(house: &House, rows: &mut Rows) -> Vec<Need> {
    if let (Some(bays), Some(finish)) = (&house.bays, house.floor.last()) {
        self::bays(house, bays, finish, rows);
    }
    house.oil.iter().flat_map(|oil| coat(oil, rows)).collect()
}

fn bays(house: &House, bays: &Bays, finish: &Layer, rows: &mut Rows) {
    let width = rows.known("widest that a bay of the floor may be", &bays.width);
    let count = skin::bay_count(width, bays.extent).from("width", bays.width.path.as_str());
    let count = rows.add("floor.bays.count", "bays of the floor", extent(count, house, bays, rows));
    let width = skin::bay_width(count, bays.extent).from("count", "floor.bays.count");
    let width = rows.add("floor.bays.even-width", "width of each bay", extent(width, house, bays, rows));
    let placed = placed_volume(finish, rows);
    for (place, bay) in bays.bays.iter().enumerate() {
        let number = place + 1;
        let own = |noun: &str| format!("floor.bays.{number}.{noun}");
        let mut area = skin::bay_area(count, bay.area).from("count", "floor.bays.count");
        area = extent(area, house, bays, rows);
        for &piece in &bay.pieces {
            area = bind_piece(area, house, piece, rows);
        }
        let area = rows.add(own("area"), format!("area of bay {number}"), area);
        let volume = skin::coat(area, finish.thickness.value)
            .from("area", own("area"))
            .from("thickness", finish.path("thickness"));
        let title = format!("{} of bay {number}, in place", finish.name.replace('-', " "));
        let volume = rows.add(own("volume"), title, volume);
        if let Some((batch, path)) = &placed {
            let batches = earth::batches(volume, *batch).from("volume", own("volume")).from("batch", path.as_str());
            rows.add(own("batches"), format!("batches of bay {number}"), batches);
        }
    }
    cracks(house, bays, width, rows);
}

/// How wide layers of a mix crack along the longest bay, where a bar of it was dried.
fn cracks(house: &House, bays: &Bays, width: Length, rows: &mut Rows) {
    let mixed = house.floor.iter().enumerate().filter_map(|(place, layer)| match &layer.of {
        Of::Recipe(recipe) => Some((place, layer, house.earth.as_ref()?.recipe(recipe)?)),
        Of::Good(..) => None,
    });
    let mixed: Vec<_> = mixed.collect();
    let areas = bays.bays.iter().map(|bay| bay.area).enumerate();
    let longest = areas.reduce(|one, other| if other.1 > one.1 { other } else { one });
    let Some((place, area)) = longest.filter(|_| !mixed.is_empty()) else { return };
    let length = skin::bay_length(area, width)
        .from("area", format!("floor.bays.{}.area", place + 1))
        .from("width", "floor.bays.even-width");
    let length = rows.add("floor.bays.longest", "mean length of the longest bay of the floor", length);
    let spacing = rows.known(
        "how many thicknesses of a layer of the floor cracks lie apart where they lie closest",
        &bays.crack_spacing,
    );
    for (place, layer, recipe) in mixed {
        let stem = if place + 1 == house.floor.len() { "floor.bays" } else { layer.stem.as_str() };
        let (path, name) = (|noun: &str| format!("{stem}.{noun}"), layer.name.replace('-', " "));
        if !recipe.has_bar() {
            let words = format!("cracks of the {name} of the floor (dry a bar of {})", recipe.name.replace('-', " "));
            rows.not_known(path("crack-spread"), words);
            continue;
        }
        let (share, bar, thickness) = (recipe.shrinkage.value, recipe.path("shrinkage"), layer.path("thickness"));
        let one =
            skin::crack_in_one(length, share).from("length", "floor.bays.longest").from("shrinkage", bar.as_str());
        rows.add(
            path("crack-in-one"),
            format!("crack of the {name} if all of a bay's shrinkage opens in one place"),
            one,
        );
        let count = skin::cracks(length, layer.thickness.value, spacing)
            .from("length", "floor.bays.longest")
            .from("thickness", thickness.as_str())
            .from("spacing", bays.crack_spacing.path.as_str());
        rows.add(path("cracks"), format!("most cracks across a bay of the {name}"), count);
        let spread = skin::crack_spread(share, layer.thickness.value, spacing)
            .from("shrinkage", bar)
            .from("thickness", thickness)
            .from("spacing", bays.crack_spacing.path.as_str());
        rows.add(
            path("crack-spread"),
            format!("each crack of the {name} if they spread as finely as they can"),
            spread,
        );
    }
}

/// The volume placed from a batch of what a layer is made of.
fn placed_volume(layer: &Layer, rows: &Rows) -> Option<(Volume, String)> {
    let Of::Recipe(recipe) = &layer.of else { return None };
    let path = format!("earth.recipes.{recipe}.placed-volume");
    Some((rows.value(&path)?, path))
}

/// Binds what makes the direction across the bays and how far the room reaches that way.
fn extent<T>(answer: Answer<T>, house: &House, bays: &Bays, rows: &Rows) -> Answer<T> {
    let door = &house.openings[bays.door];
    let on = door.station.piece;
    let mut answer = bind_once(bind_run(answer, house, door.run, rows), rows, "wall.stem.width");
    if house.wall.line.pieces()[on].curvature() != 0.0 {
        answer = bind_once(bind_piece(answer, house, on, rows), rows, &door.along.path);
    }
    for piece in bays.farthest {
        answer = bind_piece(answer, house, piece, rows);
    }
    answer
}

fn coat(oil: &Oil, rows: &mut Rows) -> Vec<Need> {
    let Some(area) = rows.value::<Area>("floor.area") else { return Vec::new() };
    let name = format!("{} coat of oil", oil.name.replace('-', " "));
    let covers = rows.known(format!("area that the {name} covers with what it takes"), &oil.covers);
    let takes = rows.known(format!("what the {name} takes for that area"), &oil.takes);
    let share = rows.known(format!("thinner in the {name}"), &oil.thinner);
    let coat = skin::oil_coat(area, covers, takes)
        .from("area", "floor.area")
        .from("covers", oil.path("covers"))
        .from("takes", oil.path("takes"));
    let coat = rows.add(oil.path("volume"), format!("{name}, thinner and all"), coat);
    let alone = skin::oil_alone(coat, share).from("coat", oil.path("volume")).from("thinner", oil.path("thinner"));
    rows.add(oil.path("oil-volume"), format!("oil in the {name}"), alone);
    let mut needs = vec![Need::of(OIL, [oil.path("oil-volume")])];
    if share > Ratio::ZERO {
        let thinner = skin::thinner(coat, share).from("coat", oil.path("volume")).from("share", oil.path("thinner"));
        rows.add(oil.path("thinner-volume"), format!("thinner in the {name}, by volume"), thinner);
        needs.push(Need::of(THINNER, [oil.path("thinner-volume")]));
    }
    needs
}
