//! Walks the rulebooks and holds each rule against what was measured; what a limit asks for, as a row. No formula of its own.

use crate::build::BrickTest;
use crate::check::Check;
use crate::earth::strength;
use crate::house::House;
use crate::row::Rows;
use crate::rulebook::{limit_of, rules_of};
use crate::units::Pressure;

/// Every check of the house, the most urgent state first, in the rulebooks' order within a state.
#[must_use]
pub fn structure(house: &House, rows: &Rows) -> Vec<Check> {
    let mut checks: Vec<Check> = rules_of(&house.rulebooks).flat_map(|rule| Check::against(rule, rows)).collect();
    checks.sort_by_key(|check| check.state);
    checks
}

/// How many bricks of each lot of the wall's cob it takes until what a rule wants of the least of them can be relied on.
pub fn bricks_wanted(house: &House, rows: &mut Rows) {
    for bricks in house.bricks.iter().filter(|bricks| Some(&bricks.of) == house.wall.cob.as_ref()) {
        let measured = match bricks.test {
            BrickTest::Crushed => "tests.cob.compression",
            BrickTest::Broken => "tests.cob.rupture",
        };
        let limit = limit_of(&house.rulebooks, measured);
        let paths = [bricks.path("mean"), bricks.path("deviation")];
        let [mean, deviation] = [&paths[0], &paths[1]].map(|path| rows.value::<Pressure>(path));
        let wanted = limit.and_then(|limit| limit.bound.si()).map(Pressure::pa);
        let (Some(mean), Some(deviation), Some(wanted)) = (mean, deviation, wanted) else { continue };
        let lot = bricks.name.replace('-', " ");
        let path = bricks.path("wanted");
        let Some(count) = strength::bricks_wanted(mean, deviation, wanted) else {
            let words = format!(
                "count of bricks by which what is wanted could be relied on (no count would do: mend the mix) of {lot}"
            );
            rows.not_known(path, words);
            continue;
        };
        let [of_mean, of_deviation] = paths;
        let answer = strength::bricks_until(mean, deviation, count).from("mean", of_mean);
        let title = format!("bricks like those of {lot} by which what is wanted could be relied on");
        rows.add(path, title, answer.from("deviation", of_deviation));
    }
}
