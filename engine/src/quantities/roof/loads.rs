//! Rows of what lies on a roof: its layers, soaked soil too deep, snow, wind, water behind the edge board.

use super::super::line::bind;
use crate::curve::Side;
use crate::house::{Code, Frame, Held, House, Roof, RoofSoil, Soaked, Weight};
use crate::loads::acting::{Acting, Load, Loads};
use crate::loads::tables::fact;
use crate::loads::{combined, snow, wind};
use crate::reason::Answer;
use crate::roof;
use crate::roof::standing::Secondaries;
use crate::row::Rows;
use crate::units::{Angle, Density, Length, LineLoad, Pressure, Ratio, SurfaceMass};

/// The loads of a roof, the water behind its edge board (its weight on each metre, and how far it stands in plan), and what lies
/// between its poles.
pub(super) struct Loaded {
    pub loads: Loads,
    pub pond: Option<(LineLoad, Length)>,
    pub between: Option<Secondaries>,
}

/// The row of a load.
pub(super) fn path(load: Load) -> &'static str {
    match load {
        Load::Fixed => "roof.loads.fixed",
        Load::FixedLeast => "roof.loads.fixed-least",
        Load::Soil => "roof.loads.soil",
        Load::Imposed => "site.loads.imposed",
        Load::Placing => "site.loads.placing",
        Load::Snow => "roof.loads.snow",
        Load::WindDown => "roof.loads.wind-down",
        Load::WindUp => "roof.loads.wind-up",
        Load::WindUpEaves => "roof.loads.wind-up-eaves",
        Load::Pond => "roof.loads.pond",
    }
}

/// Adds the loads that act to what follows from them, and the weight of the poles.
pub(super) fn bound<T>(answer: Answer<T>, acting: &Acting, rows: &Rows) -> Answer<T> {
    let answer = bind(answer, rows, "poles.density");
    acting.loads().fold(answer, |answer, load| bind(answer, rows, path(load)))
}

fn number(name: &str) -> f64 {
    fact(name).map_or(f64::NAN, |fact| fact.number)
}

/// Notes every load; nothing where the building office was not asked for snow and wind.
pub(super) fn walk(house: &House, roof: &Roof, held: &Held, pitch: &str, rows: &mut Rows) -> Option<Loaded> {
    let steep = rows.value::<Angle>(pitch)?;
    let imposed = rows.known("load of people on the roof for repair, in plan", &held.loads.imposed);
    let placing = rows.known("load of crew and heaps while its layers are placed, in plan", &held.loads.placing);
    let fixed_least = fixed_least(roof, (pitch, steep), rows);
    let fixed = fixed(roof, (pitch, steep), rows);
    let soil = roof.soil.as_ref().map(|soil| self::soil(roof, soil, (pitch, steep), rows));
    let pond = roof.soil.as_ref().map(|soil| pond(soil, (pitch, steep), rows));
    let snow = held.loads.snow.as_ref().map(|ground| {
        let ground = rows.known("snow on the ground", ground);
        match held.code {
            Code::En => snow_en(ground, roof.soil.is_some(), (pitch, steep), rows),
            Code::Asce => snow_asce(ground, (pitch, steep), rows),
        }
    });
    let wind = held.loads.wind.as_ref().and_then(|(speed, ground)| {
        let speed = rows.known("speed of the wind by which the code counts", speed);
        let gust = match held.code {
            Code::En => gust(house, speed, ground, rows),
            Code::Asce => gust_asce(speed, ground, rows),
        };
        let uplift = uplift(house, roof, held.code, (pitch, steep), rows)?;
        Some(on_roof(held.code, gust, uplift, rows))
    });
    let (Some(snow), Some([wind_down, wind_up, wind_up_eaves])) = (snow, wind) else {
        not_known(held, rows);
        return None;
    };
    let soil = soil.unwrap_or(Pressure::ZERO);
    let loads =
        Loads { weight: 1.0, fixed, fixed_least, soil, imposed, placing, snow, wind_down, wind_up, wind_up_eaves };
    Some(Loaded { loads, pond, between: roof.secondary.as_ref().map(|own| own.between.clone()) })
}

