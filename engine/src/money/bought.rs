//! From what is needed to what a supplier measures: sums, and from dry mass or loose volume to what is weighed or poured.

use crate::earth;
use crate::house::{Good, House, Ingredient, STRAW};
use crate::quantities::Need;
use crate::row::Rows;
use crate::units::{Density, Kind, Mass, Quantity, Volume};
use crate::yard;

/// An amount as a supplier measures it: its row, its value, and how it is weighed.
pub(super) struct Amount {
    pub(super) path: String,
    pub(super) value: Quantity,
    pub(super) weighed: String,
}

/// The pile of the house that a thing is.
pub(super) fn pile<'a>(house: &'a House, name: &str) -> Option<&'a Ingredient> {
    house.earth.as_ref()?.ingredients.iter().find(|ingredient| ingredient.name == name)
}

/// Whether every need can be sold by a kind of measure: as it is, or weighed for poured and poured for weighed.
pub(super) fn is_measured(needs: &[&Need], kind: Kind, rows: &Rows) -> bool {
    let all = |kind: Kind| needs.iter().all(|need| need.by(kind, rows).is_some());
    let other = match kind {
        Kind::Mass => Kind::Volume,
        Kind::Volume => Kind::Mass,
        kind => kind,
    };
    all(kind) || all(other)
}

/// All that is needed, in the first measure of these that every need has.
pub(super) fn needed(name: &str, needs: &[&Need], kinds: &[Kind], rows: &mut Rows) -> Option<Amount> {
    let kind = *kinds.iter().find(|kind| needs.iter().all(|need| need.by(**kind, rows).is_some()))?;
    let parts: Vec<(String, String, Quantity)> = needs
        .iter()
        .filter_map(|need| need.by(kind, rows))
        .map(|(path, title, value)| (title.to_owned(), path.to_owned(), value))
        .collect();
    // What is poured is measured loose; timber is as large as it is.
    let is_poured = parts.iter().all(|(_, path, _)| path.contains("loose"));
    let weighed = if is_poured { "loose".to_owned() } else { String::new() };
    let sum: f64 = parts.iter().filter_map(|(.., value)| value.si()).sum();
    let sum = if kind == Kind::Count { Quantity::Count(sum as u64) } else { kind.of_si(sum)? };
    let answer = yard::needed(sum).of_parts(parts);
    let path = format!("order.{name}.needed");
    let value = rows.add(path.as_str(), format!("{} that the build takes", name.replace('-', " ")), answer);
    Some(Amount { path, value, weighed })
}

/// The amount as it is bought by a kind of measure; none when nothing says how heavy it is.
pub(super) fn bought(house: &House, good: &Good, needed: &Amount, kind: Kind, rows: &mut Rows) -> Option<Amount> {
    let as_it_is =
        |weighed: &str| Amount { path: needed.path.clone(), value: needed.value, weighed: weighed.to_owned() };
    let pile = pile(house, &good.name);
    match (needed.value, kind) {
        (Quantity::Mass(dry), Kind::Mass) => match pile {
            Some(pile) => Some(wet(&good.name, pile, (dry, &needed.path), rows)),
            None => Some(as_it_is(if good.name == STRAW { "air-dry" } else { "" })),
        },
        (Quantity::Volume(_), Kind::Volume) => Some(as_it_is(&needed.weighed)),
        (Quantity::Volume(volume), Kind::Mass) => {
            let (density, path) = delivered_density(house, good, rows)?;
            let mass = earth::mass(volume, density).from("volume", needed.path.as_str()).from("density", path);
            let title = format!("{} to order, by mass as delivered", good.name.replace('-', " "));
            Some(added(&good.name, title, mass, &weighed(pile), rows))
        }
        (Quantity::Mass(mass), Kind::Volume) => {
            let (density, path) = loose_density(pile, good)?;
            let volume = earth::volume(mass, density).from("mass", needed.path.as_str()).from("density", path);
            let title = format!("{} to order, loose", good.name.replace('-', " "));
            Some(added(&good.name, title, volume, "loose", rows))
        }
        (value, kind) if value.kind() == kind => Some(as_it_is("")),
        _ => None,
    }
}

fn added<T: Copy + Into<Quantity>>(
    name: &str,
    title: String,
    answer: crate::reason::Answer<T>,
    weighed: &str,
    rows: &mut Rows,
) -> Amount {
    let path = format!("order.{name}.bought");
    let value = rows.add(path.as_str(), title, answer).into();
    Amount { path, value, weighed: weighed.to_owned() }
}

fn weighed(pile: Option<&Ingredient>) -> String {
    match pile {
        Some(pile) => format!("wet, at {:.1} % of dry mass", pile.moisture.value.in_percent()),
        None => "as delivered".to_owned(),
    }
}

fn wet(name: &str, pile: &Ingredient, (dry, path): (Mass, &str), rows: &mut Rows) -> Amount {
    let wet = earth::wet(dry, pile.moisture.value).from("dry mass", path).from("moisture", pile.path("moisture"));
    let title = format!("{} to order, weighed wet", name.replace('-', " "));
    added(name, title, wet, &weighed(Some(pile)), rows)
}

/// Dry mass of a loose cubic metre of a pile, or mass of one of a delivery.
fn loose_density(pile: Option<&Ingredient>, good: &Good) -> Option<(Density, String)> {
    match pile {
        Some(pile) => Some((pile.loose_density(), pile.loose_density_path())),
        None => good.density.as_ref().map(|density| (density.value, density.path.clone())),
    }
}

/// Mass of a loose cubic metre as it is delivered; of a pile, with its moisture.
pub(super) fn delivered_density(house: &House, good: &Good, rows: &mut Rows) -> Option<(Density, String)> {
    let pile = pile(house, &good.name);
    let (loose, from) = loose_density(pile, good)?;
    let Some(pile) = pile else { return Some((loose, from)) };
    let path = format!("order.{}.delivered-density", good.name);
    if let Some(row) = rows.find(&path) {
        return Density::try_from(row.quantity).ok().map(|density| (density, path));
    }
    let wet = earth::wet_loose(loose, pile.moisture.value)
        .from("loose density", from)
        .from("moisture", pile.path("moisture"));
    let title = format!("mass of a loose cubic metre of {} as delivered, wet", good.name.replace('-', " "));
    Some((rows.add(path.as_str(), title, wet), path))
}

/// Loose volume of a delivered mass, for its heap and its loads.
pub(super) fn volume_of(mass: Mass, density: Density) -> Volume {
    mass / density
}
