//! Rows of soil on its slope: whether it slides, and how hard it pushes the edge board.

use crate::house::Roof;
use crate::roof;
use crate::row::Rows;
use crate::units::{Angle, Length, Pressure, SurfaceMass};

pub(super) fn walk(roof: &Roof, pitch: &str, rows: &mut Rows) {
    let (Some(soil), Some(steep)) = (&roof.soil, rows.value::<Angle>(pitch)) else { return };
    let friction = rows.known("angle of friction of wet soil on its sheet", &soil.friction);
    let safety = roof::slide_safety(friction, steep).from("friction", "roof.soil.friction").from("pitch", pitch);
    let Some(mass) = rows.value::<SurfaceMass>("roof.soil.on-slope") else { return };
    let weight = roof::weight_on_slope(mass).from("mass", "roof.soil.on-slope");
    let weight: Pressure = rows.add("roof.slide.weight", "weight of the soil on each area of slope", weight);
    let pull = roof::downhill_pull(weight, steep).from("weight", "roof.slide.weight").from("pitch", pitch);
    rows.add("roof.slide.pull", "pull of the soil down its slope, on each area of it", pull);
    let title = "safety of the soil against sliding";
    match &soil.battens {
        None => {
            rows.add("roof.slide.safety", title, safety);
        }
        Some((spacing, holds)) => {
            let (spacing, holds) = (
                rows.known("from batten to batten on the slope", spacing),
                rows.known("what a metre of a batten holds back", holds),
            );
            let bare = rows.add("roof.slide.without-battens", format!("{title} without its battens"), safety);
            let battened = roof::batten_slide_safety(bare, holds, spacing, weight, steep)
                .from("without battens", "roof.slide.without-battens")
                .from("batten holds", "roof.soil.battens.holds")
                .from("spacing", "roof.soil.battens.spacing")
                .from("weight", "roof.slide.weight")
                .from("pitch", pitch);
            rows.add("roof.slide.safety", format!("{title} with its battens"), battened);
        }
    }
    let reach = if rows.find("roof.plan-length").is_some() { "roof.plan-length" } else { "roof.poles.cut-length" };
    let Some(along) = rows.value::<Length>(reach) else { return };
    let push = roof::edge_push_without_friction(weight, along, steep)
        .from("weight", "roof.slide.weight")
        .from("slope length", reach)
        .from("pitch", pitch);
    rows.add(
        "roof.slide.edge-push",
        "push of a soaked strip of soil on each metre of edge board, with no friction",
        push,
    );
}
