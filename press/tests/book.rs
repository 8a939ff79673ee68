//! The book comes out of the press: the one test binary that links the typesetter.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test stops at the first surprise")]

use std::path::PathBuf;
use std::process::Command;

use engine::answers::{Answers, Inputs, answers, compute};
use engine::row::Row;
use engine::units::{Fineness, Quantity, System};
use jiff::civil::date;
use press::book::typeset::{Typeset, typeset};
use press::drawing::area::Area;
use press::drawing::labels::{Label, Obstacle, place};
use press::drawing::lettering_box::Turn;
use press::paper::{CLAY, INK, Paper, SLATE, weight};
use press::svg::{Element, Run, Svg};
use serde_json::{Value, json};

const MAIN: &str = include_str!("book/sample.typ");
const PLAN_MM: [f64; 2] = [140.0, 110.0];

/// A round room at 1 : 50 with labels by the placer.
fn plan() -> Svg {
    let [width, height] = PLAN_MM;
    let centre = [width / 2.0, height / 2.0];
    let ring = |radius: f64| -> Vec<[f64; 2]> {
        let turn = |step: i32| f64::from(step) * std::f64::consts::TAU / 96.0;
        let point = |angle: f64| [centre[0] + radius * angle.cos(), centre[1] + radius * angle.sin()];
        (0..96).map(|step| point(turn(step))).collect()
    };
    let (outside, inside) = (ring(38.0), ring(30.0));
    let mut svg = Svg::sheet(width, height, "Plan of the house");
    svg.push(
        Element::path(&[Run::Closed(&outside), Run::Closed(&inside)])
            .with("fill", CLAY)
            .with("fill-opacity", 0.18)
            .with("stroke", INK)
            .with("stroke-width", weight::CUT)
            .data_path("wall"),
    );
    svg.push(Element::line([8.0, 17.0], [8.0, 93.0]).with("stroke", SLATE).with("stroke-width", weight::THIN));
    let obstacles: Vec<Obstacle> = [&outside, &inside]
        .iter()
        .flat_map(|ring| ring.windows(2))
        .map(|pair| Obstacle::Segment(pair[0], pair[1], 2.0))
        .collect();
    let mut labels: Vec<Label> = [
        ([104.0, 55.0], "south window\n900 × 1200 mm"),
        ([70.0, 21.0], "niche"),
        ([45.0, 78.0], "bench ≤ 450 mm high"),
        ([44.0, 76.0], "oven"),
        ([93.0, 80.0], "door, opens outward"),
    ]
    .map(|(anchor, words)| Label::beside(anchor, 3.2, words))
    .into();
    labels.push(Label {
        turn: Turn::Upright,
        preferred: vec![[5.5, 55.0]],
        ..Label::beside([8.0, 55.0], 3.2, "3,800")
    });
    labels.push(Label { preferred: vec![centre], ..Label::beside(centre, 4.0, "Room 11.3 m²") });
    let sheet = Area::about(centre, width, height);
    svg.push(place(sheet, &obstacles, &labels).drawn(&labels));
    svg
}

fn data(paper: Paper) -> Value {
    let check = |state: &str, title: &str, words: &str, found: &str, limit: &str| {
        json!({"state": state, "title": title, "words": words, "found": found, "limit": limit,
               "source": "A clause of a rulebook, section 4.2"})
    };
    let order: Vec<[String; 4]> = (1..=44)
        .map(|row| {
            [
                format!("Larch pole {row}, 140 mm ∅ at the tip"),
                "Roof".to_owned(),
                format!("{row} × 3.2 m"),
                "3 May 2027".to_owned(),
            ]
        })
        .collect();
    json!({
        "name": "Sample Hollow", "date": "25 November 2026", "paper": paper.name(),
        "about": "A round room of cob on a stem wall of stone, under a roof of poles and living soil, for four people to build in one summer.",
        "title_block": [["Place", "Sample Hollow"], ["Floor", "11.3 m²"], ["Units", "metric"], ["Date", "25 November 2026"]],
        "figures": [
            ["Cob to mix", "14.2 m³", "92 batches on the tarp"],
            ["Wall", "450 mm thick", "tapers to 380 mm at the top"],
            ["Roof in earth and rain", "9.8 kN", "wet, with snow"],
        ],
        "caution": {"title": "Under the roof",
            "words": "The poles carry nothing until the last one is tied. Keep everyone but two people out of the ring, prop the first pole, and take the prop away only when the ring has settled."},
        "checks": [
            check("holds", "Wall, height to thickness", "The wall is 5.8 times as high as thick.", "5.8", "≤ 6"),
            check("tight", "Footing on the ground", "", "92 kPa", "≤ 96 kPa"),
            check("fails", "Window from the corner", "The south window stands 210 mm too near the corner.", "390 mm", "≥ 600 mm"),
            check("on trust", "Shrinkage of the test bar", "Measure a bar of your own mix.", "1.5 %", "≤ 2 %"),
            check("not known", "Level of ground water", "Dig a hole and look in spring.", "–", "≥ 1 m deep"),
        ],
        "reason": {"title": "Height to thickness of the wall",
            "equation": "λ = h / t\n  = 2.60 m / 0.45 m = 5.8 ≤ 6",
            "inputs": [["h, height of the cob", "2.60 m", "decided by the builder"],
                       ["t, thickness at the base", "450 mm", "decided by the builder"]],
            "source": "Ratio as printed in the rulebook, section 4.2; seen."},
        "plan_width": PLAN_MM[0], "key": [["1", "bottle bricks"], ["2", "vent, 100 mm"]],
        "order": order,
    })
}

