//! Straight rafters where they lie: by hand on a rectangle, their poles against every exchange, and round a flue.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

#[path = "laws/builds.rs"]
#[allow(dead_code, reason = "some tests take single builds, others all")]
mod builds;

use builds::BURDOCK_RISE;
use engine::answers::{Answers, Inputs, answers};
use engine::check::State;

fn answered(text: &str) -> Answers {
    let inputs = Inputs { build: text.as_bytes(), system: None };
    answers(&inputs).unwrap_or_else(|problems| panic!("{}", problems.all()[0]))
}

fn si(answers: &Answers, path: &str) -> f64 {
    answers.rows.find(path).unwrap_or_else(|| panic!("{path}")).quantity.si().unwrap()
}

fn of(answers: &Answers, place: usize, noun: &str) -> f64 {
    si(answers, &format!("roof.rafters.{place}.{noun}"))
}

fn near(one: f64, other: f64) {
    assert!((one - other).abs() < 1e-9 * other.abs().max(1.0), "{one} and {other}");
}

#[test]
fn a_rafter_over_straight_walls_is_as_long_as_its_plan_over_the_cosine_of_its_pitch() {
    let level = BURDOCK_RISE.replace("top = { slope = \"2 in 12\", rises = \"90 deg\", from = \"south\" }", "");
    let level = level.replace("[[wall.lifts]]\nname = \"lift-5\"\ntop = \"8 ft\"\n\n", "");
    let found = answered(&level);
    let cos = si(&found, "roof.angle").cos();
    for place in 3..=7 {
        near(of(&found, place, "span"), si(&found, "roof.plate-along") / cos);
        near(of(&found, place, "cut-length"), si(&found, "roof.eave-along") / cos);
        let parts = of(&found, place, "low-tail") + of(&found, place, "span") + of(&found, place, "high-tail");
        near(parts, of(&found, place, "cut-length"));
        near(of(&found, place, "low-packing"), 0.0);
        near(of(&found, place, "high-packing"), si(&found, "roof.rise"));
        near(of(&found, place, "across"), si(&found, "roof.plate-across") * (place - 1) as f64 / 8.0);
    }
    // Rounded corners: the outermost two are shorter, and are packed up at their low ends too.
    assert!(of(&found, 1, "cut-length") < of(&found, 3, "cut-length") && of(&found, 1, "low-packing") > 0.01);
    // A top that rises with the rafters is packed up by what it rises more, on the line of the wall, than they do from plate to plate.
    let found = answered(BURDOCK_RISE);
    let depth = si(&found, "wall.line.north.y") - si(&found, "wall.line.east.y");
    for place in 4..=6 {
        near(of(&found, place, "low-packing"), depth / 6.0 - si(&found, "roof.rise"));
        near(of(&found, place, "high-packing"), 0.0);
    }
}

#[test]
fn no_exchange_of_two_poles_or_with_one_that_is_left_wastes_less() {
    let found = answered(BURDOCK_RISE);
    let names = [
        "ant-log",
        "barn-door",
        "creek-bend",
        "dry-fork",
        "elk-rub",
        "fence-end",
        "gate-side",
        "hollow-oak",
        "iron-tag",
        "jack-pine",
        "knot-ring",
    ];
    let [waste, bow] = ["waste", "bow"].map(|one| si(&found, &format!("poles.weights.{one}")));
    let cost = |place: usize, pole: usize| {
        let of_pole = |noun: &str| si(&found, &format!("poles.pile.{}.{noun}", names[pole]));
        let left = of_pole("length") - of(&found, place, "cut-length");
        if left < 0.0 { f64::INFINITY } else { 1000.0 * (waste * left + bow * of_pole("bow.2")) }
    };
    let laid: Vec<usize> = (1..=9).map(|place| of(&found, place, "pole") as usize - 1).collect();
    let all: f64 = laid.iter().enumerate().map(|(at, &pole)| cost(at + 1, pole)).sum();
    near(all, 1000.0 * si(&found, "poles.choice.cost"));
    for one in 0..9 {
        for other in 0..9 {
            let exchanged = cost(one + 1, laid[other]) + cost(other + 1, laid[one]);
            assert!(exchanged >= cost(one + 1, laid[one]) + cost(other + 1, laid[other]) - 1e-9, "{one} and {other}");
        }
        for spare in (0..names.len()).filter(|pole| !laid.contains(pole)) {
            assert!(cost(one + 1, spare) >= cost(one + 1, laid[one]) - 1e-9, "{one} and {spare}");
        }
    }
}

