//! What is dragged: the text after it reads or is refused in one sentence, and the handle lies where it was dropped.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

#[path = "laws/builds.rs"]
#[allow(dead_code, reason = "some tests take single builds, others all")]
mod builds;
#[path = "handles/line.rs"]
mod line;

use builds::{BUILDS, BURDOCK_RISE, PLAIN_RING, SPIRAL_WALL, TANSY_BANK};
use engine::answers::{Answers, Computed, Inputs, answers, compute};
use engine::curve::PlanLine;
use engine::edit::{Edit, edit};
use engine::house::handles::{Handle, On, Way};
use kurbo::{Point, Vec2};
use line::line;

/// In metres, what is rounded to: half a step of a width and half of half a step of its middle, in inches.
const STEP: f64 = 0.0095;

fn inputs(text: &str) -> Inputs<'_> {
    Inputs { build: text.as_bytes(), system: None }
}

fn computed(text: &str) -> Computed {
    compute(&inputs(text)).unwrap_or_else(|problems| panic!("{}", problems.all()[0]))
}

fn answered(text: &str) -> Answers {
    answers(&inputs(text)).unwrap_or_else(|problems| panic!("{}", problems.all()[0]))
}

fn edited(text: &str, edits: &[Edit]) -> String {
    edits.iter().fold(text.to_owned(), |text, one| edit(&text, one).unwrap_or_else(|problem| panic!("{problem}")))
}

fn dragged(text: &str, id: &str, on: On, to: Point) -> String {
    edited(text, &computed(text).dragged(text, id, on, to).unwrap_or_else(|problem| panic!("{problem}")))
}

fn found<'a>(answers: &'a Answers, id: &str, on: On) -> &'a Handle {
    answers.handles.iter().find(|handle| handle.id == id && handle.on == on).unwrap_or_else(|| panic!("no handle {id}"))
}

/// The lines in which two texts differ, as the second has them.
fn lines_of(before: &str, after: &str) -> Vec<String> {
    assert_eq!(before.lines().count(), after.lines().count());
    let pairs = before.lines().zip(after.lines()).filter(|(before, after)| before != after);
    pairs.map(|(_, after)| after.split('#').next().unwrap().trim().to_owned()).collect()
}

/// Numbers between 0 and 1 that are the same at every run.
fn shares(seed: u64) -> impl Iterator<Item = f64> {
    let mut state = seed;
    std::iter::repeat_with(move || {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 11) as f64 / (1_u64 << 53) as f64
    })
}

#[test]
fn every_handle_has_a_name_a_row_and_a_thing_that_it_takes_out() {
    for (_, text) in BUILDS {
        let answers = answered(text);
        let house = computed(text);
        assert!(answers.handles.len() > 15);
        for handle in &answers.handles {
            let twins = answers.handles.iter().filter(|other| other.id == handle.id && other.on == handle.on).count();
            assert_eq!(twins, 1, "{} stands {twins} times", handle.id);
            assert!(handle.at.is_finite() && !handle.title.is_empty(), "{}", handle.id);
            assert!(answers.rows.find(&handle.row).is_some(), "{} shows no row: {}", handle.id, handle.row);
            if !handle.removes.is_empty() {
                let gone = edit(text, &Edit::Remove { path: handle.removes.clone() });
                assert!(gone.is_ok_and(|gone| gone.len() < text.len()), "{}", handle.removes);
            }
            // Where it stands it writes at most what was finer than a step.
            let edits = house.dragged(text, &handle.id, handle.on, handle.at).unwrap();
            let still = edited(text, &edits);
            let after = answers_or_none(&still);
            assert!(after.is_some(), "{} cannot stand where it stands", handle.id);
        }
    }
}

fn answers_or_none(text: &str) -> Option<Answers> {
    answers(&inputs(text)).ok()
}

#[test]
fn two_hundred_drags_on_each_build_leave_a_house_or_one_sentence_and_the_handle_where_it_was_dropped() {
    let (mut stood, mut refused) = (0, 0);
    for (seed, (_, text)) in BUILDS.into_iter().enumerate() {
        let house = computed(text);
        let before = answered(text);
        let mut share = shares(seed as u64 + 1);
        for _ in 0..200 {
            let mut next = || share.next().unwrap();
            let handle = &before.handles[(next() * before.handles.len() as f64) as usize];
            let reach = if next() < 0.7 { 0.3 } else { 6.0 };
            let to = handle.at + Vec2::new(next() - 0.5, next() - 0.5) * reach;
            let edits = house.dragged(text, &handle.id, handle.on, to).unwrap();
            let new = edited(text, &edits);
            match answers(&inputs(&new)) {
                Ok(after) => {
                    stood += 1;
                    let lies = found(&after, &handle.id, handle.on).at;
                    let lines = [line(text, &before), line(&new, &after)];
                    let away = miss(&before, lines, handle, lies, to);
                    assert!(away < STEP, "{} dropped at {to:?} lies at {lies:?}, {away} away\n{edits:?}", handle.id);
                }
                Err(problems) => {
                    refused += 1;
                    let said = problems.all()[0].to_string();
                    assert!(said.contains("; ") && !said.contains('\n'), "{said}");
                }
            }
        }
    }
    assert!(stood > 500 && refused > 50, "{stood} stood, {refused} were refused");
}