fn sample(paper: Paper) -> Typeset {
    let (data, plan) = (data(paper).to_string(), plan().to_string());
    let files = [("/main.typ", MAIN.as_bytes()), ("/data.json", data.as_bytes()), ("/plan.svg", plan.as_bytes())];
    typeset(&files, "/main.typ").unwrap()
}

/// The PDF's text, by way of a file in the folder that cargo keeps for tests.
fn text_of(name: &str, pdf: &[u8]) -> String {
    let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::write(&path, pdf).unwrap();
    let told = Command::new("pdftotext").arg("-layout").arg(&path).arg("-").output();
    let told = told.expect("pdftotext is missing: apt-get install poppler-utils");
    assert!(told.status.success());
    String::from_utf8(told.stdout).unwrap()
}

#[test]
fn a_book_holds_its_words_numbers_and_drawings_and_is_the_same_each_time() {
    let book = sample(Paper::A4);
    assert_eq!(book.remarks, Vec::<String>::new());
    let text = text_of("sample-a4.pdf", &book.pdf);
    for words in [
        "Sample Hollow build book",
        "What is in this book",
        "Sample Hollow · 25 November 2026 · page 2 of 6",
        "14.2 m³",
        "not known",
        "λ = h / t",
        "south window",
        "bench ≤ 450 mm high",
        "Larch pole 44",
    ] {
        assert!(text.contains(words), "no \"{words}\" in:\n{text}");
    }
    assert_eq!(text.matches("Order by").count(), 2, "the header row comes again");
    assert!(book.pdf == sample(Paper::A4).pdf, "two runs differ");
}

#[test]
fn the_book_fits_us_letter_too() {
    let book = sample(Paper::Letter);
    assert_eq!(book.remarks, Vec::<String>::new());
    assert!(text_of("sample-letter.pdf", &book.pdf).contains("Larch pole 44"));
}

#[test]
fn no_row_of_a_table_stands_alone_on_a_page() {
    for count in 30..=42 {
        let rows = (1..=count).map(|row| format!("(\"pole {row}\", \"3.2 m\"),"));
        let main = format!(
            "#import \"/style.typ\": *\n#show: book.with(name: \"Sample\", date: \"2026\")\n\
             #ruled(header: (\"Item\", \"Length\"), rows: ({}))",
            rows.collect::<String>()
        );
        let book = typeset(&[("/main.typ", main.as_bytes())], "/main.typ").unwrap();
        let text = text_of("rows.pdf", &book.pdf);
        let pages: Vec<usize> =
            text.split('\u{c}').map(|page| page.matches("3.2 m").count()).filter(|rows| *rows > 0).collect();
        assert_eq!(pages.iter().sum::<usize>(), count);
        assert!(pages.iter().all(|rows| *rows >= 2), "{count} rows: {pages:?}");
    }
}

#[test]
fn a_fault_is_told_with_its_place() {
    let files = [("/main.typ", "Wall\n#stone".as_bytes())];
    let told = typeset(&files, "/main.typ").unwrap_err();
    assert!(told.starts_with("/main.typ:2:2: unknown variable: stone"), "{told}");
}

const HOUSES: [(&str, &str); 2] = [
    ("tansy-bank", include_str!("../../builds/tansy-bank/tansy-bank.loam.toml")),
    ("burdock-rise", include_str!("../../builds/burdock-rise/burdock-rise.loam.toml")),
];

