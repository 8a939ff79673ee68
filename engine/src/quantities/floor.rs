//! Rows of the floor's bays and of its coats of oil.

use super::line::{bind_piece, bind_run};
use super::need::Need;
use super::uneven::bind_once;
use crate::house::{Bays, House, Layer, OIL, Of, Oil, THINNER};
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::{Area, Ratio, Volume};
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
    rows.add("floor.bays.even-width", "width of each bay", extent(width, house, bays, rows));
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
