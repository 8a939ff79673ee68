//! Tables of a leaf: recipes by the bucket, tried mixes, test panels and bricks, openings, the earth balance, which pole lies
//! where, shims, the bond beam under the poles; and the lines of what to order.

use engine::answers::Answers;
use engine::build::SoldBy;
use engine::units::{Fineness, Kind, Length};

use super::wire::{Order, Table};

/// The tables of a leaf.
pub fn tables(leaf: &str, answers: &Answers) -> Vec<Table> {
    match leaf {
        "ground" => balance(answers),
        "walls" => vec![openings(answers)],
        "earth" => {
            let recipes = answers.recipes.iter().map(|recipe| of_recipe(answers, recipe));
            recipes
                .chain(of_mixes(answers))
                .chain(of_plans(answers))
                .chain(of_batches(answers))
                .chain(of_panels(answers))
                .chain(of_bricks(answers))
                .chain(of_samples(answers))
                .collect()
        }
        "roof" => {
            places(answers).into_iter().chain(rafters(answers)).chain(deck(answers)).chain(beam(answers)).collect()
        }
        _ => Vec::new(),
    }
}

/// The lines of what to order, on the leaf that shows them.
pub fn orders(leaf: &str, answers: &Answers) -> Vec<Order> {
    if leaf != "stuff" {
        return Vec::new();
    }
    let both = answers.orders.iter().zip(press::orders::lines(answers));
    let order = |(known, line): (&engine::money::Order, press::orders::OrderLine)| Order {
        has_no_cost: !known.open.is_empty() && answers.rows.find(&known.path("cost")).is_none(),
        is_written: known.sold_by.is_some(),
        open: if known.sold_by.is_some() { known.open.clone() } else { Vec::new() },
        sold_by: sold_by(&known.measures),
        name: line.name,
        about: line.about,
        needed: line.needed,
        order: line.order,
        price: line.price,
        cost: line.cost,
    };
    both.map(order).collect()
}

/// Words of what measures in one of these ways; with each an example of what one holds, where that must be said.
fn sold_by(measures: &[Kind]) -> Vec<(String, String)> {
    let all = SoldBy::WORDS.iter().filter(|(_, sold)| measures.contains(&sold.kind()));
    all.map(|(word, sold)| ((*word).to_owned(), sold.holds_example().unwrap_or("").to_owned())).collect()
}

fn table(title: &str, header: &[&str], rows: Vec<Vec<String>>) -> Table {
    Table { title: title.to_owned(), header: header.iter().map(|word| (*word).to_owned()).collect(), rows }
}

fn words(name: &str) -> String {
    name.replace('-', " ")
}

fn shown(answers: &Answers, path: &str) -> String {
    answers.rows.find(path).map_or_else(|| "–".to_owned(), |row| row.shown(answers.system))
}

fn of_recipe(answers: &Answers, recipe: &str) -> Table {
    let stem = format!("earth.recipes.{recipe}");
    let buckets = format!("{stem}.buckets.");
    let ingredients = answers.rows.iter().filter_map(|row| Some((row, row.path.strip_prefix(&buckets)?)));
    let mut rows: Vec<Vec<String>> =
        ingredients.map(|(row, name)| vec![words(name), format!("{} buckets", row.shown(answers.system))]).collect();
    let rest =
        [("armfuls", "straw", "armfuls"), ("water-buckets", "water to add", "buckets"), ("loaves", "gives", "loaves")];
    for (noun, what, of) in rest {
        if let Some(row) = answers.rows.find(&format!("{stem}.{noun}")) {
            rows.push(vec![what.to_owned(), format!("{} {of}", row.shown(answers.system))]);
        }
    }
    if let Some(words) = press::samples::beforehand(answers, recipe) {
        rows.push(vec!["beforehand".to_owned(), words]);
    }
    rows.push(vec!["batches in all".to_owned(), shown(answers, &format!("{stem}.whole-batches"))]);
    table(&format!("One tarp of {}", words(recipe)), &["what", "how much"], rows)
}

/// What each brick bore, and what all of a lot say together.
fn of_bricks(answers: &Answers) -> Vec<Table> {
    let lots = press::bricks::lots(answers);
    let both = lots.into_iter().flat_map(|lot| {
        let open = lot.open.into_iter().map(|sentence| vec![sentence, "–".to_owned()]);
        let together = lot.together.into_iter().map(Vec::from).chain(open).collect();
        let title = format!("{}: together", lot.title);
        let bore = Table { title: lot.title, header: lot.bore.header, rows: lot.bore.rows };
        [bore, table(&title, &["what", "how much"], together)]
    });
    both.collect()
}

/// Bars and washed samples, and what is not known of them.
fn of_samples(answers: &Answers) -> Vec<Table> {
    let open = press::samples::open(answers).into_iter().map(|sentence| vec![sentence]).collect();
    let [bars, washed] =
        [press::samples::bars(answers), press::samples::washed(answers)].map(|columns| (columns.header, columns.rows));
    let tables = [
        Table { title: "Bars of the mixes".to_owned(), header: bars.0, rows: bars.1 },
        Table { title: "What drips and spray wash out".to_owned(), header: washed.0, rows: washed.1 },
        table("Of bars and washed samples", &["what"], open),
    ];
    tables.into_iter().filter(|table| !table.rows.is_empty()).collect()
}