fn not_known(held: &Held, rows: &mut Rows) {
    if held.loads.snow.is_none() {
        rows.not_known("roof.loads.snow", "snow on the roof: ask the building office for that on the ground");
    }
    if held.loads.wind.is_none() {
        rows.not_known("roof.loads.wind-down", "wind on the roof: ask the building office for its speed");
    }
}

/// The layers that stay as they are, on each area in plan.
fn fixed(roof: &Roof, (pitch, steep): (&str, Angle), rows: &mut Rows) -> Pressure {
    let soil = roof.soil.as_ref().map(|soil| soil.layer);
    let mut parts = Vec::new();
    for (_, layer) in roof.layers.iter().enumerate().filter(|(number, _)| Some(*number) != soil) {
        let title = format!("{} of the roof, on each area of slope", layer.name.replace('-', " "));
        let mass = match &layer.weight {
            Weight::Thick(thickness, saturated, _) => roof::layer_on_area(saturated.value, thickness.value)
                .from("density", layer.path("saturated"))
                .from("thickness", layer.path("thickness")),
            Weight::Sheet(mass) => {
                let laps = layer.laps.as_ref();
                let sheet = roof::lapped_sheet(mass.value, laps.map_or(Ratio::ZERO, |laps| laps.value))
                    .from("mass", layer.path("mass"));
                if laps.is_some() { sheet.from("laps", layer.path("laps")) } else { sheet.without("laps") }
            }
        };
        let mass = rows.add(layer.path("on-slope"), title.clone(), mass);
        parts.push((title, layer.path("on-slope"), mass));
    }
    if parts.is_empty() {
        return Pressure::ZERO;
    }
    let sum = parts.iter().fold(SurfaceMass::ZERO, |sum, (.., mass)| sum + *mass);
    let sum = rows.add(
        "roof.loads.fixed-mass",
        "layers of the roof but its soil, on each area of slope",
        roof::fixed_layers(sum).of_parts(parts),
    );
    let load = combined::weight_in_plan(sum, steep, roof::STANDARD_GRAVITY_M_S2)
        .from("mass", "roof.loads.fixed-mass")
        .from("pitch", pitch);
    rows.add("roof.loads.fixed", "load of all layers but the soil, saturated, in plan", load)
}

/// What surely lies there of those layers when the roof has dried: sheets without their laps, and what is written to be so dense dry.
fn fixed_least(roof: &Roof, (pitch, steep): (&str, Angle), rows: &mut Rows) -> Pressure {
    let soil = roof.soil.as_ref().map(|soil| soil.layer);
    let mut sum = SurfaceMass::ZERO;
    let mut from = Vec::new();
    for (_, layer) in roof.layers.iter().enumerate().filter(|(number, _)| Some(*number) != soil) {
        let words = layer.name.replace('-', " ");
        match (&layer.weight, &layer.dry) {
            (Weight::Sheet(mass), _) => {
                sum = sum + mass.value;
                from.push(layer.path("mass"));
            }
            (Weight::Thick(thickness, ..), Some(dry)) => {
                let dry = rows.known(format!("density of {words} when dry"), dry);
                sum = sum + roof::layer_on_area(dry, thickness.value).value;
                from.extend([layer.path("dry"), layer.path("thickness")]);
            }
            (Weight::Thick(..), None) => {}
        }
    }
    if from.is_empty() {
        return Pressure::ZERO;
    }
    let load = combined::weight_in_plan(sum, steep, roof::STANDARD_GRAVITY_M_S2).without("mass").from("pitch", pitch);
    let load = from.iter().fold(load, |load, path| bind(load, rows, path));
    let title = "load of the layers but the soil when they have dried, in plan: what surely holds the roof down";
    rows.add("roof.loads.fixed-least", title, load)
}

