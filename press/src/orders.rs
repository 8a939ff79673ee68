//! The order list as lines of words: the book, the command line and the table in open format print the same.

use engine::answers::Answers;
use engine::money::Order;
use engine::row::{Row, shown};
use engine::units::{Fineness, Quantity, System};

use crate::spoken::{marked, spoken};

/// One line of the order list in words; what is not known is a dash.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OrderLine {
    /// What the build calls it.
    pub name: String,
    /// What the supplier calls it.
    pub about: String,
    /// What the build takes, before loss.
    pub needed: String,
    /// Loss, with its origin.
    pub loss: String,
    /// What to ask for: "9 tonnes, wet, at 7 % of dry mass".
    pub order: String,
    /// Mass of the delivery.
    pub mass: String,
    /// Loads and their vehicle.
    pub loads: String,
    /// Ground that it covers in the yard.
    pub ground: String,
    /// Price of one.
    pub price: String,
    /// Price of all.
    pub cost: String,
    /// What is open, one sentence; empty otherwise.
    pub open: String,
}

/// Every line of the order list.
#[must_use]
pub fn lines(answers: &Answers) -> Vec<OrderLine> {
    answers.orders.iter().map(|order| line(answers, order)).collect()
}

fn line(answers: &Answers, order: &Order) -> OrderLine {
    let row = |noun: &str| answers.rows.find(&order.path(noun));
    let price_row = |noun: &str| answers.rows.find(&format!("prices.{}.{noun}", order.name));
    let said = |row: Option<&Row>| row.map_or("–".to_owned(), |row| row.shown(answers.system));
    let units = row("units").or(price_row("count"));
    let loads = row("loads").map_or("–".to_owned(), |loads| {
        let vehicle = spoken(order.vehicle.as_deref().unwrap_or(""));
        format!("{} by {vehicle}", loads.shown(answers.system))
    });
    OrderLine {
        name: order.name.clone(),
        about: about(answers, order),
        needed: format!(
            "{} {}",
            row("needed").map_or("–".to_owned(), |row| taken(row, order, answers.system)),
            order.taken
        )
        .trim_end()
        .to_owned(),
        loss: price_row("loss").map_or("–".to_owned(), |row| marked(answers, row)),
        order: match (units, row("needed")) {
            (Some(units), _) => ordered(units, order),
            (None, Some(row)) if order.name == engine::house::WATER => taken(row, order, answers.system),
            // Dug on the site: nobody is asked for it.
            _ if !order.weighed.is_empty() => order.weighed.clone(),
            _ => "–".to_owned(),
        },
        mass: said(row("mass")),
        loads,
        ground: said(row("ground")),
        price: said(price_row("price")),
        cost: said(row("cost")),
        open: if order.open.is_empty() { String::new() } else { format!("Open: {}.", order.open.join("; ")) },
    }
}

/// What the build takes; water in litres or gallons, as it is drawn.
fn taken(row: &Row, order: &Order, system: System) -> String {
    match row.quantity {
        Quantity::Volume(volume) if order.name == engine::house::WATER => match system {
            System::Metric => format!("{:.0} L", volume.in_litres()),
            System::Us => format!("{:.0} US gal", volume.in_us_gal()),
        },
        _ => row.shown(system),
    }
}

/// What the supplier calls it, and what else a supplier must be told.
fn about(answers: &Answers, order: &Order) -> String {
    let beside = order.beside.iter().filter_map(|path| answers.rows.find(path));
    let words = beside.map(|row| format!("; {}: {}", row.title, row.quantity.shown(answers.system, Fineness::Hand)));
    std::iter::once(order.about.clone()).chain(words).collect()
}

fn ordered(row: &Row, order: &Order) -> String {
    let count = u64::try_from(row.quantity).unwrap_or(0);
    let unit = order.sold_by.map_or(String::new(), |sold| if count == 1 { sold.word().into() } else { sold.plural() });
    if order.weighed.is_empty() { format!("{count} {unit}") } else { format!("{count} {unit}, {}", order.weighed) }
}

/// What the house takes that no line counts, each in a sentence.
#[must_use]
pub fn uncounted(answers: &Answers) -> Vec<String> {
    answers.uncounted().map(|why| format!("Not known: {why}.")).collect()
}

