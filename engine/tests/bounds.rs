//! What lies at a bound is taken, and what lies just past it is refused or fails.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

use engine::answers::{Answers, Inputs, answers, compute};
use engine::check::State;

/// A room of 4.6 by 3.6 m within walls 400 mm thick.
const HOUSE: &str = r#"
format = 1
[build]
name = "House"
[wall]
thickness = "400 mm"
height = "2.2 m"
[[wall.line]]
name = "south"
at = ["0 m", "0 m"]
[[wall.line]]
name = "east"
at = ["5 m", "0 m"]
[[wall.line]]
name = "north"
at = ["5 m", "4 m"]
[[wall.line]]
name = "west"
at = ["0 m", "4 m"]
"#;

/// The answers of that house with more written, or the first thing that is said against it.
fn with(more: &str) -> Result<Answers, String> {
    let text = format!("{HOUSE}{more}");
    answers(&Inputs { build: text.as_bytes(), system: None }).map_err(|problems| problems.all()[0].to_string())
}

fn taken(more: &str) -> Answers {
    with(more).unwrap_or_else(|said| panic!("{more}: {said}"))
}

fn refused(more: &str, said: &str) {
    match with(more) {
        Ok(_) => panic!("{more}: taken"),
        Err(problem) => assert!(problem.contains(said), "{more}: {problem}"),
    }
}

fn value(answers: &Answers, path: &str) -> f64 {
    answers.rows.find(path).unwrap_or_else(|| panic!("no {path}")).quantity.si().unwrap()
}

/// What the rule of that name says of a path.
fn state(answers: &Answers, rule: &str, path: &str) -> Option<State> {
    let mut checks = answers.checks.iter().filter(|check| check.rule.id == rule);
    checks.find(|check| check.path.as_deref() == Some(path)).map(|check| check.state)
}

#[test]
fn a_cover_is_held_down_by_no_less_than_the_gust_lifts() {
    taken("[wall.cover]\nlift = 1.0\nsafety = 1.0\n");
    refused("[wall.cover]\nlift = 0.999\n", "wall.cover.lift: 0.999");
    refused("[wall.cover]\nsafety = 0.999\n", "wall.cover.safety: 0.999");
}

#[test]
fn nobody_lays_cob_from_the_ground_above_1_5_m_or_plasters_above_2_1_m() {
    taken("[wall.platform]\nabove = \"1.5 m\"\n");
    refused("[wall.platform]\nabove = \"1.501 m\"\n", "wall.platform.above: 1.501 m");
    let skin = |reach: &str| {
        format!(
            "[skin]\nreach = \"{reach}\"\n[[skin.inside]]\nname = \"body\"\nof = \"plaster\"\nthickness = \"10 mm\"\n"
        )
    };
    taken(&skin("2.1 m"));
    refused(&skin("2.101 m"), "skin.reach: 2.101 m");
}

#[test]
fn the_ground_lies_below_the_top_of_the_wall_and_every_elevation_ends() {
    refused("[ground]\noutside = \"2.2 m\"\n", "ground.outside: the ground would lie at 2.200 m");
    let text = format!("{HOUSE}[ground]\noutside = \"2.199 m\"\n");
    let computed = compute(&Inputs { build: text.as_bytes(), system: None }).unwrap_or_else(|_| panic!("refused"));
    for elevation in computed.pictures().elevations {
        let outlines = elevation.section.parts.iter().flat_map(|part| &part.outlines);
        let points = outlines.flat_map(|outline| &outline.points).copied();
        assert!(points.into_iter().all(|point| point.is_finite()), "{}", elevation.name);
    }
}

/// An oven with a footing 1.7 m wide, so many metres from the middle of the west wall.
fn oven(name: &str, x: f64) -> String {
    format!(
        "[built-in.{name}]\nkind = \"oven\"\nat = [\"{x:.3} m\", \"2 m\"]\nfaces = \"90 deg\"\ndiameter = \"900 mm\"\n"
    )
}

#[test]
fn the_footing_of_an_oven_may_touch_what_is_beside_it_and_no_more() {
    let trench = "[water.trench]\nwidth = \"600 mm\"\ndepth = \"800 mm\"\nrun = \"east\"\nalong = \"2 m\"\n";
    let thing = |kind: &str, size: &str| {
        format!("[built-in.other]\nkind = \"{kind}\"\nside = \"inside\"\nrun = \"west\"\ndepth = \"400 mm\"\n{size}")
    };
    let bench = thing("bench", "from = \"1 m\"\nto = \"3 m\"\n");
    let buttress = thing("buttress", "along = \"2 m\"\nlength = \"600 mm\"\ntop = \"1 m\"\n");
    for (what, beside, x) in [
        ("the stem wall", "", 1.05),
        ("the trench", trench, 1.15),
        ("the bench `other`", &bench, 1.45),
        ("the buttress `other`", &buttress, 1.45),
        ("the oven `other` and its footing", &oven("other", 1.1), 2.8),
    ] {
        taken(&format!("{beside}{}", oven("own", x)));
        let said = format!("from its middle to {what}; move it");
        refused(&format!("{beside}{}", oven("own", x - 0.001)), &said);
        if !what.contains("oven") {
            refused(&format!("{}{beside}", oven("own", x - 0.001)), &said);
        }
    }
}