/// Soil, soaked and too deep, on each area in plan.
fn soil(roof: &Roof, soil: &RoofSoil, (pitch, steep): (&str, Angle), rows: &mut Rows) -> Pressure {
    let layer = &roof.layers[soil.layer];
    let Weight::Thick(thickness, ..) = &layer.weight else { return Pressure::ZERO };
    let too_deep = rows.known("how much too deep the soil of the roof may lie", &soil.too_deep);
    let soaked: Density = match &soil.soaked {
        Soaked::Density(density) => rows.known("density of the roof's soil when soaked", density),
        Soaked::Bucket(full, empty, holds) => {
            let full = rows.known("a bucket of the roof's soil, soaked and drained", full);
            let empty = rows.known("the same bucket, empty", empty);
            let holds = rows.known("what that bucket holds", holds);
            let density = roof::soaked_density(full, empty, holds)
                .from("full", "roof.soil.bucket.full")
                .from("empty", "roof.soil.bucket.empty")
                .from("volume", "roof.soil.bucket.holds");
            rows.add("roof.soil.soaked", "density of the roof's soil when soaked", density)
        }
    };
    let deepest = roof::over_deep(thickness.value, too_deep)
        .from("thickness", layer.path("thickness"))
        .from("too deep", "roof.soil.too-deep");
    let deepest = rows.add("roof.soil.deepest", "depth of the soil that is counted with", deepest);
    let mass =
        roof::layer_on_area(soaked, deepest).from("density", "roof.soil.soaked").from("thickness", "roof.soil.deepest");
    let mass = rows.add("roof.soil.on-slope", "soil, soaked and too deep, on each area of slope", mass);
    let load = combined::weight_in_plan(mass, steep, roof::STANDARD_GRAVITY_M_S2)
        .from("mass", "roof.soil.on-slope")
        .from("pitch", pitch);
    rows.add("roof.loads.soil", "load of the soil, soaked and too deep, in plan", load)
}

/// Water behind the edge board when the outlet is blocked, as deep as board or sheet can keep it.
fn pond(soil: &RoofSoil, (pitch, steep): (&str, Angle), rows: &mut Rows) -> (LineLoad, Length) {
    let board = rows.known("height of the edge board over the sheet", &soil.board);
    let deck = "roof.deck.upstand.edge";
    let upstand = rows.value::<Length>(deck).unwrap_or(Length::ZERO);
    let higher = if upstand > board { deck } else { "roof.soil.board" };
    let depth = bind(roof::pond_depth(board, upstand), rows, higher);
    let depth = rows.add("roof.loads.pond-depth", "water behind the edge board when the outlet is blocked", depth);
    let reach = roof::pond_reach(depth, steep).from("depth", "roof.loads.pond-depth").from("pitch", pitch);
    let reach = rows.add("roof.loads.pond-reach", "how far water stands behind the edge board, in plan", reach);
    let water = Density::kg_m3(number("water-kg-m3"));
    let mass = roof::pond_on_each_metre(depth, steep, water).value;
    let weight = roof::pond_weight(mass).without("mass on each metre kg");
    let weight = bind(bind(weight, rows, "roof.loads.pond-depth"), rows, pitch);
    (rows.add("roof.loads.pond", "water behind each metre of edge board when the outlet is blocked", weight), reach)
}

const SNOW: &str = "snow on the roof, in plan";

/// Snow on the roof by the European code; behind an edge board as much as on a flat roof, EN 1991-1-3, 5.3.2(2), from memory.
fn snow_en(ground: Pressure, has_board: bool, (pitch, steep): (&str, Angle), rows: &mut Rows) -> Pressure {
    let full = Angle::deg(number("mu1-full-deg"));
    let slides = steep > full && !has_board;
    let counted = if has_board { steep.min(full) } else { steep };
    let shape = snow::shape(counted, number("mu1-flat"), full, Angle::deg(number("mu1-none-deg"))).value;
    let snow = snow::roof_snow(ground, shape, number("ce-en"), number("ct-en"));
    let snow = snow.from("ground", "site.loads.snow").without("shape").without("exposure").without("thermal");
    rows.add("roof.loads.snow", SNOW, if slides { bind(snow, rows, pitch) } else { snow })
}

