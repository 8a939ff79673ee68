//! Secondary rafters of a house: what they count, what moves them, what they do to the poles.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

#[path = "laws/behind.rs"]
mod behind;
#[path = "laws/edit.rs"]
#[allow(dead_code, reason = "the laws take more of it")]
mod edit;

use behind::{Reach, Ways};
use edit::{BUILDS, answered, rewritten, spelled};
use engine::answers::Answers;
use engine::house::DeckTables;
use engine::known::Origin;
use engine::units::Quantity;

const KEYS: &str =
    "\n[roof.secondary]\ncount = 2\nat = \"60 %\"\ndiameter = \"150 mm\"\ntrimmer = \"140 mm\"\nof = \"larch-pole\"\n";

const RING: &str = "\n[roof.secondary]\nkind = \"ring\"\nat = \"60 %\"\nacross = \"50 %\"\ndiameter = \"130 mm\"\n\
                    notch = \"30 mm\"\nhousing = \"20 mm\"\nbolt = \"12 mm\"\nof = \"larch-pole\"\n";

fn tansy_bank() -> &'static str {
    BUILDS.iter().find(|(name, _)| *name == "tansy-bank").unwrap().1
}

fn with_them() -> String {
    format!("{}{KEYS}", tansy_bank())
}

fn with_a_second_ring() -> String {
    format!("{}{RING}", tansy_bank())
}

fn si(answers: &Answers, path: &str) -> f64 {
    answers.rows.find(path).unwrap_or_else(|| panic!("there is no {path}")).quantity.si().unwrap()
}

fn is_of_them(path: &str) -> bool {
    ["roof.secondary.", "roof.members.secondary.", "roof.members.trimmer.", "roof.crossings.second"]
        .iter()
        .any(|stem| path.starts_with(stem))
}

#[test]
fn what_is_counted_is_what_the_rows_say_by_hand() {
    let answers = answered(&with_them());
    let row = |noun: &str| si(&answers, &format!("roof.secondary.{noun}"));
    assert_eq!([row("total"), row("pieces")], [18.0, 27.0]);
    assert!((row("cut-length") - row("tail") - row("span")).abs() < 1e-12);
    assert!(row("rafters-length") <= 18.0 * row("cut-length") && row("rafters-length") > 14.0 * row("cut-length"));
    let wood = std::f64::consts::FRAC_PI_4 * 0.150 * 0.150 * row("rafters-length");
    assert!((row("rafters-wood") - wood).abs() < 1e-12);
    assert!((row("rafters-mass") - 650.0 * wood).abs() < 1e-9);
    let order = answers.rows.find("order.larch-pole.needed").unwrap().quantity.si().unwrap();
    assert!((order - 36.0).abs() < 1e-12, "nine poles and 27 pieces: {order}");
}

#[test]
fn the_trimmer_is_bent_as_a_beam_by_what_two_rafters_press_on_it() {
    let answers = answered(&with_them());
    let press = si(&answers, "roof.secondary.on-trimmer");
    let length = si(&answers, "roof.secondary.trimmer-length");
    let moment = si(&answers, "roof.members.trimmer.moment");
    // Two at its thirds, and at most its own weight with a factor of 1.5 besides.
    let own = 1.5 * 650.0 * 9.806_65 * std::f64::consts::FRAC_PI_4 * 0.14 * 0.14 * length * length / 8.0;
    let pressed = press * length / 3.0;
    assert!(moment >= pressed * 0.999 && moment <= pressed + own, "{moment} for {pressed} and {own}");
}

#[test]
fn poles_are_bent_more_between_their_ends_and_press_on_each_other_hardly_more() {
    let [without, with] = [tansy_bank().to_owned(), with_them()].map(|text| answered(&text));
    for place in 1..=9 {
        let push = format!("roof.crossings.{place}.push");
        let more = si(&with, &push) / si(&without, &push);
        assert!((1.02..1.06).contains(&more), "{push}: {more}");
        let moment = format!("roof.members.{place}.moment");
        let more = si(&with, &moment) / si(&without, &moment);
        assert!((1.02..1.06).contains(&more), "{moment}: {more}");
    }
}