#[test]
fn an_oven_without_insulation_needs_no_recipe_for_it() {
    let earth = "[earth]\nbucket = { fill = \"struck\", brim = \"15 L\" }\n\
                 [earth.ingredients.soil]\nkind = \"soil\"\ndensity = \"1200 kg/m3\"\n\
                 [earth.recipes.cob]\nbuckets = { soil = 8 }\nwater = \"20 %\"\n";
    let oven = oven("own", 2.5);
    let bare = taken(&format!("{earth}{oven}insulation = \"0 mm\"\n"));
    assert_eq!(value(&bare, "built-in.own.insulation-volume"), 0.0);
    refused(&format!("{earth}{oven}insulation = \"1 mm\"\n"), "nothing says of what the 1 mm of insulation");
    refused(&format!("{earth}{oven}"), "nothing says of what the 150 mm of insulation");
    taken(&format!("{earth}{oven}insulation-of = \"cob\"\n"));
}

#[test]
fn a_door_is_stepped_down_to_by_200_mm_at_most() {
    let door = |threshold: &str| {
        let size = "run = \"south\"\nalong = \"2.5 m\"\nwidth = \"900 mm\"\nheight = \"2 m\"\n";
        let levels = "[ground]\noutside = \"-500 mm\"\nfloor = \"-100 mm\"\n";
        let answers = taken(&format!("{levels}[openings.door]\nkind = \"door\"\n{size}threshold = \"{threshold}\"\n"));
        state(&answers, "step-down-to-a-threshold", "set-out.thresholds.door.inside").unwrap()
    };
    // A rule of common practice holds on trust at best.
    assert_eq!(door("-300 mm"), State::OnTrust);
    assert_eq!(door("-301 mm"), State::Fails);
    assert_eq!(door("-450 mm"), State::Fails);
}

#[test]
fn a_power_line_beside_a_house_without_poles_is_not_known_and_a_telephone_line_is_not_asked() {
    let line = |name: &str, kind: &str, x: f64| {
        format!(
            "[site.lines.{name}]\nkind = \"{kind}\"\nfrom = [\"{x} m\", \"-9 m\"]\nto = [\"{x} m\", \"9 m\"]\nheight = \"6 m\"\n"
        )
    };
    let answers = taken(&format!("{}{}", line("grid", "power", 14.0), line("talk", "telephone", 16.0)));
    let of = |path: &str| state(&answers, "pole-near-power-line", path);
    assert_eq!(of("site.lines.grid.clear"), Some(State::NotKnown));
    assert_eq!(of("site.lines.talk.clear"), None);
    let check = answers.checks.iter().find(|check| check.rule.id == "pole-near-power-line").unwrap();
    assert_eq!(check.subject, "from grid to the tip of a pole raised at the wall");
    for (rule, path) in
        [("outlet-from-footing", "site.outlet.from-footing"), ("people-for-each-toilet", "site.toilets.persons-each")]
    {
        assert_eq!(state(&answers, rule, path), Some(State::NotKnown), "{rule}");
    }
}

#[test]
fn the_play_of_a_sleeve_can_be_written_where_it_is_told() {
    let water = |more: &str| {
        let size = "run = \"south\"\nalong = \"1 m\"\nlevel = \"-300 mm\"\ndiameter = \"32 mm\"\n";
        format!("[services.water]\nkind = \"water\"\n{size}{more}")
    };
    let is_wide =
        |more: &str, metres: f64| (value(&taken(&water(more)), "services.water.sleeve") - metres).abs() < 1e-12;
    assert!(is_wide("", 0.032 + value(&taken(&water("")), "services.water.play")));
    assert!(is_wide("play = \"0 mm\"\n", 0.032));
    assert!(is_wide("play = \"40 mm\"\n", 0.072));
    refused(&water("play = \"200 mm\"\n"), "services.water.play: 200 mm");
    refused(&water("sleeve = \"50 mm\"\nplay = \"10 mm\"\n"), "the sleeve says already how wide it is");
}

#[test]
fn a_threshold_stands_out_by_one_drip_and_a_head_without_a_lintel_is_no_lintels() {
    let door =
        "[openings.door]\nkind = \"door\"\nrun = \"south\"\nalong = \"2.5 m\"\nwidth = \"900 mm\"\nheight = \"2 m\"\n";
    let answers = taken(&format!("{door}drip = \"70 mm\"\n"));
    let depth = value(&answers, "wall.stem.width") + 0.07;
    assert!((value(&answers, "set-out.thresholds.door.depth") - depth).abs() < 1e-12);
    refused(&format!("{door}[site.set-out]\ndrip = \"30 mm\"\n"), "site.set-out.drip: `drip` is not known here");
    let head = |answers: &Answers| {
        let mark = answers.story_pole.iter().find(|mark| mark.key == "door-head").unwrap();
        mark.name.clone()
    };
    assert_eq!(head(&answers), "door, head");
    let under = taken(&format!("{door}lintel = {{ height = \"100 mm\" }}\n"));
    assert_eq!(head(&under), "door, underside of the lintel");
}
