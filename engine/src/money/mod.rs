//! Walks the needs of the house and asks the yard what to order, how it comes and what it costs. No formula of its own.

mod bought;
mod line;

use crate::house::{Good, House};
use crate::quantities::Need;
use crate::row::Rows;
use crate::units::{Area, Money};
use crate::yard;

pub use line::Order;

/// The order of everything that the house takes from outside, and its rows.
#[must_use]
pub fn money(house: &House, needs: &[Need], rows: &mut Rows) -> Vec<Order> {
    let mut orders = Vec::new();
    if !house.goods.is_empty() {
        rows.known("height of heaps in the yard", &house.heap);
    }
    for name in house.bought() {
        let of: Vec<&Need> = needs.iter().filter(|need| need.good == name).collect();
        let good = house.goods.iter().find(|good| good.name == name);
        if !of.is_empty() {
            orders.push(line::order(house, &name, good, &of, rows));
        }
    }
    let counted = house.goods.iter().filter(|good| good.count.is_some());
    for good in counted.collect::<Vec<&Good>>() {
        orders.push(line::counted(house, good, rows));
    }
    totals(&orders, rows);
    orders
}

fn totals(orders: &[Order], rows: &mut Rows) {
    let costs: Vec<(String, String, Money)> = rows.parts(orders.iter().map(|order| order.path("cost")));
    let Some((_, _, first)) = costs.first() else { return };
    let sum = costs.iter().try_fold(yard::nothing(first.currency), |sum, (.., cost)| sum.plus(*cost));
    let Ok(sum) = sum else { return };
    let total = rows.add("order.total", "all orders that have a price", yard::total(sum).of_parts(costs));
    let floor: Option<Area> = rows.value("room.area");
    for (path, title, unit) in [
        ("order.total-per-m2", "price for each square metre of room", Area::m2(1.0)),
        ("order.total-per-sq-ft", "price for each square foot of room", Area::sq_ft(1.0)),
    ] {
        if let Some(floor) = floor {
            let rate = yard::rate(total, floor, unit).from("total", "order.total").from("floor", "room.area");
            rows.add(path, title, rate);
        }
    }
}