/// What was tried, what is wanted and what the surfaces say, and what is chosen.
fn of_mixes(answers: &Answers) -> Vec<Table> {
    let all = press::mixes::series(answers).into_iter().flat_map(|mixes| {
        let open = mixes.open.into_iter().map(|sentence| vec![sentence, "–".to_owned()]);
        let together = mixes.together.into_iter().map(Vec::from).chain(open).collect();
        let titles = ["what is wanted", "what they choose"].map(|words| format!("{}: {words}", mixes.title));
        let tried = Table { title: mixes.title, header: mixes.tried.header, rows: mixes.tried.rows };
        let wishes = Table { title: titles[0].clone(), header: mixes.wishes.header, rows: mixes.wishes.rows };
        [tried, wishes, table(&titles[1], &["what", "how much"], together)]
    });
    all.filter(|table| !table.rows.is_empty()).collect()
}

/// What to make next, in its order, and by when.
fn of_plans(answers: &Answers) -> Vec<Table> {
    let all = press::plans::plans(answers).into_iter().flat_map(|plan| {
        let open = plan.open.into_iter().map(|sentence| vec![sentence, "–".to_owned()]);
        let facts = plan.facts.into_iter().map(Vec::from).chain(open).collect();
        let title = format!("{}: how many, by when", plan.title);
        let mixes = Table { title: plan.title, header: plan.mixes.header, rows: plan.mixes.rows };
        [mixes, table(&title, &["what", "how much"], facts)]
    });
    all.collect()
}

/// What each batch of a log filled, and what they say together.
fn of_batches(answers: &Answers) -> Vec<Table> {
    let all = press::batches::logs(answers).into_iter().flat_map(|log| {
        let open = log.open.into_iter().map(|sentence| vec![sentence, "–".to_owned()]);
        let together = log.together.into_iter().map(Vec::from).chain(open).collect();
        let title = format!("{}: together", log.title);
        let each = Table { title: log.title, header: log.each.header, rows: log.each.rows };
        [each, table(&title, &["what", "how much"], together)]
    });
    all.collect()
}

/// The scale, what was scored on each face, and what is chosen.
fn of_panels(answers: &Answers) -> Vec<Table> {
    let series = press::panels::series(answers);
    let scale = press::panels::steps();
    let scale = (!series.is_empty()).then(|| Table {
        title: "How panels are scored".to_owned(),
        header: scale.header,
        rows: scale.rows,
    });
    let all = series.into_iter().flat_map(|panels| {
        let open = panels.open.into_iter().map(|sentence| vec![sentence, "–".to_owned()]);
        let together = panels.together.into_iter().map(Vec::from).chain(open).collect();
        let title = format!("{}: what they say", panels.title);
        let scored = Table { title: panels.title, header: panels.scored.header, rows: panels.scored.rows };
        [scored, table(&title, &["what", "how much"], together)]
    });
    scale.into_iter().chain(all).collect()
}

fn openings(answers: &Answers) -> Table {
    let names = answers.rows.matching("openings.*.width").filter_map(|row| row.path.split('.').nth(1));
    let rows = names.map(|name| {
        let of = |noun: &str| shown(answers, &format!("openings.{name}.{noun}"));
        vec![words(name), of("width"), of("height"), of("sill")]
    });
    table("Openings", &["opening", "width", "height", "sill"], rows.collect())
}

fn balance(answers: &Answers) -> Vec<Table> {
    let stages = |earth: &str| {
        let stem = format!("balance.{earth}.");
        let all = answers.rows.iter().filter(move |row| row.path.starts_with(&stem) && row.path.ends_with(".left"));
        all.map(|row| vec![row.title.clone(), row.shown(answers.system)]).collect::<Vec<_>>()
    };
    let both = [("topsoil", "Topsoil on its heap"), ("subsoil", "Subsoil on its heap")];
    let tables = both.map(|(earth, title)| table(title, &["after", "on the heap"], stages(earth)));
    tables.into_iter().filter(|table| !table.rows.is_empty()).collect()
}

/// The shim table, where there are shims.
fn deck(answers: &Answers) -> Vec<Table> {
    let Some(deck) = answers.deck.as_ref().filter(|deck| !deck.shims.is_empty()) else { return Vec::new() };
    let length = |length: Length| engine::row::shown(length.into(), answers.system);
    let shims = deck.shims.iter().map(|line| {
        let sides = line.sides.iter().flat_map(|side| match side {
            Some(shim) => [length(shim.inner), length(shim.outer), engine::row::shown(shim.cut.into(), answers.system)],
            None => ["–", "–", "–"].map(str::to_owned),
        });
        [line.pole.to_string(), length(line.along)].into_iter().chain(sides).collect()
    });
    let header =
        ["pole", "along", "left, inner", "left, outer", "left, cut", "right, inner", "right, outer", "right, cut"];
    vec![table("Shims under the deck", &header, shims.collect())]
}