/// How far a handle lies from where it was dropped, in the way that it can go.
fn miss(before: &Answers, [line_before, line]: [PlanLine; 2], handle: &Handle, lies: Point, to: Point) -> f64 {
    let round = |away: f64| {
        let whole = line.length();
        if line.is_closed() { ((away + 0.5 * whole).rem_euclid(whole) - 0.5 * whole).abs() } else { away.abs() }
    };
    match (handle.on, handle.way) {
        (_, Way::Point | Way::Curve) => lies.distance(to),
        (_, Way::Up) => (lies.y - to.y).abs(),
        // A width is at least one step, and no jamb lies past a sharp corner; a wall that ends is no longer than it is.
        (On::Unrolled, Way::Along)
            if handle.row.ends_with(".width") && has_no_jamb(before, &line_before, handle, to) =>
        {
            0.0
        }
        (On::Unrolled, _) => {
            let to = if line.is_closed() { to.x } else { to.x.clamp(0.0, line.length()) };
            round(lies.x - to)
        }
        (On::Section, _) => (lies.x - to.x).abs(),
        (On::Plan, _) if handle.id == "wall.thickness" => {
            let across = -line.nearest(handle.at).axis.turn_90();
            (lies - to).dot(across).abs()
        }
        (On::Plan, _) => round(line.along_line(line.nearest(lies)) - line.along_line(line.nearest(to))),
    }
}

/// Whether a jamb is dropped nearer than a step to the other jamb or past it, or where the wall has turned from that one by
/// more than 60 degrees.
fn has_no_jamb(before: &Answers, line: &PlanLine, jamb: &Handle, to: Point) -> bool {
    let (stem, side) = jamb.id.rsplit_once('.').unwrap();
    let (other, outwards) = if side == "right" { ("left", 1.0) } else { ("right", -1.0) };
    let whole = line.length();
    let round = |way: f64, from: f64| if line.is_closed() { (way - from).rem_euclid(whole) + from } else { way };
    let other = found(before, &format!("{stem}.{other}"), On::Unrolled).at.x;
    // A drag is shorter than half the way round.
    let moved = outwards * round(to.x - jamb.at.x, -0.5 * whole);
    let way = |x: f64| line.at(line.along_line(line.named_point(0)) + x).axis;
    round(outwards * (jamb.at.x - other), 0.0) + moved < STEP || way(other).dot(way(to.x)) < 0.5
}

#[test]
fn a_point_is_written_in_its_own_units_and_nothing_else_changes() {
    let to = |text: &str, id: &str, on: On, x: f64, y: f64| lines_of(text, &dragged(text, id, on, Point::new(x, y)));
    assert_eq!(to(TANSY_BANK, "wall.line.back.at", On::Plan, -2.4039, -1.2), ["at = [\"-2.40 m\", \"-1.20 m\"]"]);
    let through = to(TANSY_BANK, "wall.line.back.arc.through", On::Plan, 0.1, -2.206);
    assert_eq!(through, ["arc = { through = [\"0.10 m\", \"-2.21 m\"] }"]);
    assert_eq!(to(BURDOCK_RISE, "wall.line.east.at", On::Plan, 4.8, 0.1), ["at = [\"15 ft 9 in\", \"4 in\"]"]);
    let leave = to(SPIRAL_WALL, "wall.line.south.curve.leave", On::Plan, 3.7, 0.1);
    assert_eq!(leave, ["curve = { leave = [\"1.3 m\", \"0.1 m\"], arrive = [\"0 m\", \"1.1 m\"] }"]);
    let arrive = to(SPIRAL_WALL, "wall.line.south.curve.arrive", On::Plan, 4.4, 0.9);
    assert_eq!(arrive, ["curve = { leave = [\"1.2 m\", \"0 m\"], arrive = [\"0 m\", \"1.2 m\"] }"]);
}

