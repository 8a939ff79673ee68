//! Changes one value of a build file where it stands, and spells quantities so that they read back exactly.

use engine::answers::{Answers, Inputs, answers};
use engine::units::Quantity;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

#[path = "builds.rs"]
#[allow(dead_code, reason = "some tests take single builds, others all")]
mod builds;

pub use builds::BUILDS;

pub fn try_answered(text: &str) -> Option<Answers> {
    answers(&Inputs { build: text.as_bytes(), system: None }).ok()
}

pub fn answered(text: &str) -> Answers {
    answers(&Inputs { build: text.as_bytes(), system: None }).unwrap_or_else(|problems| panic!("{}", problems.all()[0]))
}

/// A quantity as TOML in an SI unit with all its digits.
pub fn spelled(quantity: Quantity) -> String {
    match quantity {
        Quantity::Length(length) => format!("\"{:.17} m\"", length.in_m()),
        Quantity::Slope(slope) => format!("\"{:.17} %\"", slope.in_percent()),
        Quantity::Angle(angle) => format!("\"{:.15} deg\"", angle.in_deg()),
        Quantity::Days(days) => format!("\"{:.15} days\"", days.in_days()),
        Quantity::Area(area) => format!("\"{:.17} m2\"", area.in_m2()),
        Quantity::Volume(volume) => format!("\"{:.17} m3\"", volume.in_m3()),
        Quantity::Mass(mass) => format!("\"{:.15} kg\"", mass.in_kg()),
        Quantity::Density(density) => format!("\"{:.13} kg/m3\"", density.in_kg_m3()),
        Quantity::SurfaceMass(mass) => format!("\"{:.15} kg/m2\"", mass.in_kg_m2()),
        Quantity::Ratio(ratio) => format!("\"{:.17} %\"", ratio.in_percent()),
        Quantity::Number(number) => format!("{number:.17}"),
        Quantity::Money(money) => format!("\"{}\"", money.shown(engine::units::System::Us)),
        Quantity::Count(count) => count.to_string(),
        Quantity::Date(date) => date.to_string(),
        Quantity::Force(force) => format!("\"{:.15} N\"", force.in_n()),
        Quantity::Speed(speed) => format!("\"{:.15} m/s\"", speed.in_m_s()),
        Quantity::Pressure(pressure) => format!("\"{} Pa\"", pressure.in_pa()),
        Quantity::Temperature(temperature) => format!("\"{} K\"", temperature.in_kelvin()),
        Quantity::LineLoad(load) => format!("\"{} N/m\"", load.in_n_m()),
        other => panic!("{other:?} stands in no build file"),
    }
}

/// The same for the row of a path: what is written of test bricks, bars and jars stays in the units of its build, since of one page none
/// may be in two.
pub fn spelled_at(text: &str, path: &str, quantity: Quantity) -> String {
    let is_of_one_page = ["tests.bricks.", "tests.bars.", "tests.jars."].iter().any(|stem| path.starts_with(stem));
    let is_us = is_of_one_page && text.contains("\nunits = \"us\"\n");
    match quantity {
        Quantity::Length(length) if is_us => format!("\"{:.15} in\"", length.in_inches()),
        Quantity::Mass(mass) if is_us => format!("\"{:.15} lb\"", mass.in_lb()),
        Quantity::Force(force) if is_us => format!("\"{:.13} lbf\"", force.in_lbf()),
        other => spelled(other),
    }
}

/// The file with the value of one row's path replaced.
pub fn rewritten(text: &str, path: &str, value: &str) -> String {
    let file = DeTable::parse(text).unwrap();
    let span = find(&file, path).unwrap_or_else(|| panic!("{path} is not in the file")).span();
    format!("{}{value}{}", &text[..span.start], &text[span.end..])
}

fn find<'t, 'i>(file: &'t Spanned<DeTable<'i>>, path: &str) -> Option<&'t Spanned<DeValue<'i>>> {
    let keys: Vec<&str> = path.split('.').collect();
    if let ["wall", "line", name, noun] = keys[..] {
        let line = file.get_ref().get("wall")?.get_ref().as_table()?.get("line")?.get_ref().as_array()?;
        let point = line.iter().find_map(|point| {
            let point = point.get_ref().as_table()?;
            (point.get("name")?.get_ref().as_str()? == name).then_some(point)
        })?;
        let list = |value: &'t Spanned<DeValue<'i>>, place: usize| value.get_ref().as_array()?.get(place);
        let through = || point.get("arc")?.get_ref().as_table()?.get("through");
        let tangent = |key: &str| point.get("curve")?.get_ref().as_table()?.get(key);
        return match noun {
            "x" => list(point.get("at")?, 0),
            "y" => list(point.get("at")?, 1),
            "through-x" => list(through()?, 0),
            "through-y" => list(through()?, 1),
            "leave-x" => list(tangent("leave")?, 0),
            "leave-y" => list(tangent("leave")?, 1),
            "arrive-x" => list(tangent("arrive")?, 0),
            "arrive-y" => list(tangent("arrive")?, 1),
            other => point.get(other),
        };
    }
    let (first, rest) = keys.split_first()?;
    rest.iter().try_fold(file.get_ref().get(*first)?, |value, key| match value.get_ref() {
        DeValue::Array(listed) => listed
            .iter()
            .find(|one| {
                let name = one.get_ref().as_table().and_then(|one| one.get("name")?.get_ref().as_str());
                name == Some(*key)
            })
            .or_else(|| listed.get(["x", "y"].iter().position(|axis| axis == key)?))
            .or_else(|| listed.get(key.parse::<usize>().ok()?.checked_sub(1)?)),
        other => other.as_table()?.get(*key),
    })
}