#[test]
fn tops_of_all_poles_lie_in_one_plane_whatever_their_thickness() {
    let found = answered(BURDOCK_RISE);
    for end in ["low", "high"] {
        let over = |place: usize| {
            let (low, high) = (of(&found, place, "low"), of(&found, place, "high"));
            let tail = of(&found, place, &format!("{end}-tail")) / of(&found, place, "cut-length");
            let along = if end == "low" { tail } else { 1.0 - tail };
            low + (high - low) * along - of(&found, place, &format!("{end}-seat"))
        };
        for place in 2..=9 {
            near(over(place), over(1));
        }
    }
}

/// The flue so that the opening cuts rafter 7.
fn under_a_rafter() -> String {
    BURDOCK_RISE.replace("at = [\"12 ft 8 in\", \"8 ft 6 in\"]", "at = [\"11 ft 9 in\", \"8 ft 6 in\"]")
}

#[test]
fn a_flue_between_two_rafters_cuts_none_and_one_under_a_rafter_makes_trimmers_that_its_neighbours_carry() {
    let (clear, found) = (answered(BURDOCK_RISE), answered(&under_a_rafter()));
    let flue = |answers: &Answers, noun: &str| si(answers, &format!("services.oven-flue.{noun}"));
    near(flue(&clear, "cuts"), 0.0);
    assert!(clear.rows.find("services.oven-flue.trimmer-span").is_none());
    near(flue(&found, "cuts"), 1.0);
    near(flue(&found, "opening"), 12.0 * 0.0254);
    near(flue(&found, "trimmer-span"), si(&found, "roof.plate-across") / 4.0);
    let apart = flue(&found, "above") - flue(&found, "below");
    near(apart, (flue(&found, "opening") + 7.0 * 0.0254) / si(&found, "roof.angle").cos());
    let bending = |stem: &str| si(&found, &format!("roof.members.{stem}.asd-bending"));
    assert!(bending("oven-flue-beside") > 1.3 * bending("rafter"), "{}", bending("oven-flue-beside"));
    assert!(found.rows.unknown("services.oven-flue.joint").next().is_some());
}

#[test]
fn what_trimmers_lay_on_the_rafter_beside_bends_it_more_by_a_beam_of_two_supports() {
    let found = answered(&under_a_rafter());
    let row = found.rows.find("roof.members.oven-flue-beside.moment").unwrap();
    assert!(row.title.contains("inside only"), "{}", row.title);
    let words = row.title.split(" m from its low end").next().unwrap();
    let at: f64 = words.rsplit(' ').next().unwrap().parse().unwrap();
    // The greatest force across a trimmer is what one of its ends lays on the rafter.
    let (low, span) = (of(&found, 6, "low-tail"), of(&found, 6, "span"));
    let bends = |word: &str| {
        let force = si(&found, &format!("roof.members.oven-flue-{word}.shear-force"));
        let along = si(&found, &format!("services.oven-flue.{word}")) - low;
        let x = at - low;
        force * if x < along { (span - along) * x } else { along * (span - x) } / span
    };
    let more = (bends("below") + bends("above")) * si(&found, "roof.angle").cos();
    // What lies evenly on it bends it as a parabola, the most in its middle.
    let off = ((at - low - 0.5 * span) / (0.5 * span)).powi(2);
    let hand = si(&found, "roof.members.rafter.moment") * (1.0 - off) + more;
    assert!((row.quantity.si().unwrap() / hand - 1.0).abs() < 0.01, "{:?}, by hand {hand}", row.quantity);
}

