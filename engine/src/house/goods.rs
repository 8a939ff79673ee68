//! What is bought, with nothing missing: how it is sold, what it costs, what brings it.

use super::layers::unknown_good;
use super::place::{known, nearest, within};
use super::{Earth, House};
use crate::build::{self, Build, SoldBy, Source};
use crate::known::{Known, Origin};
use crate::units::{Area, Currency, Density, Kind, Length, Mass, Money, Quantity, Ratio, System, Volume};

/// A thing that is bought.
#[derive(Clone, Debug)]
pub struct Good {
    /// What the build calls it.
    pub name: String,
    /// What the supplier calls it.
    pub about: String,
    /// What it is sold by.
    pub sold_by: SoldBy,
    /// What one bale, sheet or roll holds.
    pub holds: Option<Known<Quantity>>,
    /// Price of one.
    pub price: Option<Known<Money>>,
    /// What is lost on the way into the house.
    pub loss: Known<Ratio>,
    /// Mass of a loose cubic metre as it is delivered.
    pub density: Option<Known<Density>>,
    /// The vehicle that brings it, by place in the list.
    pub by: Option<usize>,
    /// Ground that one stacked unit covers.
    pub covers: Option<Known<Area>>,
    /// Units of a thing that the build does not count.
    pub count: Option<Known<u64>>,
}

impl Good {
    /// Its key.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("prices.{}.{noun}", self.name)
    }
}

/// What brings things.
#[derive(Clone, Debug)]
pub struct Vehicle {
    /// Its name.
    pub name: String,
    /// Mass that it may carry.
    pub carries: Option<Known<Mass>>,
    /// Volume that it can hold.
    pub holds: Option<Known<Volume>>,
}

/// Vehicles and goods of a build file, in one currency.
pub(super) fn place(
    source: &Source<'_>,
    build: &Build,
    earth: Option<&Earth>,
    system: System,
) -> (Vec<Vehicle>, Vec<Good>) {
    let vehicles: Vec<Vehicle> = build.site.vehicles.iter().map(|written| vehicle(source, written, system)).collect();
    one_currency(source, build);
    let sold_by = build.prices.iter().filter_map(|price| price.sold_by.as_ref());
    for sold_by in sold_by.filter(|sold_by| sold_by.value == SoldBy::Bucket && earth.is_none()) {
        let hint = "write bucket, ingredients and recipes in [earth], or sell it by another unit";
        source.fault(sold_by.span.clone(), &sold_by.path, "nothing says what a bucket holds", hint);
    }
    let goods = build.prices.iter().filter_map(|written| good(source, written, &vehicles, system)).collect();
    (vehicles, goods)
}

fn vehicle(source: &Source<'_>, written: &build::Vehicle, system: System) -> Vehicle {
    let masses = Mass::kg(20.0)..Mass::t(60.0);
    let volumes = Volume::litres(20.0)..Volume::m3(100.0);
    if written.carries.is_none() && written.holds.is_none() {
        let path = format!("site.vehicles.{}", written.name.value);
        let hint = "write carries = \"3 t\", or holds = \"2 m3\", or both";
        source.fault(written.name.span.clone(), &path, "nothing says what this vehicle takes", hint);
    }
    Vehicle {
        name: written.name.value.clone(),
        carries: within(source, written.carries.as_ref(), masses, "what a vehicle carries", system),
        holds: within(source, written.holds.as_ref(), volumes, "what a vehicle holds", system),
    }
}

/// Height of heaps in the yard.
pub(super) fn heap(source: &Source<'_>, build: &Build, system: System) -> Known<Length> {
    let heights = Length::mm(200.0)..Length::m(5.0);
    within(source, build.site.heap.as_ref(), heights, "the height of a heap", system).unwrap_or_else(|| {
        let why = "a heap that is shovelled from by hand";
        Known::assumed(Length::m(1.2), "site.heap", Origin::Judgement, why)
    })
}

/// The currency of the build: as written, else that of its first price.
pub(super) fn currency(build: &Build) -> Option<Currency> {
    let first = build.prices.iter().find_map(|price| price.price.as_ref());
    build.build.currency.as_ref().map(|written| written.value).or(first.map(|price| price.value.currency))
}