/// Totals as pairs of words.
#[must_use]
pub fn totals(answers: &Answers) -> Vec<[String; 2]> {
    let words = match answers.system {
        System::Metric => "For each square metre of room",
        System::Us => "For each square foot of room",
    };
    [("order.total", "All that has a price"), (total_per_area(answers.system), words)]
        .into_iter()
        .filter_map(|(path, words)| Some([words.to_owned(), answers.rows.find(path)?.shown(answers.system)]))
        .collect()
}

/// The path of the total for each square metre or square foot of room, as the reader's units are.
#[must_use]
pub fn total_per_area(system: System) -> &'static str {
    match system {
        System::Metric => "order.total-per-m2",
        System::Us => "order.total-per-sq-ft",
    }
}

/// The order list as comma-separated values: SI numbers beside words, one line a thing, the total last.
///
/// # Errors
/// The writer's message; memory does not fail.
pub fn table(answers: &Answers) -> Result<String, csv::Error> {
    let mut table = csv::Writer::from_writer(Vec::new());
    table.write_record([
        "thing",
        "supplier calls it",
        "needed",
        "needed SI",
        "loss",
        "units",
        "sold by",
        "measured",
        "mass kg",
        "loads",
        "vehicle",
        "ground m2",
        "price",
        "cost",
        "currency",
        "open",
    ])?;
    for order in &answers.orders {
        let row = |noun: &str| answers.rows.find(&order.path(noun));
        let price_row = |noun: &str| answers.rows.find(&format!("prices.{}.{noun}", order.name));
        let units = row("units").or(price_row("count"));
        let needed = row("needed").map(|row| row.quantity);
        let cost = row("cost").map(|row| row.quantity);
        table.write_record([
            order.name.clone(),
            order.about.clone(),
            needed.map_or(String::new(), |needed| shown(needed, answers.system)),
            si(needed),
            si(price_row("loss").map(|row| row.quantity)),
            si(units.map(|row| row.quantity)),
            order.sold_by.map_or("", engine::build::SoldBy::word).to_owned(),
            order.weighed.clone(),
            si(row("mass").map(|row| row.quantity)),
            si(row("loads").map(|row| row.quantity)),
            order.vehicle.clone().unwrap_or_default(),
            si(row("ground").map(|row| row.quantity)),
            major(price_row("price").map(|row| row.quantity)),
            major(cost),
            cost.map_or(String::new(), currency),
            order.open.join("; "),
        ])?;
    }
    if let Some(total) = answers.rows.find("order.total") {
        let mut last = vec![String::new(); 16];
        last[0] = "total".into();
        last[13] = major(Some(total.quantity));
        last[14] = currency(total.quantity);
        table.write_record(last)?;
    }
    let bytes = table.into_inner().map_err(csv::IntoInnerError::into_error)?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

fn si(quantity: Option<Quantity>) -> String {
    quantity.and_then(|quantity| quantity.si()).map_or(String::new(), |value| value.to_string())
}

/// An amount of money in major units, without its currency.
fn major(quantity: Option<Quantity>) -> String {
    match quantity {
        Some(Quantity::Money(money)) => {
            let digits = money.currency.minor_digits() as usize;
            if digits == 0 {
                return money.minor.to_string();
            }
            let sign = if money.minor < 0 { "-" } else { "" };
            let text = format!("{:0>width$}", money.minor.unsigned_abs(), width = digits + 1);
            let (whole, part) = text.split_at(text.len() - digits);
            format!("{sign}{whole}.{part}")
        }
        _ => String::new(),
    }
}

fn currency(quantity: Quantity) -> String {
    if let Quantity::Money(money) = quantity { money.currency.to_string() } else { String::new() }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]
    use engine::units::{Currency, Money};

    use super::*;

    #[test]
    fn money_in_a_table_is_a_plain_decimal_number() {
        let money =
            |minor: i64, code: &str| Some(Quantity::Money(Money { minor, currency: Currency::parse(code).unwrap() }));
        assert_eq!(major(money(123_456, "EUR")), "1234.56");
        assert_eq!(major(money(5, "EUR")), "0.05");
        assert_eq!(major(money(-5, "EUR")), "-0.05");
        assert_eq!(major(money(1250, "JPY")), "1250");
        assert_eq!(major(None), "");
    }
}
