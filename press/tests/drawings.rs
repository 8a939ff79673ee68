//! The drawings of whole houses: every number on them is a row, nothing runs off the sheet, the same each time.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

use engine::answers::{Answers, Inputs, answers, compute};
use engine::pictures::Pictures;
use engine::units::{Fineness, Length, System};
use press::drawing::{
    all as drawings, detail, exploded, plan, pole_card, raising, raising_stages, roof_plan, trench_section, unrolled,
};
use press::paper::Paper;

const BUILDS: [(&str, &str); 4] = [
    ("tansy-bank", include_str!("../../builds/tansy-bank/tansy-bank.loam.toml")),
    ("burdock-rise", include_str!("../../builds/burdock-rise/burdock-rise.loam.toml")),
    ("plain-ring", include_str!("../../builds/plain-ring/plain-ring.loam.toml")),
    ("spiral-wall", include_str!("../../builds/spiral-wall/spiral-wall.loam.toml")),
];

fn answered(text: &str) -> Answers {
    answers(&Inputs { build: text.as_bytes(), system: None }).unwrap_or_else(|problems| panic!("{}", problems.all()[0]))
}

fn pictured(text: &str) -> Pictures {
    compute(&Inputs { build: text.as_bytes(), system: None })
        .unwrap_or_else(|problems| panic!("{}", problems.all()[0]))
        .pictures()
}

