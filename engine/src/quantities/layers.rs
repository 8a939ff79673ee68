//! Rows of the floor's layers, the coats on each face and the slip.

use super::earth::Use;
use super::need::Need;
use super::plaster::{Coated, coated};
use crate::house::{House, Layer, Of, Plastering};
use crate::row::Rows;
use crate::units::{Area, Length, Volume};
use crate::{earth, skin, wall};

/// Takes note of what a layer is made of.
fn made_of(layer: &Layer, title: &str, volume: Volume, rows: &mut Rows, uses: &mut Vec<Use>, needs: &mut Vec<Need>) {
    match &layer.of {
        Of::Recipe(recipe) => uses.push(Use { recipe: recipe.clone(), volume: layer.path("volume") }),
        Of::Good(good, loose) => {
            rows.known(format!("loose volume of {title} for each volume in place"), loose);
            let loose = earth::loose_for_packed(volume, loose.value)
                .from("packed volume", layer.path("volume"))
                .from("loose factor", loose.path.as_str());
            rows.add(layer.path("loose-volume"), format!("{title}, loose"), loose);
            needs.push(Need::of(good, [layer.path("loose-volume")]));
        }
    }
}

pub(super) fn floor(house: &House, rows: &mut Rows, uses: &mut Vec<Use>) -> Vec<Need> {
    let mut needs = Vec::new();
    if house.floor.is_empty() {
        return needs;
    }
    let wall = &house.wall;
    let area =
        wall::area_inside(Area::m2(wall.line.area()), Length::m(wall.line.length()), wall.stem_width.value, -1.0)
            .from("enclosed area", "wall.enclosed-area")
            .from("line length", "wall.length")
            .from("thickness", "wall.stem.width");
    let area = rows.add("floor.area", "area of the floor inside the stem wall", area);
    for layer in &house.floor {
        let title = format!("{} of the floor", layer.name.replace('-', " "));
        let thickness = rows.known(format!("thickness of {title}"), &layer.thickness);
        let volume = skin::coat(area, thickness).from("area", "floor.area").from("thickness", layer.path("thickness"));
        let volume = rows.add(layer.path("volume"), format!("{title}, in place"), volume);
        made_of(layer, &title, volume, rows, uses, &mut needs);
    }
    let mut depth = skin::depth(house.floor.iter().map(|layer| layer.thickness.value).sum());
    for layer in &house.floor {
        depth = depth.with(format!("thickness of {}", layer.name), layer.thickness.value, layer.path("thickness"));
    }
    rows.add("floor.depth", "depth of the floor's layers together", depth);
    needs
}

/// Areas to coat, then each coat and the slip.
pub(super) fn skin(house: &House, rows: &mut Rows, uses: &mut Vec<Use>) -> Vec<Need> {
    let skin = &house.skin;
    let mut needs = Vec::new();
    if let Some(plastering) = &skin.plastering {
        rows.known("plaster lost, as a share of what stays on the wall", &plastering.loss);
        rows.known("what a bin of ready plaster holds", &plastering.bin);
    }
    for Coated { face, word, bare, layers, .. } in coated(house) {
        let reveals = skin.reveals == Some(face);
        let path = format!("skin.{word}-area");
        let area = covered(house, rows, &[bare], reveals, &path, &format!("area of the coats {word}"));
        for layer in layers {
            let title = format!("{} coat {word}", layer.name.replace('-', " "));
            let thickness = rows.known(format!("thickness of {title}"), &layer.thickness);
            let volume =
                skin::coat(area, thickness).from("area", path.as_str()).from("thickness", layer.path("thickness"));
            let volume = rows.add(layer.path("volume"), format!("{title}, in place"), volume);
            match (&layer.of, &skin.plastering) {
                (Of::Recipe(recipe), Some(plastering)) => {
                    lot(layer, &title, (volume, recipe), plastering, rows);
                    uses.push(Use { recipe: recipe.clone(), volume: layer.path("lot") });
                }
                _ => made_of(layer, &title, volume, rows, uses, &mut needs),
            }
        }
    }
    if let Some(slip) = &skin.slip {
        let faces = [
            (!skin.inside.is_empty()).then_some("wall.inner-area"),
            (!skin.outside.is_empty()).then_some("wall.outer-area"),
        ];
        bed(house, rows);
        let parts: Vec<&str> = faces.into_iter().flatten().chain(["wall.stem.bed-area"]).collect();
        let path = "skin.slip-area";
        let reveals = skin.reveals.is_some();
        let area =
            covered(house, rows, &parts, reveals, path, "area that gets slip: top of the stem, coated faces, reveals");
        let thickness = rows.known("thickness of the slip as brushed on", &slip.thickness);
        let volume = skin::coat(area, thickness).from("area", path).from("thickness", slip.path("thickness"));
        let volume = rows.add(slip.path("volume"), "slip, in place", volume);
        made_of(slip, "slip", volume, rows, uses, &mut needs);
    }
    needs
}

/// What is blended for a coat of a whole face: litres, bins, batches.
fn lot(layer: &Layer, title: &str, (volume, recipe): (Volume, &str), plastering: &Plastering, rows: &mut Rows) {
    let lot = skin::lot(volume, plastering.loss.value).from("volume", layer.path("volume")).from("loss", "skin.loss");
    let lot = rows.add(layer.path("lot"), format!("lot of the {title}, all blended"), lot);
    let bins = skin::bins(lot, plastering.bin.value).from("lot", layer.path("lot")).from("bin", "skin.bin");
    rows.add(layer.path("bins"), format!("bins to blend for the {title}"), bins);
    let batch = format!("earth.recipes.{recipe}.placed-volume");
    if let Some(placed) = rows.value::<Volume>(&batch) {
        let batches = earth::batches(lot, placed).from("volume", layer.path("lot")).from("batch", batch);
        let batches = rows.add(layer.path("batches"), format!("batches in the lot of the {title}"), batches);
        let whole = earth::whole_batches(batches).from("batches", layer.path("batches"));
        rows.add(layer.path("whole-batches"), format!("batches to mix for the {title}"), whole);
    }
}

/// The top of the stem, which gets slip before the first lift.
fn bed(house: &House, rows: &mut Rows) {
    let length: Option<Length> = rows.value("wall.stem.length");
    let bed = wall::stem_bed(length.unwrap_or(Length::ZERO), house.wall.stem_width.value)
        .from("stem length", "wall.stem.length")
        .from("width", "wall.stem.width");
    rows.add("wall.stem.bed-area", "top of the stem wall", bed);
}

fn covered(house: &House, rows: &mut Rows, parts: &[&str], reveals: bool, path: &str, title: &str) -> Area {
    let reveals = house.openings.iter().filter(|_| reveals).map(|opening| opening.path("reveal-area"));
    let paths = parts.iter().map(|path| (*path).to_owned()).chain(reveals);
    let paths = paths.chain(super::built_in::plastered(house, parts));
    let found: Vec<(String, String, Area)> = rows.parts(paths);
    let answer = skin::covered(found.iter().map(|(.., area)| *area).sum()).of_parts(found);
    rows.add(path, title, answer)
}