#[test]
fn a_second_ring_lays_on_the_next_pole_what_its_rafters_take() {
    let [without, with] = [tansy_bank().to_owned(), with_a_second_ring()].map(|text| answered(&text));
    let row = |noun: &str| si(&with, &format!("roof.secondary.{noun}"));
    assert_eq!(row("total"), 9.0);
    assert!((row("cut-length") - row("tail") - row("span") - 0.130).abs() < 1e-12);
    let cuts: f64 = (1..=9).map(|bay| row(&format!("{bay}.cut"))).sum();
    assert!((row("rafters-length") - cuts).abs() < 1e-12);
    for bay in 1..=9 {
        let above = row(&format!("{bay}.above"));
        assert!((0.08..0.13).contains(&above), "as high as it is thick, less what is cut, and a little: {above}");
    }
    for place in 1..=9 {
        let push = format!("roof.crossings.{place}.push");
        let more = si(&with, &push) / si(&without, &push);
        // Its weight and notches; what each push is, a script of its own finds for such a ring in `bench`.
        assert!((1.03..1.09).contains(&more), "{push}: {more}");
    }
    for bay in 1..=9 {
        let head = |noun: &str| si(&with, &format!("roof.crossings.second-{bay}.{noun}"));
        let lean = row(&format!("{bay}.lean"));
        assert!((head("push") - head("press") * lean.cos()).abs() < 1e-9 * head("push"));
        // Its rafter carries as wide a strip all along as the widest bay has at the eave, when it is looked at by itself.
        assert!(head("press") > 0.0 && head("press") < row("on-pole"), "{bay}");
        assert!(head("bearing") > 0.0 && head("bolt") > 0.0);
    }
    for bay in 1..=9 {
        let head = |noun: &str| si(&with, &format!("roof.crossings.second-{bay}.{noun}"));
        assert!(head("notch") > 0.0 && head("notch") < 1.0 && head("split") > 0.0);
        // 84 mm of 130, and 48 of 65: EN 1995-1-1, table 8.4, from memory.
        assert!((head("bolt-end") - 84.0 / 130.0).abs() < 1e-9 && (head("bolt-side") - 48.0 / 65.0).abs() < 1e-9);
    }
    // Nine of them and nine poles.
    assert!((si(&with, "order.larch-pole.needed") - 18.0).abs() < 1e-12);
}

/// What is said of what could not be measured there.
fn unknown(answers: &Answers, path: &str) -> Option<String> {
    answers.rows.unknown(path).next().map(|(_, title)| title.to_owned())
}

#[test]
fn a_head_that_no_bolt_holds_is_held_by_friction_unless_wind_lifts_it_off() {
    let bare = RING.replace("bolt = \"12 mm\"\n", "");
    for wind in ["5 m/s", "23 m/s", "40 m/s"] {
        let blown = tansy_bank().replace("wind = \"23 m/s\"", &format!("wind = \"{wind}\""));
        let answers = answered(&format!("{blown}{bare}"));
        assert!(unknown(&answers, "roof.crossings.second.bolt").is_some());
        for bay in 1..=9 {
            let path = |noun: &str| format!("roof.crossings.second-{bay}.{noun}");
            let lean = si(&answers, &format!("roof.secondary.{bay}.lean"));
            if answers.rows.find(&path("lift")).is_none() {
                assert!((si(&answers, &path("friction")) - lean.tan()).abs() < 1e-9, "{wind}, {bay}");
                assert_ne!(wind, "40 m/s");
                continue;
            }
            let [lifts, press] = ["lift", "lift-press"].map(|noun| si(&answers, &path(noun)));
            assert!(lifts > 0.0 && (lifts + press * lean.cos()).abs() < 1e-6 * lifts);
            assert!(answers.rows.find(&path("friction")).is_none());
            assert!(unknown(&answers, &path("friction")).unwrap().contains("lifted off"));
        }
    }
}

