//! The measures of the two demo roofs and of one with a second ring as JSON, for `bench/roofs.py`: seats, poles, notches, loads in plan; none
//! of our forces.

use engine::build::{self, Source};
use engine::house::{self, Frame, House};
use engine::quantities::quantities;
use engine::row::Rows;
use serde_json::{Value, json};

const TANSY_BANK: &str = include_str!("../../builds/tansy-bank/tansy-bank.loam.toml");
const BURDOCK_RISE: &str = include_str!("../../builds/burdock-rise/burdock-rise.loam.toml");
const SECOND_RING: &str = include_str!("../../builds/second-ring/second-ring.loam.toml");

fn main() {
    let builds = [("tansy-bank", TANSY_BANK), ("burdock-rise", BURDOCK_RISE), ("second-ring", SECOND_RING)];
    let told = builds.map(|(name, text)| (name, measures(text)));
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
        "plate": plate(&house, &rows), "stiff": stiff, "bolt": value("roof.bolt.diameter"), "second": second(&house, &rows) }),
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

/// A second ring: what places and weighs its rafters; where they lie is for the script to find.
fn second(house: &House, rows: &Rows) -> Option<Value> {
    let (own, on_frame) = house.roof.as_ref()?.secondary.as_ref()?.second_ring()?;
    let value = |noun: &str| rows.find(&format!("roof.secondary.{noun}")).and_then(|row| row.quantity.si());
    let supports: Vec<[f64; 3]> = own.supports.iter().map(|at| at.map(|part| part.in_m())).collect();
    Some(json!({ "at": value("at"), "across": value("across"), "diameter": value("diameter"), "hole": value("bolt"),
        "housing": value("housing"), "let_in": value("notch").zip(value("housing")).map(|(one, other)| one + other),
        "beyond": on_frame.beyond, "mass": on_frame.mass, "supports": supports,
        "seat": rows.find("roof.seat").and_then(|row| row.quantity.si()) }))
}

/// The bond beam under straight rafters: its line point by point, where rafters and anchors are, and how each rafter lies.
fn plate(house: &House, rows: &Rows) -> Option<Value> {
    let roof = house.roof.as_ref()?;
    let Frame::OneWay { rafters, .. } = &roof.frame else { return None };
    let (beam, planks) = (house.bond_beam.as_ref()?, roof.held.as_ref()?.planks.as_ref()?);
    let line = &house.wall.line;
    let at = |along: f64| {
        let at = line.at(along).beside(beam.offset.in_m());
        [at.x, at.y]
    };
    let points = 240;
    let even: Vec<[f64; 2]> =
        (0..points).map(|place| at(line.length() * f64::from(place) / f64::from(points))).collect();
    let spots = house.anchors.iter().flat_map(|own| own.spots.iter().enumerate().map(move |spot| (own, spot)));
    let anchors: Vec<Value> = spots
        .map(|(own, (place, spot))| json!([format!("{}-{}", own.name, place + 1), at(line.along_line(spot.station))]))
        .collect();
    let value = |path: &str| rows.find(path).and_then(|row| row.quantity.si());
    let last = rafters.places.len();
    let each = rafters.places.iter().enumerate().map(|(place, one)| {
        let of = |noun: &str| value(&format!("roof.rafters.{}.{noun}", place + 1));
        let strip = if place == 0 || place + 1 == last { "roof.rafters.side-strip" } else { "roof.rafters.2.across" };
        let seats = one.seats.map(|up| rafters.point(one.bears_at, up)).map(|at| [at.x, at.y]);
        json!({ "low": of("low-tail"), "span": of("span"), "length": of("cut-length"), "strip": value(strip), "seats": seats })
    });
    let each: Vec<Value> = each.collect();
    Some(json!({ "line": even, "anchors": anchors, "rafters": each, "width": beam.width.value.in_m(),
        "height": beam.height.value.in_m(), "layers": beam.layers.value, "density": planks.density.value.in_kg_m3(),
        "young": planks.values.stiffness.value.in_pa(), "shear": planks.values.shear_stiffness.value.in_pa() }))
}

/// Straight rafters: the longest as thin as the thinnest and as heavy as the heaviest, then each as it lies.
fn straight(rows: &Rows) -> Option<Value> {
    let value = |path: &str| rows.find(path).and_then(|row| row.quantity.si());
    let span = value("roof.poles.span")?;
    let whole = json!({ "length": value("roof.poles.cut-length"), "span": span,
        "butt": value("roof.rafters.low-thinnest"), "tip": value("roof.rafters.high-thinnest"),
        "mass": value("roof.rafters.heaviest") });
    let own = |place: u64| {
        let of = |noun: &str| value(&format!("roof.rafters.{place}.{noun}"));
        json!({ "length": of("cut-length"), "span": of("span"), "low": of("low-tail"), "butt": of("low"), "tip": of("high"),
            "mass": of("mass") })
    };
    let last = value("roof.poles.count")? as u64;
    // The outermost two lie along their walls.
    let each: Vec<Value> = (2..last).map(own).collect();
    Some(json!({ "pitch": value("roof.angle"), "spacing": value("roof.spacing"), "seat": value("roof.seat"),
        "whole": whole, "each": each }))
}