/// Every build in both unit systems, with its pictures.
fn all_pictured() -> impl Iterator<Item = (&'static str, Answers, Pictures)> {
    let pictures: Vec<Pictures> = BUILDS.iter().map(|(_, text)| pictured(text)).collect();
    let of =
        move |(place, (name, answers)): (usize, (&'static str, Answers))| (name, answers, pictures[place / 2].clone());
    all().enumerate().map(of)
}

/// Every build in both unit systems.
fn all() -> impl Iterator<Item = (&'static str, Answers)> {
    let both = |(name, text): (&'static str, &'static str)| {
        [System::Metric, System::Us].map(|system| {
            let answers = answers(&Inputs { build: text.as_bytes(), system: Some(system) });
            (name, answers.unwrap_or_else(|problems| panic!("{}", problems.all()[0])))
        })
    };
    BUILDS.into_iter().flat_map(both)
}

/// Everything of an SVG that says which row or part it shows.
fn paths(svg: &str) -> Vec<&str> {
    svg.split("data-path=\"").skip(1).filter_map(|rest| rest.split('"').next()).collect()
}

#[test]
fn every_number_on_a_drawing_is_a_row_or_names_a_part() {
    for (name, answers, pictures) in all_pictured() {
        for drawing in drawings(&answers, &pictures, Paper::of(answers.system)) {
            let svg = drawing.scaled.svg.to_string();
            // A window cut level in an open wall without plaster and joinery: no more than six things are there to be named.
            // A jar and a grading in the triangle of textures: sand, silt and clay of each, and what they are called.
            // Three panels that one judge scored: a mark of each.
            let least = match (name, drawing.name.as_str()) {
                ("burdock-rise", "panels-outside") => 2,
                ("spiral-wall", "window-plan-detail") => 5,
                (_, "texture") => 7,
                // A soil in the plasticity chart: where it lies and may lie, and what it is called.
                (_, "plasticity") => 3,
                _ => 8,
            };
            assert!(paths(&svg).len() > least, "{name}: too little is named on {}", drawing.name);
            for path in paths(&svg) {
                let inside = format!("{path}.");
                let known = answers.rows.iter().any(|row| row.path == path || row.path.starts_with(&inside));
                assert!(known, "{name}: {path} is neither a row nor a part");
            }
        }
    }
}

#[test]
fn every_label_finds_room_on_the_demo_houses() {
    for (name, answers, pictures) in all_pictured() {
        for paper in [Paper::A4, Paper::Letter] {
            for drawing in drawings(&answers, &pictures, paper).into_iter().map(|drawing| drawing.scaled) {
                assert!(drawing.key.is_empty(), "{name} on {paper:?}: {:?}", drawing.key);
                let [width, height] = paper.drawing_mm();
                assert!(drawing.svg.width_mm() <= width && drawing.svg.height_mm() <= height, "{name}");
            }
        }
    }
}

#[test]
fn the_picture_of_the_parts_pulled_apart_is_small_enough_for_a_page() {
    for (name, answers, pictures) in all_pictured() {
        let size = exploded(&answers, &pictures.exploded, Paper::A4).svg.to_string().len();
        assert!(size < 400_000, "{name}: {size} bytes");
    }
}

#[test]
fn tested_soils_have_a_triangle_and_each_grading_a_curve_and_untested_ones_none() {
    for (name, answers, pictures) in all_pictured() {
        let names: Vec<String> = drawings(&answers, &pictures, Paper::of(answers.system))
            .into_iter()
            .filter(|drawing| drawing.chapter == "soil")
            .map(|drawing| drawing.name)
            .collect();
        let expected: &[&str] = match name {
            "tansy-bank" => &["texture", "plasticity", "grading-laboratory"],
            "burdock-rise" => &["texture", "plasticity", "grading-college"],
            _ => &[],
        };
        assert_eq!(names, expected, "{name}");
        assert_eq!(press::soils::drawn(&answers), expected, "{name}");
    }
}

#[test]
fn a_plan_at_one_to_fifty_is_drawn_so() {
    let answers = answered(BUILDS[2].1);
    let drawing = plan(&answers, Paper::A4);
    assert_eq!(drawing.scale, "1:50");
    let svg = drawing.svg.to_string();
    let bar = svg.split("<rect ").filter(|rect| rect.contains("height=\"1.4\"")).count();
    assert_eq!(bar, 4, "the scale bar has four steps");
    assert!(svg.contains("width=\"20\" height=\"1.4\""), "a metre is 20 mm");
}

#[test]
fn a_drawing_is_the_same_each_time() {
    for (_, text) in BUILDS {
        let drawn = || -> Vec<String> {
            drawings(&answered(text), &pictured(text), Paper::A4)
                .iter()
                .map(|drawing| drawing.scaled.svg.to_string())
                .collect()
        };
        assert_eq!(drawn(), drawn());
    }
}

/// The number that follows a word in a text.
fn number(text: &str, word: &str) -> f64 {
    let rest = &text[text.find(word).unwrap() + word.len()..];
    rest.split(|sign: char| sign != '.' && sign != '-' && !sign.is_ascii_digit()).next().unwrap().parse().unwrap()
}

#[test]
fn the_name_of_a_lift_stands_between_the_beds_below_and_above_it() {
    let mut named = 0;
    for (name, answers) in all() {
        let svg = unrolled(&answers, Paper::of(answers.system)).svg.to_string();
        let lifts: Vec<&str> =
            answers.rows.matching("wall.lifts.*.start").map(|row| row.path.trim_end_matches(".start")).collect();
        // Height on paper of each bed, first row and second; a bed is a path whose first point is its left end.
        let beds = |lift: &str| -> Vec<f64> {
            let own = format!("data-path=\"{lift}\"");
            let paths = svg.split("<path d=\"M").skip(1).filter_map(|rest| rest.split('>').next());
            paths.filter(|path| path.contains(&own)).map(|path| number(path, " ")).collect()
        };
        for pair in lifts.windows(2).take(lifts.len() - 2) {
            let (below, above) = (beds(pair[0]), beds(pair[1]));
            let group = format!("data-path=\"{}\">", pair[1]);
            for label in svg.match_indices(&group).map(|(at, _)| &svg[at..]) {
                // A name that found no room in its band points into it.
                let (own, pointed) = label.split_once("</text>").unwrap().0.split_once("<text").unwrap_or_default();
                let middle = if own.contains("<line") { number(own, " y1=\"") } else { number(pointed, " y=\"") - 1.0 };
                let inside = below.iter().zip(&above).any(|(below, above)| above < &middle && &middle < below);
                assert!(inside, "{name}: {} at {middle}, beds at {below:?} and {above:?}", pair[1]);
                named += 1;
            }
        }
    }
    assert!(named > 20, "{named} names are drawn");
}

#[test]
fn every_lift_is_named_once_in_each_row_of_the_unrolled_wall() {
    for (name, answers) in all() {
        let drawing = unrolled(&answers, Paper::of(answers.system));
        let svg = drawing.svg.to_string();
        for card in &answers.lift_cards {
            let group = format!("data-path=\"{}\">", card.path);
            let words =
                |at: usize| svg[at..].split("</g>").next().unwrap_or_default().contains(&card.name.replace('-', " "));
            let in_the_picture = svg.match_indices(&group).filter(|(at, _)| words(*at)).count();
            let in_the_key = drawing.key.iter().filter(|(_, words)| *words == card.name.replace('-', " ")).count();
            assert_eq!(in_the_picture + in_the_key, drawing.frame.rows(), "{name}: {}", card.path);
        }
    }
}

#[test]
fn long_drawings_of_the_demo_houses_are_not_smaller_than_one_to_a_hundred() {
    for (name, answers) in all() {
        let paper = Paper::of(answers.system);
        for drawing in [Some(unrolled(&answers, paper)), trench_section(&answers, paper)].into_iter().flatten() {
            let readable = ["1:75", "1:100", "3/16 in = 1 ft", "1/8 in = 1 ft"];
            assert!(readable.contains(&drawing.scale.as_str()), "{name}: {}", drawing.scale);
        }
    }
}

#[test]
fn every_build_has_details_of_the_parts_that_it_has() {
    let whole = ["stem-detail", "window-detail", "window-plan-detail", "door-detail"];
    for (name, answers) in all() {
        let expected = match name {
            "plain-ring" => vec!["stem-detail", "door-detail"],
            "spiral-wall" => whole[..3].to_vec(),
            _ => whole.to_vec(),
        };
        let names: Vec<&str> = answers.details.iter().map(|one| one.name).collect();
        assert_eq!(names, expected, "{name}");
        let framed = answers.rows.matching("openings.*.frame.width").count() > 0;
        for one in &answers.details {
            let shows = |path: &str| one.section.parts.iter().any(|part| part.path.ends_with(path));
            match one.name {
                "stem-detail" => {
                    for path in ["water.trench", "water.drain", "skin.outside", "skin.inside"] {
                        let inside = format!("{path}.");
                        let known = answers
                            .rows
                            .iter()
                            .any(|row| row.path.starts_with(&inside) && row.path.ends_with("volume"));
                        assert_eq!(shows(path), known, "{name}: {path}");
                    }
                }
                "door-detail" => assert!(shows("wall.stem") && shows("ground.outside"), "{name}"),
                _ => assert_eq!(shows(".frame") && shows(".glass-area"), framed, "{name}: {}", one.name),
            }
            let svg = detail(&answers, one, Paper::of(answers.system)).svg.to_string();
            for path in paths(&svg) {
                let inside = format!("{path}.");
                let known = answers.rows.iter().any(|row| row.path == path || row.path.starts_with(&inside));
                assert!(known, "{name}, {}: {path} is neither a row nor a part", one.name);
            }
        }
    }
}

#[test]
fn measured_poles_have_a_plan_a_prop_their_stages_and_a_card_each_and_other_roofs_none() {
    for (name, answers, pictures) in all_pictured() {
        let drawn = drawings(&answers, &pictures, Paper::of(answers.system));
        let names: Vec<&str> = drawn.iter().map(|drawing| drawing.name.as_str()).collect();
        let of_roof = ["roof-plan", "raising", "raising-stages", "deck-plan"];
        let Some(ring) = &answers.ring_plan else {
            assert!(!names.iter().any(|one| of_roof.contains(one) || one.starts_with("pole-")), "{name}");
            continue;
        };
        assert_eq!(name, "tansy-bank");
        assert!(of_roof.iter().all(|one| names.contains(one)), "{name}: {names:?}");
        for pole in &ring.places {
            let card = drawn.iter().find(|drawing| drawing.name == format!("pole-{}", pole.tag)).unwrap();
            assert!(!card.title.is_empty() && card.chapter == "poles", "{}", card.name);
            let svg = card.scaled.svg.to_string();
            for noun in ["tail", "carry", "rest", "cut-length", "bow", "butt", "tip"] {
                let path = format!("{}.{noun}", pole.stem);
                assert!(paths(&svg).contains(&path.as_str()), "{path} is not on {}", card.name);
            }
        }
    }
}

#[test]
fn a_mark_on_a_pole_is_printed_to_five_millimetres_or_a_quarter_inch_where_it_lies() {
    for (system, step) in [(System::Metric, 0.005), (System::Us, 0.00635)] {
        let answers = answers(&Inputs { build: BUILDS[0].1.as_bytes(), system: Some(system) }).unwrap();
        let ring = answers.ring_plan.as_ref().unwrap();
        for pole in &ring.places {
            let drawing = pole_card(&answers, pole, Paper::of(system));
            for noun in ["carry", "rest", "cut-length"] {
                let row = answers.rows.find(&format!("{}.{noun}", pole.stem)).unwrap();
                let shown = row.quantity.shown(system, Fineness::Mark);
                assert!(drawing.svg.to_string().contains(&shown), "{shown} is not on the card of {}", pole.tag);
                let read = Length::parse(&shown).unwrap();
                let exact: Length = row.quantity.try_into().unwrap();
                assert!((read.in_m() - exact.in_m()).abs() <= 0.5 * step + 1e-9, "{shown} for {}", exact.in_m());
            }
        }
    }
}

#[test]
fn no_label_of_the_poles_lies_over_another_on_paper_or_screen() {
    let keys = "\n[roof.secondary]\nkind = \"ring\"\nat = \"60 %\"\ndiameter = \"130 mm\"\n\
                housing = \"20 mm\"\nbolt = \"12 mm\"\nof = \"larch-pole\"\n";
    labels_are_apart(&answered(BUILDS[0].1));
    labels_are_apart(&answered(&format!("{}{keys}", BUILDS[0].1)));
}

fn labels_are_apart(answers: &Answers) {
    let ring = answers.ring_plan.as_ref().unwrap();
    let small = Paper::Screen { width_mm: 165.0, height_mm: 140.0 };
    for paper in [Paper::A4, Paper::Letter, small] {
        let mut drawn = vec![roof_plan(answers, paper), raising(answers, paper), raising_stages(answers, paper)];
        drawn.extend(ring.places.iter().map(|pole| Some(pole_card(answers, pole, paper))));
        for scaled in drawn.into_iter().flatten() {
            for (place, area) in scaled.boxes.iter().enumerate() {
                assert!(scaled.room.contains(*area), "{area:?} leaves {:?} on {paper:?}", scaled.room);
                assert!(!scaled.boxes[..place].iter().any(|other| other.overlaps(*area)), "{area:?} on {paper:?}");
            }
        }
    }
}
