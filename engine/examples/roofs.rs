//! The measures of the two demo roofs as JSON, for `bench/roofs.py`: seats, poles, notches, loads in plan; none of our forces.

use engine::build::{self, Source};
use engine::house::{self, Frame, House};
use engine::quantities::quantities;
use engine::row::Rows;
use serde_json::{Value, json};

const TANSY_BANK: &str = include_str!("../../builds/tansy-bank/tansy-bank.loam.toml");
const BURDOCK_RISE: &str = include_str!("../../builds/burdock-rise/burdock-rise.loam.toml");

fn main() {
    let told = [("tansy-bank", TANSY_BANK), ("burdock-rise", BURDOCK_RISE)].map(|(name, text)| (name, measures(text)));
    println!("{:#}", json!(std::collections::BTreeMap::from(told)));
}

fn measures(text: &str) -> Option<Value> {
    let source = Source::new(text);
    let written = build::read(&source, text);
    let house = house::place(&source, &written)?;
    let (rows, _) = quantities(&house);
    let value = |path: &str| rows.find(path).and_then(|row| row.quantity.si());
    let loads = [
        "roof.loads.fixed",
        "roof.loads.fixed-least",
        "roof.loads.soil",
        "site.loads.imposed",
        "site.loads.placing",
        "roof.loads.snow",
    ];
    let winds = ["roof.loads.wind-down", "roof.loads.wind-up", "roof.loads.wind-up-eaves"];
    let loads: Vec<Option<f64>> = loads.into_iter().chain(winds).map(value).collect();
    let stiff = ["roof.joints.push", "roof.joints.tie"].map(value);
    Some(
        json!({ "loads": loads, "density": value("poles.density"), "places": places(&house), "straight": straight(&rows),
        "stiff": stiff, "bolt": value("roof.bolt.diameter") }),
    )
}

/// A ring: where each pole is laid and toward which corner of the eye, its sizes, notch and tail.
fn places(house: &House) -> Option<Vec<Value>> {
    let Frame::Reciprocal { ring: Some(ring), .. } = &house.roof.as_ref()?.frame else { return None };
    let place = |rafter: &engine::roof::poles::Rafter| {
        json!({ "support": rafter.support.map(|at| at.in_m()), "toward": rafter.toward.map(|at| at.in_m()),
            "butt": rafter.pole.butt.in_m(), "tip": rafter.pole.tip.in_m(), "length": rafter.pole.length.in_m(),
            "bow": rafter.pole.bow.in_m(), "overhang": rafter.overhang.in_m(), "notch": rafter.notch.in_m(),
            "seat": ring.seat.value.in_m() })
    };
    Some(ring.layout.rafters.iter().map(place).collect())
}

fn straight(rows: &Rows) -> Option<Value> {
    let value = |path: &str| rows.find(path).and_then(|row| row.quantity.si());
    let span = value("roof.poles.span")?;
    Some(json!({ "span": span, "length": value("roof.poles.cut-length"), "pitch": value("roof.angle"),
        "spacing": value("roof.spacing"), "diameter": value("poles.diameter"), "seat": value("roof.seat") }))
}