/// The file with every point of its plan moved by a few centimetres, each differently.
pub fn out_of_square(text: &str) -> String {
    let before = answered(text);
    let coordinates = before.rows.iter().filter(|row| row.path.starts_with("wall.line."));
    let mut moved = text.to_owned();
    for (place, row) in coordinates.filter(|row| row.path.ends_with('x') || row.path.ends_with('y')).enumerate() {
        let Quantity::Length(length) = row.quantity else { continue };
        let aside = 0.041 * (1.0 + 2.3 * place as f64).sin();
        moved = rewritten(&moved, &row.path, &format!("\"{:.17} m\"", length.in_m() + aside));
    }
    moved
}

/// The file with its plan mirrored in the y axis: points and arcs in the opposite order, places from the other end.
pub fn mirrored(text: &str) -> String {
    let before = answered(text);
    let metres = |path: &str| before.rows.find(path).unwrap().quantity.si().unwrap();
    let names: Vec<String> = before
        .rows
        .iter()
        .filter_map(|row| row.path.strip_prefix("wall.line.")?.strip_suffix(".x").map(str::to_owned))
        .collect();
    let line_start = text.find("[[wall.line]]").unwrap();
    let last = text.rfind("[[wall.line]]").unwrap();
    let line_end = last + text[last..].find("\n[").unwrap();
    let mut line = String::new();
    for place in (0..names.len()).rev() {
        let (name, previous) = (&names[place], &names[(place + names.len() - 1) % names.len()]);
        let at = |name: &str, x: &str, y: &str| {
            let (x, y) = (metres(&format!("wall.line.{name}.{x}")), metres(&format!("wall.line.{name}.{y}")));
            format!("[\"{:.17} m\", \"{y:.17} m\"]", -x)
        };
        let round = metres(&format!("wall.line.{name}.round"));
        line +=
            &format!("[[wall.line]]\nname = \"{previous}\"\nat = {}\nround = \"{round:.17} m\"\n", at(name, "x", "y"));
        line += &format!("arc = {{ through = {} }}\n", at(previous, "through-x", "through-y"));
    }
    let mut mirrored = format!("{}{line}{}", &text[..line_start], &text[line_end..]);
    let other_end = |table: &str, from: f64| {
        let run = find_text(text, &format!("{table}.run"));
        format!("\"{:.17} m\"", metres(&format!("wall.line.{run}.run")) - from)
    };
    for row in before.rows.iter().filter(|row| row.own.is_some()) {
        let is_baseline = row.path.starts_with("site.set-out.");
        if row.path.starts_with("site.") && row.path.ends_with(".x") && !is_baseline {
            let x = row.quantity.si().unwrap();
            mirrored = rewritten(&mirrored, &row.path, &format!("\"{:.17} m\"", -x));
        } else if let Some(table) = row.path.strip_suffix(".along") {
            // A row of things begins at its last one.
            let count = before.rows.find(&format!("{table}.count")).map_or(1.0, |count| count.quantity.si().unwrap());
            let spacing = before.rows.find(&format!("{table}.spacing")).map_or(0.0, |row| row.quantity.si().unwrap());
            let last = row.quantity.si().unwrap() + (count - 1.0) * spacing;
            mirrored = rewritten(&mirrored, &row.path, &other_end(table, last));
        } else if let Some(table) = row.path.strip_suffix(".from") {
            let to = format!("{table}.to");
            mirrored = rewritten(&mirrored, &row.path, &other_end(table, metres(&to)));
            mirrored = rewritten(&mirrored, &to, &other_end(table, row.quantity.si().unwrap()));
        }
    }
    mirrored
}

fn find_text(text: &str, path: &str) -> String {
    let file = DeTable::parse(text).unwrap();
    find(&file, path).unwrap().get_ref().as_str().unwrap().to_owned()
}
