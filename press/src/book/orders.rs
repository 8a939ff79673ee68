//! What to order: one line a thing, as it is said on the telephone, with loads, ground and price.

use engine::answers::Answers;
use serde_json::{Value, json};

use crate::orders;
use crate::spoken::spoken;

pub(super) fn chapter(answers: &Answers) -> Value {
    let lines = orders::lines(answers);
    let open: Vec<[String; 2]> = lines
        .iter()
        .filter(|line| !line.open.is_empty())
        .map(|line| [spoken(&line.name), line.open.trim_start_matches("Open: ").to_owned()])
        .collect();
    let asked = lines.iter().map(|line| {
        [line.about.clone(), line.order.clone(), line.loads.clone(), line.price.clone(), line.cost.clone()]
    });
    let behind = lines.iter().map(|line| {
        [spoken(&line.name), line.needed.clone(), line.loss.clone(), line.mass.clone(), line.ground.clone()]
    });
    json!({
        "asked": asked.collect::<Vec<_>>(),
        "behind": behind.collect::<Vec<_>>(),
        "totals": orders::totals(answers),
        "open": open,
        "uncounted": orders::uncounted(answers),
    })
}