#[test]
fn by_allowable_stresses_what_the_bolts_of_heads_hold_is_told_and_whether_they_do_is_not_known() {
    let american = with_a_second_ring()
        .replace("eurocode-timber", "asd-timber")
        .replace("class = \"C24\"", "class = \"DF-L No.2\"")
        .replace("terrain = \"2\"", "exposure = \"c\"");
    let answers = answered(&american);
    for bay in 1..=9 {
        let path = |noun: &str| format!("roof.crossings.second-{bay}.{noun}");
        let row = |noun: &str| si(&answers, &path(noun));
        let lean = si(&answers, &format!("roof.secondary.{bay}.lean"));
        assert!((row("across") - row("bolt-press").abs() * lean.sin()).abs() < 1e-9 * row("across"));
        assert!(row("asd-notch") > 0.0 && row("asd-bearing") > 0.0 && row("asd-bolt-end") > 0.0);
        assert!(answers.checks.iter().any(|check| check.path.as_deref() == Some(&path("asd-bolt"))), "{bay}");
    }
}

#[test]
fn a_second_ring_lifts_boards_off_the_poles_and_neither_shims_nor_boards_are_told() {
    let answers = answered(&with_a_second_ring());
    assert!(answers.rows.find("roof.deck.shim-count").is_none() && answers.rows.find("roof.places.1.shim").is_none());
    assert!(unknown(&answers, "roof.deck.shim-count").unwrap().contains("second ring"));
    for noun in ["boards", "bought-length", "pull"] {
        let path = format!("roof.deck.{noun}");
        assert!(answers.rows.find(&path).is_none(), "{path}");
        assert!(unknown(&answers, &path).unwrap().contains("second ring lifts the boards off"), "{path}");
    }
    assert_eq!(answers.rows.matching("roof.deck.buy.*").count(), 0);
    let [plain, raised] = [answered(tansy_bank()), answered(&with_a_second_ring())].map(|told| told.deck.unwrap());
    let listed = |deck: &DeckTables| {
        let drawn = deck.plan.bays.iter().any(|bay| bay.boards > 0 || !bay.courses.is_empty());
        let stations = deck.plan.stations.iter().any(|of_pole| !of_pole.is_empty());
        [!deck.shims.is_empty(), !deck.boards.is_empty(), !deck.sticks.is_empty(), drawn, stations]
    };
    assert_eq!([listed(&plain), listed(&raised)], [[true; 5], [false; 5]]);
    assert_eq!((raised.cuts.len(), raised.plan.tops.len(), raised.plan.stations.len()), (9, 9, 9));
    // They are ordered by what they cover.
    let [covered, needed] = ["roof.layers.boards.area", "order.boards.needed"].map(|path| si(&answers, path));
    assert!((needed - covered).abs() < 1e-9, "{needed} for {covered}");
}

#[test]
fn boards_under_a_second_ring_are_sold_by_volume_too_and_their_order_says_that_offcuts_are_not_in_it() {
    let loss = "sold-by = \"m2\"\nprice = \"19.80 EUR\"\nloss = \"0 %\"";
    let sold = |by: &str, loss_is: &str| {
        let text = with_a_second_ring();
        assert!(text.contains(loss));
        answered(&text.replace(loss, &loss.replace("\"m2\"", by).replace("0 %", loss_is)))
    };
    let open = |answers: &Answers| {
        let order = answers.orders.iter().find(|order| order.name == "boards").unwrap();
        order.open.join("; ")
    };
    let by_volume = sold("\"m3\"", "0 %");
    let [net, needed] = ["roof.layers.boards.volume", "order.boards.needed"].map(|path| si(&by_volume, path));
    assert!((needed - net).abs() < 1e-12, "{needed} for {net}");
    assert_eq!(open(&by_volume), "offcuts not counted, cuts not known");
    assert_eq!(open(&sold("\"m2\"", "0 %")), "offcuts not counted, cuts not known");
    assert_eq!(open(&sold("\"m2\"", "10 %")), "");
    assert_eq!(open(&sold("\"m\"", "0 %")), "it is needed as a volume: sell it by another unit");
    assert!(!open(&answered(tansy_bank())).contains("offcuts"));
}