#[test]
fn sill_head_and_jambs_move_their_own_side_alone() {
    let before = answered(TANSY_BANK);
    let to = |id: &str, dx: f64, dy: f64| {
        let at = found(&before, id, On::Unrolled).at;
        dragged(TANSY_BANK, id, On::Unrolled, at + Vec2::new(dx, dy))
    };
    let sill = to("openings.reading-window.sill", 0.0, 0.1);
    assert_eq!(lines_of(TANSY_BANK, &sill), ["height = \"700 mm\"", "sill = \"800 mm\""]);
    let head = to("openings.reading-window.height", 0.5, 0.1);
    assert_eq!(lines_of(TANSY_BANK, &head), ["height = \"900 mm\""]);
    let jamb = to("openings.reading-window.right", 0.1, 0.0);
    let after = answered(&jamb);
    let at =
        |answers: &Answers, side: &str| found(answers, &format!("openings.reading-window.{side}"), On::Unrolled).at.x;
    assert!((at(&after, "right") - at(&before, "right") - 0.1).abs() < 0.008);
    assert!((at(&after, "left") - at(&before, "left")).abs() < 0.003);
    assert_eq!(lines_of(TANSY_BANK, &jamb).len(), 2);
    let whole = to("openings.reading-window.along", 0.2, -0.05);
    assert!(lines_of(TANSY_BANK, &whole).contains(&"sill = \"650 mm\"".to_owned()));
    let lift = to("wall.lifts.sills.top", 0.0, 0.052);
    assert_eq!(lines_of(TANSY_BANK, &lift), ["top = \"730 mm\""]);
    let top = to("wall.height", 0.0, 0.1);
    assert_eq!(lines_of(TANSY_BANK, &top), ["height = \"2.25 m\""]);
}

#[test]
fn past_a_corner_an_opening_is_on_the_next_run() {
    let before = answered(BURDOCK_RISE);
    let window = found(&before, "openings.east-window.along", On::Plan).at;
    let text = dragged(BURDOCK_RISE, "openings.east-window.along", On::Plan, Point::new(4.4, -0.2));
    assert_eq!(lines_of(BURDOCK_RISE, &text), ["run = \"south\"", "along = \"14 ft 2 in\""]);
    assert!(window.x > 4.5);
    let unrolled = found(&before, "openings.east-window.along", On::Unrolled).at;
    let text =
        dragged(BURDOCK_RISE, "openings.east-window.along", On::Unrolled, Point::new(unrolled.x + 4.0, unrolled.y));
    assert!(lines_of(BURDOCK_RISE, &text).contains(&"run = \"north\"".to_owned()));
}

#[test]
fn levels_stem_and_thickness_are_taken_hold_of_in_the_section() {
    let before = answered(TANSY_BANK);
    let to = |id: &str, dx: f64, dy: f64| {
        let at = found(&before, id, On::Section).at;
        lines_of(TANSY_BANK, &dragged(TANSY_BANK, id, On::Section, at + Vec2::new(dx, dy)))
    };
    assert_eq!(to("ground.floor", 0.0, 0.02), ["floor = \"-100 mm\""]);
    assert_eq!(to("ground.outside", 0.0, -0.05), ["outside = \"-500 mm\""]);
    assert_eq!(to("wall.thickness", -0.025, 0.3), ["thickness = \"500 mm\""]);
    let stem = to("wall.stem.height", 0.0, 0.05);
    assert!(stem.len() == 1 && stem[0].starts_with("stem = { height = \"550 mm\", width"), "{stem:?}");
}

#[test]
fn arrow_keys_move_by_one_step_and_not_across_the_way() {
    let nudged = |text: &str, id: &str, on: On, steps: [i32; 2]| {
        lines_of(text, &edited(text, &computed(text).nudged(text, id, on, steps).unwrap()))
    };
    assert_eq!(nudged(TANSY_BANK, "wall.line.back.at", On::Plan, [1, 0]), ["at = [\"-2.44 m\", \"-1.15 m\"]"]);
    assert_eq!(nudged(BURDOCK_RISE, "openings.door.along", On::Plan, [1, 0]), ["along = \"7 ft 2 1/2 in\""]);
    assert!(nudged(BURDOCK_RISE, "openings.door.along", On::Plan, [0, 1]).is_empty());
    assert_eq!(nudged(TANSY_BANK, "ground.floor", On::Section, [0, -1]), ["floor = \"-130 mm\""]);
    assert!(nudged(TANSY_BANK, "ground.floor", On::Section, [5, 0]).is_empty());
    assert_eq!(nudged(TANSY_BANK, "wall.thickness", On::Section, [-1, 0]), ["thickness = \"460 mm\""]);
    assert_eq!(nudged(TANSY_BANK, "openings.door.height", On::Unrolled, [0, 2]), ["height = \"2.02 m\""]);
    let free = nudged(TANSY_BANK, "built-in.lamp-niche.along", On::Unrolled, [1, -1]);
    assert_eq!(free, ["along = \"1.41 m\"", "sill = \"1.19 m\""]);
}

#[test]
fn what_is_no_handle_and_what_is_no_place_are_refused() {
    let house = computed(PLAIN_RING);
    let said = house.dragged(PLAIN_RING, "openings.hatch.along", On::Plan, Point::ORIGIN).unwrap_err().to_string();
    assert!(said.contains("nothing of this name"), "{said}");
    let said = house.dragged(PLAIN_RING, "wall.height", On::Unrolled, Point::new(0.0, f64::NAN)).unwrap_err();
    assert!(said.to_string().contains("no place"), "{said}");
    assert!(house.dragged("a = [", "wall.height", On::Unrolled, Point::ORIGIN).is_err());
}
