//! One line of the order list, with its rows.

use super::bought::{self, Amount, delivered_density};
use crate::build::SoldBy;
use crate::house::built_in::What;
use crate::house::{Frame, Good, House, OIL, Roof, STONES, Stuff, THINNER, WATER};
use crate::quantities::Need;
use crate::row::Rows;
use crate::units::{Kind, Mass, Quantity, Ratio, Volume};
use crate::yard;

/// One line of the order list. Its figures are rows under `order.NAME`.
#[derive(Clone, Debug, PartialEq)]
pub struct Order {
    /// What the build calls the thing.
    pub name: String,
    /// What the supplier calls it.
    pub about: String,
    /// What kind of stuff it is.
    pub stuff: Stuff,
    /// What it is sold by, when a supplier is written.
    pub sold_by: Option<SoldBy>,
    /// Every way in which all its uses can be measured, and so in which it can be sold.
    pub measures: Vec<Kind>,
    /// How the need is measured: dry or loose.
    pub taken: &'static str,
    /// How the order is weighed or measured: wet, dry, loose.
    pub weighed: String,
    /// Rows that a supplier must be told beside the amount, such as the length of a pole.
    pub beside: Vec<String>,
    /// What brings it.
    pub vehicle: Option<String>,
    /// What is not known of it, and what to write or measure.
    pub open: Vec<String>,
}

impl Order {
    /// The path of one of its figures.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("order.{}.{noun}", self.name)
    }

    fn new(house: &House, name: &str, good: Option<&Good>) -> Order {
        let vehicle = good.and_then(|good| good.by).map(|by| house.vehicles[by].name.clone());
        Order {
            name: name.to_owned(),
            about: good.map_or_else(|| name.replace('-', " "), |good| good.about.clone()),
            stuff: house.stuff(name),
            sold_by: good.map(|good| good.sold_by),
            measures: Vec::new(),
            taken: "",
            weighed: String::new(),
            beside: beside(house, name),
            vehicle,
            open: Vec::new(),
        }
    }
}

fn beside(house: &House, name: &str) -> Vec<String> {
    let mut paths: Vec<&str> = Vec::new();
    if name == STONES[0] {
        paths.extend(["wall.stem.through-stones", "wall.stem.width"]);
    }
    // poles that were measured one by one are said by their own sizes, not by those of a first cut
    let unmeasured = |roof: &Roof| !matches!(roof.frame, Frame::Reciprocal { ring: Some(_), .. });
    if house.roof.as_ref().is_some_and(|roof| roof.of == name && unmeasured(roof)) {
        paths.extend(["poles.diameter", "roof.poles.cut-length"]);
    }
    let services = house.built_in.iter().filter(|thing| matches!(thing.what, What::Service(_)));
    let sleeved = services.filter(|thing| thing.goods().first() == Some(&name));
    let sizes = sleeved.flat_map(|thing| ["sleeve", "sleeve-length"].map(|noun| thing.path(noun)));
    paths.into_iter().map(str::to_owned).chain(sizes).collect()
}

