//! Tried mixes of a build file: the recipe that they choose, held by hand and against the recipe of the file, and what changes it.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

mod demos;

use demos::{answered, value};
use engine::answers::{Answers, Inputs, compute};
use engine::check::State;

const TANSY_BANK: &str = include_str!("../../builds/tansy-bank/tansy-bank.loam.toml");
const BURDOCK_RISE: &str = include_str!("../../builds/burdock-rise/burdock-rise.loam.toml");

fn changed(from: &str, to: &str) -> String {
    demos::changed(TANSY_BANK, from, to)
}

#[track_caller]
fn near(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within * expected.abs(), "{found} is not {expected}");
}

fn recipe_state(answers: &Answers, mixes: &str) -> (State, String) {
    let path = format!("tests.mixes.{mixes}.off");
    let check = answers.checks.iter().find(|check| check.path.as_deref() == Some(&path)).unwrap();
    (check.state, check.sentence(answers.system))
}

#[test]
fn the_recipe_on_the_batch_card_is_the_one_that_the_statistics_chose() {
    for (text, mixes, recipe, ingredients) in [
        (TANSY_BANK, "cob", "cob", &["soil", "sand"][..]),
        (BURDOCK_RISE, "cob", "cob", &["clay-soil", "sand"]),
        (BURDOCK_RISE, "floor", "floor-mix", &["clay-soil", "sand", "pumice"]),
    ] {
        let answers = answered(text);
        for ingredient in ingredients {
            let chosen = value(&answers, &format!("tests.mixes.{mixes}.best.buckets.{ingredient}"));
            assert_eq!(chosen, value(&answers, &format!("earth.recipes.{recipe}.buckets.{ingredient}")));
        }
        assert_eq!(recipe_state(&answers, mixes).0, State::Holds, "{mixes}");
    }
}

/// Against numpy 2: `lstsq` of x, 1 − x and their product, the hat matrix, t of 5 spare runs from tables; the same by hand in
/// `docs/jar-to-bucket.md`.
#[test]
fn a_surface_says_what_least_squares_of_another_library_says() {
    let answers = answered(TANSY_BANK);
    for (wish, expected, scatter, left_out, explained, within) in [
        (
            "shrinkage",
            0.012_409_713_714_9,
            4.253_975_489_93e-4,
            5.950_474_661_17e-4,
            0.989_078_932_451,
            0.001_234_333_297_79,
        ),
        ("strength", 950_906.121_504, 22_701.713_127_4, 29_408.913_158_7, 0.948_533_159_383, 65_871.278_516_9),
        (
            "treading",
            0.016_750_466_087_2,
            5.480_849_191_06e-4,
            7.905_220_830_75e-4,
            0.922_636_130_166,
            0.001_590_322_904_47,
        ),
    ] {
        let fit = |noun: &str| value(&answers, &format!("tests.mixes.cob.fit.{wish}.{noun}"));
        let best = |noun: &str| value(&answers, &format!("tests.mixes.cob.best.{wish}.{noun}"));
        near(best("expected"), expected, 1e-10);
        near(fit("scatter"), scatter, 1e-9);
        near(fit("left-out"), left_out, 1e-9);
        near(fit("explained"), explained, 1e-10);
        near(best("within"), within, 1e-9);
    }
    near(value(&answers, "tests.mixes.cob.overall"), 0.643_812_765_950, 1e-10);
}

#[test]
fn the_order_of_a_surface_is_what_the_mixes_carry_and_says_why_it_is_not_more_bent() {
    let title = |answers: &Answers, path: &str| answers.rows.find(path).unwrap().title.clone();
    let burdock = answered(BURDOCK_RISE);
    assert_eq!(value(&burdock, "tests.mixes.floor.fit.tile.terms"), 7.0);
    assert!(title(&burdock, "tests.mixes.floor.fit.tile.terms").contains("(special-cubic)"));
    // Without the last two runs of the middle nothing but a plane is left.
    let few = changed(
        "d = { buckets = { soil = 3, sand = 3 }, found = { shrinkage = \"1.0 %\", strength = \"930 kPa\", treading = \"23 min\" } }\n",
        "",
    );
    let few = few.replace("e = { buckets = { soil = 3, sand = 3 }, found = { shrinkage = \"1.05 %\", strength = \"900 kPa\", treading = \"22 min\" } }\n", "");
    let few = few.replace("g = { buckets = { soil = 4, sand = 2 }, found = { shrinkage = \"1.95 %\", strength = \"905 kPa\", treading = \"31 min\" } }\n", "");
    let few = answered(&few);
    assert_eq!(value(&few, "tests.mixes.cob.fit.strength.terms"), 2.0);
    let said = title(&few, "tests.mixes.cob.fit.strength.terms");
    assert!(
        said.contains("linear; not quadratic: 5 runs leave nothing over") && said.contains("6 are wanted, test 1 more"),
        "{said}"
    );
}