/// The same by ASCE 7, on a roof of low slope no less than the least.
fn snow_asce(ground: Pressure, (pitch, steep): (&str, Angle), rows: &mut Rows) -> Pressure {
    let importance = number("is-asce");
    let (share, exposure, thermal) = (number("snow-flat-asce"), number("ce-asce"), number("ct-asce"));
    let flat = snow::flat_roof_snow(ground, share, exposure, thermal, importance).from("ground", "site.loads.snow");
    let flat = ["flat share", "exposure", "thermal", "importance"].iter().fold(flat, |flat, name| flat.without(name));
    let level = rows.add("roof.loads.flat-snow", "snow on a flat roof there", flat);
    let full = Angle::deg(number("cs-full-deg"));
    let factor = snow::slope_factor(steep, full, Angle::deg(number("cs-none-deg"))).value;
    let sloped = snow::sloped_roof_snow(level, factor).from("flat", "roof.loads.flat-snow").without("slope factor");
    let most = Pressure::psf(number("snow-least-asce-psf"));
    let least = snow::least_snow(ground, importance, most).without("importance").without("most");
    if steep < Angle::deg(number("snow-least-to-deg")) && least.value > sloped.value {
        let least = least.from("ground", "site.loads.snow");
        return rows.add("roof.loads.snow", format!("{SNOW}: the least on a roof of low slope"), least);
    }
    let sloped = if steep > full { bind(sloped, rows, pitch) } else { sloped };
    rows.add("roof.loads.snow", SNOW, sloped)
}

/// Pressure of a gust at the height of the roof by the European code.
fn gust(house: &House, speed: crate::units::Speed, ground: &str, rows: &mut Rows) -> Pressure {
    let height = rows.value::<Length>("house.height").unwrap_or(house.wall.height.value);
    let rough = Length::m(number(&format!("z0-{ground}")));
    let least = Length::m(number(&format!("zmin-{ground}")));
    let terrain = wind::terrain_factor(rough, Length::m(number("z0-2"))).value;
    let factor = wind::roughness_factor(terrain, height, rough, least).value;
    let turbulence = wind::turbulence(height, rough, least).value;
    let basic = wind::basic_pressure(speed, Density::kg_m3(number("air-kg-m3"))).value;
    let gust = wind::gust_pressure(basic, factor, turbulence);
    let gust = gust.without("basic pressure").without("roughness factor").without("turbulence");
    let gust = bind(gust, rows, "site.loads.wind");
    let gust = if height > least { bind(gust, rows, "house.height") } else { gust };
    rows.add("roof.loads.gust", "pressure of a gust at the height of the roof", gust)
}

/// The same by ASCE 7; a house this low lies in the lowest layer of air that its table has.
fn gust_asce(speed: crate::units::Speed, ground: &str, rows: &mut Rows) -> Pressure {
    let height = rows.value::<Length>("house.height").unwrap_or(Length::ZERO);
    let gradient = Length::ft(number(&format!("zg-{ground}-ft")));
    let factor = wind::velocity_factor(height, gradient, number(&format!("alpha-{ground}"))).value;
    let gust = wind::velocity_pressure(speed, factor, number("kzt-asce"), number("kd-asce"));
    let gust = gust.from("speed", "site.loads.wind").without("velocity factor").without("topography");
    let gust = gust.without("direction");
    let lowest = wind::velocity_factor(Length::ZERO, gradient, number(&format!("alpha-{ground}"))).value;
    let gust = if factor > lowest { bind(gust, rows, "house.height") } else { gust };
    rows.add("roof.loads.gust", "pressure of a gust at the height of the roof", gust)
}

