//! Rows of a mosaic: tiles, bed, grout, mass, and what it covers.

use super::super::need::Need;
use super::{face, said};
use crate::house::BuiltIn;
use crate::house::built_in::{Mosaic, Rectangle, Surface};
use crate::row::Rows;
use crate::wall;

pub(super) fn mosaic(thing: &BuiltIn, mosaic: &Mosaic, rows: &mut Rows) -> Vec<Need> {
    let name = said(thing);
    let area = match &mosaic.surface {
        Surface::Area(area) => rows.known(format!("area of {name}"), area),
        Surface::Rectangle(rectangle) => {
            let Rectangle { spot, level, width, height, .. } = &**rectangle;
            rows.known(format!("middle of {name} along its run"), &spot.along);
            rows.known(format!("level of the middle of {name}"), level);
            let width = rows.known(format!("width of {name}"), width);
            let height = rows.known(format!("height of {name}"), height);
            let area = wall::mosaic_area(width, height)
                .from("width", thing.path("width"))
                .from("height", thing.path("height"));
            rows.add(thing.path("area"), format!("area of {name}"), area)
        }
    };
    let tile = rows.known(format!("thickness of the tiles of {name}"), &mosaic.tile);
    let bedding = rows.known(format!("thickness of the bed of {name}"), &mosaic.bedding);
    let joints = rows.known(format!("share of joints in {name}"), &mosaic.joints);
    let density = rows.known(format!("density of tiles, bed and grout of {name}"), &mosaic.density);
    let (noun, word) = face(mosaic.side);
    let covers = wall::mosaic_covers(area).from("area", thing.path("area"));
    rows.add(thing.path(noun), format!("{word} face that {name} covers"), covers);
    let tiles = wall::tile_area(area, joints).from("area", thing.path("area")).from("joints", thing.path("joints"));
    rows.add(thing.path("tile-area"), format!("tiles of {name}"), tiles);
    let bed = wall::tile_bed(area, bedding).from("area", thing.path("area")).from("bedding", thing.path("bedding"));
    rows.add(thing.path("bedding-volume"), format!("bed of {name}"), bed);
    let grout = wall::tile_grout(area, joints, tile)
        .from("area", thing.path("area"))
        .from("joints", thing.path("joints"))
        .from("tile", thing.path("tile"));
    rows.add(thing.path("grout-volume"), format!("grout of {name}"), grout);
    let mass = wall::mosaic_mass(area, tile, bedding, density)
        .from("area", thing.path("area"))
        .from("tile", thing.path("tile"))
        .from("bedding", thing.path("bedding"))
        .from("density", thing.path("density"));
    rows.add(thing.path("mass"), format!("mass of {name} on the wall"), mass);
    let mut needs = vec![Need::of(&mosaic.of, [thing.path("tile-area")])];
    let laid = mosaic.laid_with.iter().zip(["bedding-volume", "grout-volume"]);
    needs.extend(laid.filter_map(|(of, noun)| Some(Need::of(of.good()?, [thing.path(noun)]))));
    needs
}