#[test]
fn too_few_mixes_choose_nothing_and_the_check_is_not_known() {
    let text = TANSY_BANK.split("[tests.mixes.cob.tried]").next().unwrap().to_owned();
    let rest = TANSY_BANK.split_once("# Two jars of the bank's soil").unwrap().1;
    let run = "{ buckets = { soil = 2, sand = 4 }, found = { shrinkage = \"0.5 %\", strength = \"610 kPa\", treading = \"19 min\" } }";
    let answers = answered(&format!("{text}[tests.mixes.cob.tried]\na = {run}\nb = {run}\n\n#{rest}"));
    assert!(answers.rows.find("tests.mixes.cob.overall").is_none());
    let open: Vec<&str> = answers.rows.unknown("tests.mixes.cob.fit.shrinkage.terms").map(|(_, title)| title).collect();
    assert!(open[0].contains("1 distinct mixes do not carry 2 terms: try 1 more mix"), "{open:?}");
    assert_eq!(recipe_state(&answers, "cob").0, State::NotKnown);
}

#[test]
fn two_more_bricks_change_the_recipe_that_is_chosen_and_so_the_verdict() {
    let last = "strength = \"930 kPa\", treading = \"30 min\" } }\n";
    let more = |first: u32, second: u32| {
        let brick = |name: &str, kpa: u32| {
            format!("{name} = {{ buckets = {{ soil = 3, sand = 3 }}, found = {{ strength = \"{kpa} kPa\" }} }}\n")
        };
        answered(&changed(last, &format!("{last}{}{}", brick("i", first), brick("j", second))))
    };
    let alike = more(920, 915);
    assert_eq!(recipe_state(&alike, "cob").0, State::Holds);
    let stronger = more(1090, 1080);
    assert_eq!(value(&stronger, "tests.mixes.cob.best.buckets.soil"), 5.5);
    let (state, sentence) = recipe_state(&stronger, "cob");
    assert_eq!(state, State::Fails);
    assert!(
        sentence.contains("(write 5.5 soil : 5.5 sand)") && sentence.contains("0.500, at most 0.0200 wanted"),
        "{sentence}"
    );
    // The recipe stays the builder's.
    assert_eq!(value(&stronger, "earth.recipes.cob.buckets.soil"), 6.0);
    assert_eq!(value(&stronger, "tests.mixes.cob.fit.strength.runs"), 10.0);
    assert_eq!(value(&stronger, "tests.mixes.cob.fit.shrinkage.runs"), 8.0);
}

#[test]
fn a_bucket_filled_a_little_fuller_is_a_repeat_and_no_mix_of_its_own() {
    let answers =
        answered(&changed("b = { buckets = { soil = 2, sand = 4 }", "b = { buckets = { soil = 2.02, sand = 4 }"));
    assert_eq!(value(&answers, "tests.mixes.cob.fit.strength.distinct"), 5.0);
    let answers =
        answered(&changed("b = { buckets = { soil = 2, sand = 4 }", "b = { buckets = { soil = 2.25, sand = 4 }"));
    assert_eq!(value(&answers, "tests.mixes.cob.fit.strength.distinct"), 6.0);
}

#[test]
fn wishes_that_no_mix_meets_leave_the_recipe_unchosen_with_what_to_widen() {
    let answers =
        answered(&changed("value = \"1100 kPa\", below = \"800 kPa\"", "value = \"1500 kPa\", below = \"1200 kPa\""));
    let open: Vec<&str> = answers.rows.unknown("tests.mixes.cob.off").map(|(_, title)| title).collect();
    assert!(open[0].contains("no mix within the limits meets every wish at all: widen a wish or a limit"), "{open:?}");
    assert_eq!(recipe_state(&answers, "cob").0, State::NotKnown);
}

#[test]
fn a_recipe_that_is_one_small_step_off_does_not_hold() {
    let fine = changed("step = 0.5 ", "step = 0.25 ");
    let answers = answered(&fine);
    let best = value(&answers, "tests.mixes.cob.best.buckets.soil");
    let by_step = |soil: f64| {
        let recipe = format!("[earth.recipes.cob]\nbuckets = {{ soil = {soil}, sand = {} }}", 11.0 - soil);
        let text = fine.replacen("[earth.recipes.cob]\nbuckets = { soil = 6, sand = 5 }", &recipe, 1);
        recipe_state(&answered(&text), "cob").0
    };
    assert_eq!((by_step(best), by_step(best + 0.25)), (State::Holds, State::Fails));
}

/// A least step that is not written is our assumption, and what leans on it cannot hold by itself.
#[test]
fn a_step_that_is_not_written_is_taken_on_trust() {
    let answers = answered(&changed("step = 0.5                      # half a bucket has a mark\n", ""));
    assert_eq!(recipe_state(&answers, "cob").0, State::OnTrust);
}

#[test]
fn the_picture_marks_the_best_of_all_recipes_and_says_nothing_beyond_the_tried_mixes() {
    let computed = compute(&Inputs { build: BURDOCK_RISE.as_bytes(), system: None }).unwrap();
    let pictures = computed.pictures();
    let [cob, floor] = &pictures.mixes[..] else { panic!("{} pictures", pictures.mixes.len()) };
    for picture in [cob, floor] {
        let best = &picture.recipes[picture.best];
        assert!(best.is_nearly && picture.recipes.iter().all(|own| own.meets <= best.meets), "{}", picture.name);
    }
    assert!(cob.contours.is_empty() && floor.curves.is_empty() && cob.curves.len() == 3 && floor.contours.len() >= 3);
    let pumice = floor.tried.iter().map(|own| own.shares[2]).fold(0.0_f64, f64::max);
    let ends = floor.contours.iter().flat_map(|contour| contour.lines.iter().flatten());
    assert!(ends.into_iter().all(|end| end[2] <= pumice + 1e-9 && (end.iter().sum::<f64>() - 1.0).abs() < 1e-9));
}
