//! Plans of mixes and logs of batches in words and as a strip: page and book show what the rows say.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

use engine::answers::{Answers, Inputs, answers};
use press::drawing::batches;
use press::paper::Paper;
use press::{batches as logs, plans, samples};

fn answered(text: &str) -> Answers {
    answers(&Inputs { build: text.as_bytes(), system: None }).unwrap_or_else(|problems| panic!("{}", problems.all()[0]))
}

const TANSY_BANK: &str = include_str!("../../builds/tansy-bank/tansy-bank.loam.toml");
const BURDOCK_RISE: &str = include_str!("../../builds/burdock-rise/burdock-rise.loam.toml");

#[test]
fn a_plan_has_a_line_for_each_mix_and_for_each_brick_and_says_what_to_set_aside() {
    let plan = plans::plans(&answered(TANSY_BANK)).remove(0);
    assert_eq!((plan.mixes.rows.len(), plan.bricks.len(), plan.has), (7, 7 * 6, [true, true]));
    assert_eq!([&plan.bricks[3], &plan.bricks[4], &plan.bricks[6]], ["1 d", "1 e, damp", "2 a"]);
    let fact = |words: &str| plan.facts.iter().find(|[title, _]| title == words).unwrap()[1].clone();
    assert_eq!(fact("The last is made on"), "27 March 2027");
    assert!(fact("Set aside of soil").contains("buckets: ") && fact("Set aside of soil").ends_with(" kg"));
    assert_eq!(fact("Wanted of strength"), "900 kPa; useless below 600 kPa");
    assert_eq!(plan.more, 0);
    let many = TANSY_BANK.replacen("[tests.mixes.floor.plan]", "[tests.mixes.floor.plan]\nbricks = 15", 1);
    let many = plans::plans(&answered(&many)).remove(0);
    assert_eq!((many.bricks.len(), many.more), (7 * 14, 3), "twelve dry ones of each have a line, and two damp ones");
    let plaster = plans::plans(&answered(BURDOCK_RISE)).remove(0);
    assert!(plaster.bricks.is_empty() && plaster.has == [true, true]);
}

#[test]
fn a_line_of_a_bar_says_its_mix_and_a_line_of_a_washed_sample_what_washed_what() {
    let answers = answered(TANSY_BANK);
    let [bars, washed] = [samples::bars(&answers), samples::washed(&answers)];
    assert_eq!(
        (&bars.header[..3], &bars.rows[2][..3]),
        (&["bar", "of", "wet"].map(str::to_owned)[..], &["finish", "fine plaster", "400 mm"].map(str::to_owned)[..])
    );
    assert_eq!(washed.header, ["sample", "of", "on", "test", "pit", "in", "in an hour", "index"]);
    assert_eq!(washed.rows[0], ["tap", "cob", "a brick", "drip", "7 mm", "35 min", "–", "3"]);
    assert_eq!(washed.rows[1][..4], ["laboratory", "cob", "a brick", "spray"]);
    assert_eq!(washed.rows[2][..4], ["panel", "body plaster", "a panel", "drip"]);
}

#[test]
fn a_log_is_drawn_with_its_band_once_there_are_ten_and_what_lies_outside_is_crossed() {
    let strokes = |text: &str, name: &str| {
        let answers = answered(text);
        let drawn = batches(&answers, name, Paper::of(answers.system)).unwrap().svg.to_string();
        [drawn.matches("<circle").count(), drawn.matches("<line").count(), drawn.matches("<rect").count()]
    };
    // Of each strip a middle and the two edges of its band; of the one batch outside two strokes more.
    let [tansy, burdock] = [strokes(TANSY_BANK, "trial"), strokes(BURDOCK_RISE, "first")];
    // The last batch of the other log was paced off and not weighed.
    assert_eq!((tansy[0], burdock[0]), (24, 23));
    assert_eq!(burdock[1], tansy[1] + 2);
    let few: String = TANSY_BANK
        .lines()
        .filter(|line| !line.starts_with("b12") && !line.starts_with("b11") && !line.starts_with("b10"))
        .map(|line| format!("{line}\n"))
        .collect();
    let few = strokes(&few, "trial");
    assert_eq!((few[0], few[1] + 4, few[2] + 2), (18, tansy[1], tansy[2]));
    let log = logs::logs(&answered(BURDOCK_RISE)).remove(0);
    assert_eq!(log.each.rows.len(), 12);
    assert!(
        log.together
            .iter()
            .any(|[words, _]| words.contains("b11, moisture") && words.contains("stop, find what changed"))
    );
}