/// The order of a thing that the build counts.
pub(super) fn order(house: &House, name: &str, good: Option<&Good>, needs: &[&Need], rows: &mut Rows) -> Order {
    let mut order = Order::new(house, name, good);
    let any = [Kind::Count, Kind::Area, Kind::Volume, Kind::Mass, Kind::Length];
    let sold = good.map(|good| good.sold_by.kind());
    let kinds: Vec<Kind> = sold.into_iter().chain([Kind::Volume]).chain(any).collect();
    let kinds = if sold.is_some() { &kinds[..] } else { &any[..] };
    order.measures = any.into_iter().filter(|kind| bought::is_measured(needs, *kind, rows)).collect();
    let Some(needed) = bought::needed(name, needs, kinds, rows) else {
        order.open.push("its uses are measured in different ways: give each its own name".into());
        return order;
    };
    order.taken = match needed.value.kind() {
        Kind::Mass if bought::pile(house, name).is_some() => "dry",
        Kind::Volume if ![WATER, OIL, THINNER].contains(&name) && house.timber().all(|timber| timber != name) => {
            "loose"
        }
        _ => "",
    };
    let Some(good) = good else {
        if house.is_dug(name) {
            order.weighed = "from the ground of the site".to_owned();
        } else if name != WATER {
            order.open.push(format!("no supplier: write [prices.{name}]"));
        }
        return order;
    };
    known(good, rows);
    let Some(amount) = bought::bought(house, good, &needed, good.sold_by.kind(), rows) else {
        order.open.push(match (needed.value.kind(), good.sold_by.kind()) {
            (Kind::Mass | Kind::Volume, Kind::Mass | Kind::Volume) => {
                format!("how heavy a loose cubic metre is: write prices.{name}.density")
            }
            _ => format!("it is needed as {}: sell it by another unit", needed.value.kind().name()),
        });
        return order;
    };
    order.weighed.clone_from(&amount.weighed);
    let (holds, holds_path) = held(house, good);
    let loss = good.loss.value;
    let mut units = yard::units(amount.value, loss, holds.si().unwrap_or(1.0))
        .from("amount", amount.path.as_str())
        .from("loss", good.path("loss"));
    if let Some(path) = &holds_path {
        units = units.with("one holds", holds, path.as_str());
    }
    let title = format!("{} to order, {}", name.replace('-', " "), words(good.sold_by));
    let units = rows.add(order.path("units"), title, units);
    delivery(house, good, &mut order, (units, holds), &amount, rows);
    let units_path = order.path("units");
    cost(good, &mut order, units, &units_path, rows);
    if is_without_offcuts(house, good) {
        order.open.push("offcuts not counted, cuts not known".to_owned());
    }
    order
}

/// Whether boards are bought by what they cover alone: a second ring lifts them, and no loss stands for what is cut off.
fn is_without_offcuts(house: &House, good: &Good) -> bool {
    let raised = house.roof.as_ref().filter(|roof| roof.is_raised() && good.loss.value == Ratio::ZERO);
    raised.and_then(Roof::board_layer).is_some_and(|(layer, _)| layer.of == good.name)
}

/// The order of a thing of which the builder wrote how many.
pub(super) fn counted(house: &House, good: &Good, rows: &mut Rows) -> Order {
    let mut order = Order::new(house, &good.name, Some(good));
    if let Some(count) = &good.count {
        if let Some(price) = &good.price {
            rows.known(format!("price of one {}", good.about), price);
        }
        let units = rows.known(format!("{} to order, {}", good.name.replace('-', " "), words(good.sold_by)), count);
        cost(good, &mut order, units, &count.path, rows);
    }
    order
}

fn words(sold_by: SoldBy) -> String {
    format!("in {}", sold_by.plural())
}

fn known(good: &Good, rows: &mut Rows) {
    let name = &good.about;
    rows.known(format!("loss of {name}"), &good.loss);
    if let Some(holds) = &good.holds {
        rows.known(format!("what one {} of {name} holds", good.sold_by.word()), holds);
    }
    if let Some(price) = &good.price {
        rows.known(format!("price of one {} of {name}", good.sold_by.word()), price);
    }
    if let Some(density) = &good.density {
        rows.known(format!("mass of a loose cubic metre of {name} as delivered"), density);
    }
}

/// What one unit holds, and the row that says so when its name does not.
fn held(house: &House, good: &Good) -> (Quantity, Option<String>) {
    if let Some(holds) = &good.holds {
        return (holds.value, Some(holds.path.clone()));
    }
    match (good.sold_by.holds(), &house.earth) {
        (Some(holds), _) => (holds, None),
        (None, Some(earth)) => (earth.bucket().into(), Some(earth.bucket_path().to_owned())),
        (None, None) => (Quantity::Number(1.0), None),
    }
}