/// Which pole lies where among straight rafters.
fn rafters(answers: &Answers) -> Vec<Table> {
    let Some(plan) = &answers.rafter_plan else { return Vec::new() };
    let nouns = ["cut-length", "low-tail", "span", "high-tail", "low-seat", "high-seat", "low-packing", "high-packing"];
    let rows = plan.places.iter().enumerate().map(|(place, rafter)| {
        let name = rafter.tag.as_ref().map_or_else(String::new, |tag| format!(" {}", words(tag)));
        let cells = nouns.iter().map(|noun| shown(answers, &format!("{}.{noun}", rafter.stem)));
        std::iter::once(format!("{}{name}", place + 1)).chain(cells).collect()
    });
    let header = [
        "rafter",
        "cut to",
        "low tail",
        "on its seats",
        "high tail",
        "low seat",
        "high seat",
        "packed, low",
        "packed, high",
    ];
    vec![table("Where each rafter lies", &header, rows.collect())]
}

fn places(answers: &Answers) -> Vec<Table> {
    let Some(ring) = &answers.ring_plan else { return Vec::new() };
    let mark = |path: String| {
        let row = answers.rows.find(&path);
        row.map_or_else(|| "–".to_owned(), |row| row.quantity.shown(answers.system, Fineness::Mark))
    };
    let rows = ring.places.iter().enumerate().map(|(place, pole)| {
        let of = |noun: &str| format!("{}.{noun}", pole.stem);
        let banded = |noun: &str, band: &str| format!("{} ± {}", mark(of(noun)), mark(of(band)));
        vec![
            format!("{} {}", place + 1, words(&pole.tag)),
            if pole.is_turned { "thin" } else { "thick" }.to_owned(),
            mark(of("cut-length")),
            banded("carry", "carry-band"),
            banded("rest", "rest-band"),
            shown(answers, &of("notch")),
            shown(answers, &of("mass")),
        ]
    });
    let header = ["place", "end at the wall", "cut to", "carries at", "rests at", "notch there", "mass"];
    vec![table("Which pole lies where", &header, rows.collect())]
}

/// What the bond beam carries as a ring or as a plate, part by part, and what each anchor holds.
fn beam(answers: &Answers) -> Vec<Table> {
    let keys = |stem: &str, noun: &str| -> Vec<String> {
        let pattern = format!("{stem}*.{noun}");
        let key = |row: &engine::row::Row| row.path.strip_prefix(stem)?.split('.').next().map(str::to_owned);
        answers.rows.matching(&pattern).filter_map(key).collect()
    };
    let lines = |stem: &str, keys: Vec<String>, nouns: &[&str]| -> Vec<Vec<String>> {
        let cells = |key: &String| nouns.iter().map(|noun| shown(answers, &format!("{stem}{key}.{noun}"))).collect();
        let line = |key: &String| std::iter::once(words(key)).chain::<Vec<String>>(cells(key)).collect();
        keys.iter().map(line).collect()
    };
    let by_stresses = answers.rows.matching("roof.beam.*.asd-bending").next().is_some();
    let [used, scarf, earth] =
        if by_stresses { ["asd-used", "asd-scarf", "asd-earth"] } else { ["used", "scarf", "earth"] };
    let forces = ["ring-force", "moment-plan", "moment-upright", "shear-force", "twist-moment", scarf];
    let parts = lines("roof.beam.", keys("roof.beam.", "ring-force"), &forces);
    let header = [
        "bond beam over",
        "ring force, push below zero",
        "moment in plan",
        "up and down",
        "across",
        "twist",
        "bolts of a scarf used",
    ];
    // Rafters that fall one way do not thrust: under them it is no ring.
    let plate = if parts.is_empty() {
        lines("roof.beam.", keys("roof.beam.", "moment-upright"), &forces[2..])
    } else {
        Vec::new()
    };
    let of_plate = ["bond beam over", "moment up and down", "force across", "twist", "bolts of a scarf used"];
    let seats = lines("roof.beam.seats.", keys("roof.beam.seats.", "eased"), &["eased", earth]);
    let held = lines("roof.beam.", keys("roof.beam.", "held-force"), &["held-force", "held-moment"]);
    let alone = ["bond beam over", "ring force, push below zero", "moment in plan there"];
    let anchors = lines("roof.beam.anchors.", keys("roof.beam.anchors.", "pull"), &["pull", used]);
    let tables = [
        table("What the bond beam under the poles carries as a ring", &header, parts),
        table("What the bond beam under the rafters carries as their plate", &of_plate, plate),
        table("If the beam as a ring alone held the thrust of its poles: for an engineer", &alone, held),
        table("Earth under each seat", &["seat", "pressure once it has given", "of what bricks bore"], seats),
        table("What each anchor must hold down", &["anchor", "pull", "of what it holds"], anchors),
    ];
    tables.into_iter().filter(|table| !table.rows.is_empty()).collect()
}