#[test]
fn butts_nearer_to_one_pole_lie_there_and_their_heads_still_carry() {
    let at = |across: &str| {
        let text = with_a_second_ring().replace("across = \"50 %\"", &format!("across = \"{across}\""));
        let answers = answered(&text);
        (si(&answers, "roof.secondary.1.angle"), si(&answers, "roof.crossings.second-1.press"))
    };
    let [near, half, far] = ["35 %", "50 %", "65 %"].map(at);
    assert!(
        near.0 > half.0 && half.0 > far.0,
        "the nearer to the pole that carries it, the more it runs along that: {near:?} {far:?}"
    );
    assert!([near, half, far].iter().all(|(_, press)| *press > 0.5 * half.1 && *press < 2.0 * half.1));
}

#[test]
fn every_one_of_their_keys_moves_what_it_reaches_and_no_other_row() {
    let trimmed = [("at", "61 %"), ("diameter", "152 mm"), ("trimmer", "142 mm")];
    moves_what_it_reaches(&with_them(), &trimmed);
    let ring = [
        ("at", "61 %"),
        ("across", "51 %"),
        ("diameter", "132 mm"),
        ("notch", "31 mm"),
        ("housing", "21 mm"),
        ("bolt", "14 mm"),
    ];
    moves_what_it_reaches(&with_a_second_ring(), &ring);
}

fn moves_what_it_reaches(text: &str, changes: &[(&str, &str)]) {
    let before = answered(text);
    let ways = Ways::of(&before.rows);
    for (key, change) in changes {
        let path = format!("roof.secondary.{key}");
        let after = answered(&rewritten(text, &path, &format!("\"{change}\"")));
        let reach = ways.to(&path);
        let mut count = 0;
        // What would do for a ring that fails is found by steps.
        for row in before.rows.iter().filter(|row| !row.path.starts_with("roof.advice.")) {
            let Some(now) = after.rows.find(&row.path) else {
                assert!(!is_of_them(&row.path), "{path} takes {} away", row.path);
                continue;
            };
            let has_moved = moved(row.quantity, now.quantity);
            let reached = reach.how(&row.path);
            assert!(!has_moved || reached != Reach::None, "{path} moves {} and is not among its reasons", row.path);
            if reached == Reach::Smooth && is_of_them(&row.path) {
                count += 1;
                assert!(has_moved, "{path} does not move {}", row.path);
            }
        }
        assert!(count > 2, "{path} reaches {count} of their rows");
    }
}

#[test]
fn nothing_else_that_is_written_moves_their_rows_unless_it_is_among_their_reasons() {
    moves_nothing_else(&with_them());
    moves_nothing_else(&with_a_second_ring());
}

fn moves_nothing_else(text: &str) {
    let before = answered(text);
    let given = before.rows.iter().filter(|row| row.own == Some(Origin::Given) && row.reason.inputs.is_empty());
    let may =
        ["roof.", "poles.count", "poles.density", "poles.strength.", "poles.pile.jay.", "site.", "wall.bond-beam."];
    let ways = Ways::of(&before.rows);
    let mut tried = 0;
    for written in given.filter(|row| may.iter().any(|stem| row.path.starts_with(stem))) {
        let changed = match written.quantity {
            Quantity::Count(_) | Quantity::Date(_) | Quantity::Money(_) => continue,
            Quantity::Number(number) => Quantity::Number(number * 1.001),
            other => {
                let si = other.si().unwrap();
                other.kind().of_si(if si == 0.0 { 1e-4 } else { si * 1.001 }).unwrap()
            }
        };
        let Some(after) = edit::try_answered(&rewritten(text, &written.path, &spelled(changed))) else { continue };
        tried += 1;
        let reach = ways.to(&written.path);
        for row in before.rows.iter().filter(|row| is_of_them(&row.path)) {
            let Some(now) = after.rows.find(&row.path) else { panic!("{} is gone", row.path) };
            if moved(row.quantity, now.quantity) {
                let is_known = reach.how(&row.path) != Reach::None;
                assert!(is_known, "{} moves {} and is not among its reasons", written.path, row.path);
            }
        }
    }
    assert!(tried > 40, "{tried} values were tried");
}

/// By more than solving rounds away.
fn moved(was: Quantity, is: Quantity) -> bool {
    match (was.si(), is.si()) {
        (Some(was), Some(is)) => (was - is).abs() > 1e-9 * was.abs().max(is.abs()).max(1e-3),
        _ => was != is,
    }
}