/// What is delivered: its mass and volume, in how many loads, and where it lies.
fn delivery(
    house: &House,
    good: &Good,
    order: &mut Order,
    (units, holds): (u64, Quantity),
    amount: &Amount,
    rows: &mut Rows,
) {
    let name = order.name.replace('-', " ");
    let units_path = order.path("units");
    let (mut mass, mut volume): (Option<Mass>, Option<Volume>) = (None, None);
    let density = match amount.value {
        Quantity::Mass(_) | Quantity::Volume(_) => delivered_density(house, good, rows),
        _ => None,
    };
    match (holds, density) {
        (Quantity::Mass(each), density) => {
            let whole = yard::delivered_mass(units, each).from("units", units_path.as_str());
            mass = Some(rows.add(order.path("mass"), format!("mass of the {name} ordered"), whole));
            if let (Some((density, path)), true) = (density, good.sold_by != SoldBy::Bale) {
                let each = bought::volume_of(each, density);
                let whole = yard::delivered_volume(units, each)
                    .from("units", units_path.as_str())
                    .with("density", density, path);
                volume = Some(rows.add(order.path("volume"), format!("loose volume of the {name} ordered"), whole));
            }
        }
        (Quantity::Volume(each), density) => {
            let whole = yard::delivered_volume(units, each).from("units", units_path.as_str());
            let loose = if good.sold_by.is_liquid() { "" } else { "loose " };
            volume = Some(rows.add(order.path("volume"), format!("{loose}volume of the {name} ordered"), whole));
            if let Some((density, path)) = density {
                let whole = yard::delivered_mass(units, each * density)
                    .from("units", units_path.as_str())
                    .with("density", density, path);
                mass = Some(rows.add(order.path("mass"), format!("mass of the {name} ordered"), whole));
            }
        }
        _ => {}
    }
    loads(house, good, order, mass, volume, rows);
    storage(house, good, order, units, volume, rows);
}

fn loads(house: &House, good: &Good, order: &mut Order, mass: Option<Mass>, volume: Option<Volume>, rows: &mut Rows) {
    let Some(vehicle) = good.by.map(|by| &house.vehicles[by]) else { return };
    let by_mass = mass.zip(vehicle.carries.as_ref());
    let by_volume = volume.zip(vehicle.holds.as_ref());
    let shares =
        [by_mass.map(|(mass, carries)| mass / carries.value), by_volume.map(|(volume, holds)| volume / holds.value)];
    let Some(share) = shares.into_iter().flatten().reduce(f64::max) else { return };
    let name = vehicle.name.replace('-', " ");
    if let Some(carries) = vehicle.carries.as_ref().filter(|known| rows.find(&known.path).is_none()) {
        rows.known(format!("what the {name} carries"), carries);
    }
    if let Some(holds) = vehicle.holds.as_ref().filter(|known| rows.find(&known.path).is_none()) {
        rows.known(format!("what the {name} holds"), holds);
    }
    let mut loads = yard::loads(share);
    if let Some((mass, carries)) = by_mass {
        loads =
            loads.with("mass", mass, order.path("mass")).with("vehicle carries", carries.value, carries.path.as_str());
    }
    if let Some((volume, holds)) = by_volume {
        loads =
            loads.with("volume", volume, order.path("volume")).with("vehicle holds", holds.value, holds.path.as_str());
    }
    let title = format!("loads of {} by {name}", order.name.replace('-', " "));
    rows.add(order.path("loads"), title, loads);
}

fn storage(house: &House, good: &Good, order: &mut Order, units: u64, volume: Option<Volume>, rows: &mut Rows) {
    let title = format!("ground that the {} covers in the yard", order.name.replace('-', " "));
    if let Some(covers) = &good.covers {
        let each = rows.known(format!("ground under one {} of {}", good.sold_by.word(), good.about), covers);
        let area = yard::stack_area(units, each).from("units", order.path("units")).from("each", covers.path.as_str());
        rows.add(order.path("ground"), title, area);
    } else if let (Some(volume), false) = (volume, good.sold_by.is_liquid()) {
        let area =
            yard::heap_area(volume, house.heap.value).from("volume", order.path("volume")).from("height", "site.heap");
        rows.add(order.path("ground"), title, area);
    }
}

fn cost(good: &Good, order: &mut Order, units: u64, units_path: &str, rows: &mut Rows) {
    let Some(price) = &good.price else {
        order.open.push(format!("its price: write prices.{}.price", good.name));
        return;
    };
    match price.value.times(units) {
        Ok(cost) => {
            let answer =
                yard::cost(units, price.value, cost).from("units", units_path).from("price", price.path.as_str());
            rows.add(order.path("cost"), format!("price of the {}", good.about), answer);
        }
        Err(fault) => order.open.push(fault.to_string()),
    }
}
