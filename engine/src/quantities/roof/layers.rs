//! Rows of the layers of a roof: on the real surface where its poles are measured, else a first cut.

use super::super::need::Need;
use super::{boarding, deck_boards};
use crate::earth;
use crate::house::{House, Roof, RoofLayer as Layer, Weight};
use crate::known::Known;
use crate::reason::Answer;
use crate::roof::{self, deck};
use crate::row::Rows;
use crate::units::{Area, Length, Mass, Quantity, Ratio, Volume};

/// Every row that is not of the real surface says that it is a first cut.
fn add<T: Copy + Into<Quantity>>(roof: &Roof, rows: &mut Rows, path: &str, title: &str, answer: Answer<T>) -> T {
    let cut = if roof.is_decked() { "" } else { ", first cut" };
    rows.add(path, format!("{title}{cut}"), answer)
}

/// What the layers under a layer make: their thickness, and the rows that say so.
struct Below {
    thick: Length,
    parts: Vec<(String, String, Length)>,
}

pub(super) fn walk(house: &House, roof: &Roof, rows: &mut Rows) -> Vec<Need> {
    let area = rows.value("roof.area").unwrap_or(Area::ZERO);
    let (mut needs, mut masses, mut below) = (Vec::new(), Vec::new(), Below { thick: Length::ZERO, parts: Vec::new() });
    let boards = roof.board_layer().map(|(layer, _)| &layer.name);
    for layer in &roof.layers {
        let title = format!("{} of the roof", layer.name.replace('-', " "));
        let laps = layer.laps.as_ref().map(|laps| rows.known(format!("laps and upstands of {title}"), laps));
        let (surface, surface_path) = surface(roof, layer, &below, area, rows);
        let covered = roof::with_laps(surface, laps.unwrap_or(Ratio::ZERO)).from("area", surface_path);
        let covered = match &layer.laps {
            Some(laps) => covered.from("laps", laps.path.as_str()),
            None => covered.without("laps"),
        };
        let covered = add(roof, rows, &layer.path("area"), &format!("area of {title}"), covered);
        let mass = match &layer.weight {
            Weight::Thick(thickness, saturated, loose) => {
                let thick = rows.known(format!("thickness of {title}"), thickness);
                let saturated = rows.known(format!("density of {title} when saturated"), saturated);
                let loose_factor = rows.known(format!("loose volume of {title} for each volume in place"), loose);
                let volume = volume(roof, (layer, thick), &below, area, rows);
                let volume = add(roof, rows, &layer.path("volume"), &format!("{title}, in place"), volume);
                let poured = earth::loose_for_packed(volume, loose_factor)
                    .from("packed volume", layer.path("volume"))
                    .from("loose factor", layer.path("loose"));
                add(roof, rows, &layer.path("loose-volume"), &format!("{title}, loose"), poured);
                below.thick = below.thick + thick;
                below.parts.push((format!("thickness of {title}"), layer.path("thickness"), thick));
                roof::layer_mass(volume, saturated)
                    .from("volume", layer.path("volume"))
                    .from("saturated", layer.path("saturated"))
            }
            Weight::Sheet(mass) => {
                let mass_on_area = rows.known(format!("mass of {title} on each area"), mass);
                roof::sheet_mass(covered, mass_on_area)
                    .from("area", layer.path("area"))
                    .from("mass on area", layer.path("mass"))
            }
        };
        let path = layer.path("saturated-mass");
        let mass = add(roof, rows, &path, &format!("mass of {title} when saturated"), mass);
        masses.push((title, path, mass));
        let is_boards = boards == Some(&layer.name);
        let cut = match (&roof.deck, &roof.boarding) {
            (Some(deck), _) if is_boards => deck_boards::walk(roof, deck, rows),
            (_, Some(boarding)) if is_boards => boarding::boards(house, (roof, boarding), rows),
            _ => None,
        };
        needs.push(match (cut, &layer.weight) {
            (Some(need), _) => need,
            (None, _) if is_boards => Need::of(&layer.of, [layer.path("area"), layer.path("volume")]),
            (_, Weight::Thick(..)) => Need::of(&layer.of, [layer.path("area"), layer.path("loose-volume")]),
            (_, Weight::Sheet(_)) => Need::of(&layer.of, [layer.path("area")]),
        });
    }
    if !masses.is_empty() {
        weight(roof, masses, area, rows);
    }
    if let Some(bucket) = roof.bucket() {
        hoisted(roof, bucket, rows);
    }
    needs
}