/// The text of a page with one blank between words, so that a title that runs over lines is found again.
fn running(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Whether a row stands on the way to others, so that the book leaves it to `export answers`.
fn is_a_step(path: &str) -> bool {
    let nouns = [
        ".station",
        ".stretch",
        ".batches",
        ".loose",
        ".water-mass",
        ".water-buckets",
        ".armfuls",
        ".gross-volume",
        ".bed-gross-area",
        ".to-mix",
        // A piece on a slope is told as it is cut.
        ".growth",
        ".timber-in-plan",
        ".cut-in-plan",
    ];
    // The bends of a truck way are drawn, not listed.
    let shares = [".less-", ".bed-less-", ".need.", ".loose.", ".through."];
    // Water is told as it is drawn, in litres or gallons; the sum of all orders by the area of the builder's own units.
    let other_units = ["order.water.needed", "order.total-per-m2", "order.total-per-sq-ft"];
    // A tried mix, and that of a panel, is told in buckets.
    let by_bucket = path.contains(".tried.") || path.starts_with("tests.panels.");
    let by_share = by_bucket && path.contains(".share.");
    by_share
        || other_units.contains(&path)
        || nouns.iter().any(|noun| path.ends_with(noun))
        || shares.iter().any(|share| path.contains(share))
}

#[test]
fn the_book_of_a_house_shows_its_rows_and_checks() {
    for (name, build) in HOUSES {
        for system in [System::Metric, System::Us] {
            let inputs = Inputs { build: build.as_bytes(), system: Some(system) };
            let (answers, pictures) = (answers(&inputs).unwrap(), compute(&inputs).unwrap().pictures());
            let findings = answers.studies.found();
            let book = || press::book::book(&answers, &pictures, &findings, date(2027, 4, 1)).unwrap();
            let is_first = (name, system) == (HOUSES[0].0, System::Metric);
            let (again, book) = (is_first.then(book), book());
            assert!(again.is_none_or(|again| again.pdf == book.pdf), "{name}: two runs differ");
            assert_eq!(book.remarks, Vec::<String>::new());
            let lines = text_of(&format!("{name}-{system:?}.pdf"), &book.pdf);
            let text = running(&lines);
            let is_missing = |row: &&Row| !text.contains(&running(&row.shown(system)));
            let told = answers.rows.iter().filter(|row| !is_a_step(&row.path));
            let missing: Vec<String> =
                told.filter(is_missing).map(|row| format!("{} = {}", row.path, row.shown(system))).collect();
            assert_eq!(missing, Vec::<String>::new(), "{name} in {system:?}");
            let above = answers.rows.find("wall.platform.above").unwrap();
            let star = if above.is_assumed() { " *" } else { "" };
            let height = format!("higher than {}{star} above the ground", running(&above.shown(system)));
            assert_eq!(text.matches(&height).count(), 2, "{name}: platforms from \"{height}\"");
            for check in &answers.checks {
                let found = check.found.map(|found| engine::row::shown(found, system)).unwrap_or_default();
                assert!(text.contains(&running(&found)), "{name}: {:?} = {found} is not in the book", check.path);
            }
            assert!(text.contains("What is not known") && text.contains("What was assumed"), "{name}");
            let day = Quantity::from(date(2027, 4, 1)).shown(system, Fineness::Figure);
            let sheets = text.matches(&format!("{} · {day} · page", answers.about.name)).count();
            assert_eq!(sheets + 1, book.pages, "{name}: a sheet does not say what it belongs to");
            values_stand_beside_their_titles(name, &answers, &lines);
            let ends = lines.split('\u{c}').filter(|page| page.contains("Covered tonight by"));
            let apart = ends.filter(|page| !page.contains("Initials")).count();
            assert_eq!(apart, 0, "{name} in {system:?}: a lift's card goes over two pages");
        }
    }
}

/// In the tables of quantities a value stands on the line of its title.
fn values_stand_beside_their_titles(name: &str, answers: &Answers, text: &str) {
    let lines: Vec<String> = text.lines().map(running).collect();
    let of_the_wall = |row: &&Row| row.path.starts_with("wall.") && row.path.matches('.').count() == 1;
    let mut found = 0;
    for row in answers.rows.iter().filter(of_the_wall) {
        let start: String = running(&row.title).chars().skip(1).take(30).collect();
        let shown = running(&row.shown(answers.system));
        let beside = lines.iter().any(|line| line.contains(&start) && line.contains(&shown));
        assert!(beside, "{name}: no line has \"{}\" and {shown}", row.title);
        found += 1;
    }
    assert!(found > 15, "{name}: {found} rows");
}