/// The coefficient by which wind lifts a roof, of any zone and way the greatest, and what it follows from; none, and the row not
/// known, where the table has no such pitch.
fn uplift(
    house: &House,
    roof: &Roof,
    code: Code,
    (pitch, steep): (&str, Angle),
    rows: &mut Rows,
) -> Option<(f64, Vec<String>)> {
    let found = match code {
        Code::En => {
            let frame = if matches!(roof.frame, Frame::OneWay { .. }) { "one-way" } else { "reciprocal" };
            let up = |deg: f64| wind::between(&UP_DEG, |deg| number(&format!("roof-up-en-{frame}-{deg}")), deg);
            // Between two pitches of the same coefficient a steeper roof is lifted no less.
            let is_level = up(steep.in_deg() - 0.1) == up(steep.in_deg() + 0.1);
            up(steep.in_deg()).map(|found| (found, if is_level { Vec::new() } else { vec![pitch.to_owned()] }))
        }
        Code::Asce => {
            let [low, high] = ["roof-up-low-asce", "roof-up-high-asce"].map(number);
            let [low_to, high_from] = ["roof-low-to-asce", "roof-high-from-asce"].map(number);
            let height: Option<Length> = rows.value("house.height");
            let slender = height.map(|height| height / narrowest(house));
            let share = slender.map(|slender| ((slender - low_to) / (high_from - low_to)).clamp(0.0, 1.0));
            let from = ["house.height", "wall.overall-x", "wall.overall-y"].map(str::to_owned);
            share.map(|share| (low + (high - low) * share, from.to_vec()))
        }
    };
    if found.is_none() {
        rows.not_known("roof.loads.wind-up", "wind that lifts the roof: the table of the code ends before its pitch");
    }
    found
}

/// Degrees of pitch for which the European table is carried.
const UP_DEG: [u32; 6] = [0, 5, 15, 30, 45, 60];

/// How far a chord may lie from the outer face where the least width is looked for, in metres.
const CHORD: f64 = 1e-4;

/// The least width of the house over its outer faces, looked for degree by degree.
fn narrowest(house: &House) -> Length {
    let face = house.wall.shape().polyline(Side::Outer, [0.0, house.wall.line.length()], 0.0, CHORD);
    let across = |deg: u32| {
        let way = kurbo::Vec2::from_angle(f64::from(deg).to_radians());
        let along = face.iter().map(|point| point.to_vec2().dot(way));
        let (least, most) =
            along.fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), at| (at.min(least), at.max(most)));
        most - least
    };
    Length::m((0..180).map(across).fold(f64::INFINITY, f64::min))
}

/// What the gust does to the roof: down, up between the walls, up on the eaves.
fn on_roof(code: Code, gust: Pressure, (up, from): (f64, Vec<String>), rows: &mut Rows) -> [Pressure; 3] {
    let (of, factor, inside) = match code {
        Code::En => ("en", 1.0, [number("inside-down-en"), number("inside-up-en")]),
        Code::Asce => ("asce", number("gust-asce"), [-number("inside-asce"), number("inside-asce")]),
    };
    let down = number(&format!("roof-down-{of}"));
    let soffit = factor * number(&format!("soffit-{of}"));
    [
        ("roof.loads.wind-down", "wind that presses on the roof", down, inside[0]),
        ("roof.loads.wind-up", "wind on the roof between the walls, lifting below zero", up, inside[1]),
        ("roof.loads.wind-up-eaves", "wind on the eaves, lifting below zero", up, soffit),
    ]
    .map(|(path, title, outside, from_below)| {
        let load = wind::on_area(gust, factor, outside, from_below).from("gust", "roof.loads.gust");
        let load = load.without("gust factor").without("outside").without("from below");
        let from = if outside < 0.0 { &from[..] } else { &[] };
        let load = from.iter().fold(load, |load, path| bind(load, rows, path));
        rows.add(path, title, load)
    })
}