fn one_currency(source: &Source<'_>, build: &Build) {
    let Some(currency) = currency(build) else { return };
    let from = build.build.currency.as_ref().map(|written| written.line);
    let from = from.or(build.prices.iter().find_map(|price| price.price.as_ref()).map(|price| price.line));
    for price in build.prices.iter().filter_map(|good| good.price.as_ref()) {
        if price.value.currency != currency {
            source.fault(
                price.span.clone(),
                &price.path,
                format!(
                    "this price is in {}, the build is in {currency} (line {})",
                    price.value.currency,
                    from.unwrap_or(1)
                ),
                "write all prices in one currency",
            );
        } else if price.value.minor < 0 {
            source.fault(price.span.clone(), &price.path, "a price below zero", "write what you pay for one");
        }
    }
}

fn good(source: &Source<'_>, written: &build::Price, vehicles: &[Vehicle], system: System) -> Option<Good> {
    let sold_by = written.sold_by.as_ref()?.value;
    let name = written.name.value.clone();
    let path = |noun: &str| format!("prices.{name}.{noun}");
    let holds = written.holds.as_ref().and_then(|holds| {
        let (least, most) = match sold_by.kind() {
            Kind::Mass => (Mass::kg(1.0).into(), Mass::kg(1000.0).into()),
            _ => (Area::m2(0.05).into(), Area::m2(2000.0).into()),
        };
        within_kind(source, holds, [least, most], system)
    });
    let loss = within(source, written.loss.as_ref(), Ratio::ZERO..Ratio::percent(100.0), "a loss", system);
    let densities = Density::kg_m3(5.0)..Density::kg_m3(3500.0);
    let by = written.by.as_ref().and_then(|by| {
        let found = vehicles.iter().position(|vehicle| vehicle.name == by.value);
        if found.is_none() {
            let hint = nearest(vehicles.iter().map(|vehicle| vehicle.name.as_str()), &by.value);
            let message = format!("there is no vehicle \"{}\" in [site.vehicles]", by.value);
            source.fault(by.span.clone(), &by.path, message, hint);
        }
        found
    });
    let areas = Area::m2(0.001)..Area::m2(50.0);
    Some(Good {
        about: written.about.as_ref().map_or_else(|| name.replace('-', " "), |about| about.value.clone()),
        sold_by,
        holds,
        price: known(written.price.as_ref()),
        loss: loss.unwrap_or_else(|| lost(sold_by, path("loss"))),
        density: within(source, written.density.as_ref(), densities, "the density of a delivery", system),
        by,
        covers: within(source, written.covers.as_ref(), areas, "ground under one unit", system),
        count: known(written.count.as_ref()),
        name,
    })
}

/// What is lost of a thing when nothing is written: a tenth of what is poured or cut, nothing of what is counted.
fn lost(sold_by: SoldBy, path: String) -> Known<Ratio> {
    match sold_by {
        SoldBy::Piece => Known::assumed(Ratio::ZERO, path, Origin::Judgement, "pieces are counted"),
        _ => Known::assumed(Ratio::percent(10.0), path, Origin::Memory, "a tenth is spilt, cut off or trodden in"),
    }
}

fn within_kind(
    source: &Source<'_>,
    written: &build::Written<Quantity>,
    [least, most]: [Quantity; 2],
    system: System,
) -> Option<Known<Quantity>> {
    let is_within = written
        .value
        .si()
        .zip(least.si())
        .zip(most.si())
        .is_some_and(|((value, least), most)| (least..=most).contains(&value));
    if is_within {
        return known(Some(written));
    }
    let said = |quantity| super::place::shown(quantity, system);
    let hint = format!("write {} from {} to {}", least.kind().name(), said(least), said(most));
    source.fault(written.span.clone(), &written.path, format!("{} is not what one holds", said(written.value)), hint);
    None
}

/// Refuses a price of what nothing needs, and a count of what the build counts itself.
pub(super) fn are_needed(source: &Source<'_>, build: &Build, house: &House) {
    let needed = house.bought();
    for good in &build.prices {
        match (needed.contains(&good.name.value), &good.count) {
            (false, None) => unknown_good(source, &good.name, &needed),
            (true, Some(count)) => {
                let message = "the build counts this itself".to_owned();
                source.fault(
                    count.span.clone(),
                    &count.path,
                    message,
                    "leave `count` out, or give the thing another name",
                );
            }
            _ => {}
        }
    }
}