/// What a layer lies on: the deck itself, or the surface above it on the layers below.
fn surface(roof: &Roof, layer: &Layer, below: &Below, area: Area, rows: &mut Rows) -> (Area, String) {
    if roof.deck.is_none() || below.parts.is_empty() {
        return (area, "roof.area".to_owned());
    }
    let title = layer.name.replace('-', " ");
    let above = deck::above_deck(below.thick).of_parts(below.parts.clone());
    let above =
        rows.add(layer.path("above-deck"), format!("{title} of the roof, above the underside of the deck"), above);
    let [bend, twist] = curvatures(rows);
    let found = deck::sheet_area(area, bend, twist, above)
        .from("area", "roof.area")
        .from("summed mean curvature", "roof.deck.mean-curvature")
        .from("summed gaussian curvature", "roof.deck.gaussian-curvature")
        .from("above deck", layer.path("above-deck"));
    let path = layer.path("underside");
    (rows.add(path.as_str(), format!("surface that the {title} of the roof lies on"), found), path)
}

fn curvatures(rows: &Rows) -> [f64; 2] {
    ["mean-curvature", "gaussian-curvature"].map(|noun| rows.value(&format!("roof.deck.{noun}")).unwrap_or(0.0))
}

fn volume(roof: &Roof, (layer, thick): (&Layer, Length), below: &Below, area: Area, rows: &Rows) -> Answer<Volume> {
    if roof.deck.is_none() {
        return roof::layer_volume(area, thick).from("area", "roof.area").from("thickness", layer.path("thickness"));
    }
    let [bend, twist] = curvatures(rows);
    let volume = deck::volume_square_to_deck(area, bend, twist, below.thick, thick)
        .from("area", "roof.area")
        .from("summed mean curvature", "roof.deck.mean-curvature")
        .from("summed gaussian curvature", "roof.deck.gaussian-curvature")
        .from("thickness", layer.path("thickness"));
    if below.parts.is_empty() {
        volume.without("underside")
    } else {
        volume.from("underside", layer.path("above-deck"))
    }
}

fn weight(roof: &Roof, masses: Vec<(String, String, Mass)>, area: Area, rows: &mut Rows) {
    let sum = roof::saturated_mass(masses.iter().map(|(.., mass)| *mass).sum()).of_parts(masses);
    let mass = add(roof, rows, "roof.saturated-mass", "mass of all layers when saturated", sum);
    let load = roof::dead_load(mass, area, roof::STANDARD_GRAVITY_M_S2)
        .from("mass", "roof.saturated-mass")
        .from("area", "roof.area");
    add(roof, rows, "roof.dead-load", "load of the saturated layers on each area of slope", load);
}

/// Buckets of the layers that are poured: those that lie looser than in place.
fn hoisted(roof: &Roof, bucket: &Known<Volume>, rows: &mut Rows) {
    let poured = |layer: &&Layer| matches!(&layer.weight, Weight::Thick(.., loose) if loose.value > 1.0);
    let poured: Vec<&Layer> = roof.layers.iter().filter(poured).collect();
    if poured.is_empty() {
        return;
    }
    let bucket = rows.known("what a bucket holds as it is hoisted", bucket);
    for layer in &poured {
        let Weight::Thick(_, saturated, loose) = &layer.weight else { continue };
        let title = layer.name.replace('-', " ");
        let yields = deck::bucket_in_place(bucket, loose.value)
            .from("bucket", "roof.deck.bucket")
            .from("loose factor", layer.path("loose"));
        let yields =
            rows.add(layer.path("bucket"), format!("what a bucket of {title} makes in place on the roof"), yields);
        let volume = rows.value(&layer.path("volume")).unwrap_or(Volume::ZERO);
        let count =
            deck::buckets_up(volume, yields).from("volume", layer.path("volume")).from("bucket", layer.path("bucket"));
        rows.add(layer.path("buckets"), format!("buckets of {title} to hoist"), count);
        let mass = deck::bucket_mass(yields, saturated.value)
            .from("in place", layer.path("bucket"))
            .from("saturated", layer.path("saturated"));
        rows.add(layer.path("bucket-mass"), format!("a bucket of {title}, soaked"), mass);
    }
    let parts = rows.parts::<Mass>(poured.iter().map(|layer| layer.path("saturated-mass")));
    let sum = deck::hoisted_mass(parts.iter().map(|(.., mass)| *mass).sum()).of_parts(parts);
    rows.add("roof.deck.hoisted", "mass hoisted in buckets, soaked", sum);
}