#[test]
fn poles_of_another_taper_never_use_less_than_the_thinnest_of_all_would() {
    let found = answered(BURDOCK_RISE);
    let thin = BURDOCK_RISE.replace("tip = [\"7 in\", \"6 7/8 in\"]", "tip = [\"6 1/4 in\", \"6 1/4 in\"]");
    let bending = |answers: &Answers| si(answers, "roof.members.rafter.asd-bending");
    assert!(bending(&answered(&thin)) > 1.05 * bending(&found));
}

#[test]
fn wind_lifts_the_ends_of_an_outermost_rafter_by_half_a_bay_and_the_eave_beside_it() {
    let found = answered(BURDOCK_RISE);
    let strip = si(&found, "roof.rafters.side-strip");
    let [plate, eave] = ["plate", "eave"].map(|of| si(&found, &format!("roof.{of}-across")));
    near(strip, plate / 16.0 + (eave - plate) / 2.0);
    let [low, high] = ["low", "high"].map(|end| si(&found, &format!("roof.crossings.side-{end}-seat.held-down")));
    // 0.6 D + 0.6 W on the whole of it, no soil: what both ends hold together is all that lifts less all that weighs.
    let of_place = |noun: &str| of(&found, 1, noun);
    let cos = si(&found, "roof.angle").cos();
    let [inside, eaves] = ["wind-up", "wind-up-eaves"].map(|noun| -si(&found, &format!("roof.loads.{noun}")));
    let on_eaves = of_place("low-tail") + of_place("high-tail");
    let wind = strip * cos * (of_place("span") * inside + on_eaves * eaves);
    let dead = strip * cos * of_place("cut-length") * si(&found, "roof.loads.fixed-least");
    // As thin as the thinnest at each end.
    let [thick, thin] = ["low", "high"].map(|end| si(&found, &format!("roof.rafters.{end}-thinnest")));
    let wood = std::f64::consts::PI / 12.0 * of_place("cut-length") * (thick * thick + thick * thin + thin * thin);
    let own = wood * si(&found, "poles.density") * 9.80665;
    let both = 0.6 * (wind - dead - own);
    assert!(((low + high) / both - 1.0).abs() < 1e-3, "{} at both ends, {both} by hand", low + high);
}

#[test]
fn a_flue_too_near_to_the_bond_beam_for_its_listing_fails() {
    let at = |y: &str| {
        let text = BURDOCK_RISE
            .replace("at = [\"12 ft 8 in\", \"8 ft 6 in\"]", &format!("at = [\"12 ft 8 in\", \"{y}\"]"))
            .replace("clearance = \"2 in\"", "clearance = \"6 in\"");
        let found = answered(&text);
        let path = "services.oven-flue.spare";
        let check = found.checks.iter().find(|check| check.path.as_deref() == Some(path)).unwrap();
        (si(&found, path), check.state)
    };
    let ((near_it, fails), (off_it, stands)) = (at("10 ft 6 in"), at("10 ft 2 in"));
    near(off_it - near_it, 4.0 * 0.0254);
    assert!(near_it < 0.0 && fails == State::Fails, "{near_it} {fails:?}");
    assert!(off_it > 0.0 && stands == State::OnTrust, "{off_it} {stands:?}");
}

#[test]
fn two_flues_that_share_a_rafter_have_trimmers_that_are_not_known() {
    let other = "[services.stove-flue]\nkind = \"flue\"\nthrough = \"roof\"\nat = [\"7 ft 10 in\", \"8 ft 6 in\"]\ndiameter = \"6 in\"\nclearance = \"2 in\"\n";
    let text = under_a_rafter().replace("# The earth. Moisture", &format!("{other}\n# The earth. Moisture"));
    let found = answered(&text);
    let cuts = |flue: &str| si(&found, &format!("services.{flue}.cuts"));
    assert_eq!((cuts("oven-flue"), cuts("stove-flue")), (1.0, 1.0));
    for flue in ["oven-flue", "stove-flue"] {
        assert!(found.rows.find(&format!("services.{flue}.trimmer-span")).is_none(), "{flue}");
        assert!(found.rows.unknown(&format!("services.{flue}.trimmer-span")).next().is_some(), "{flue}");
    }
}
