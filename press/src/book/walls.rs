//! Walls and what is on them: doors and windows, the bond beam's cutting list, mosaics, bottle bricks, ovens.

use engine::answers::Answers;
use serde_json::{Value, json};

use super::rows::{figures, lines};
use crate::spoken::{capital, marked, spoken};

/// Figures of a door or a window: noun and heading.
const SIZES: [(&str, &str); 6] = [
    ("width", "opening, width"),
    ("height", "height"),
    ("clear-width", "clear width"),
    ("clear-height", "clear height"),
    ("glass-area", "glass"),
    ("on-site-by", "on site by day"),
];
/// What its frame, sill, lintel and threshold take.
const FITTED: [(&str, &str); 7] = [
    ("frame.width", "frame, face"),
    ("frame.depth", "frame, depth"),
    ("frame.braces", "braces"),
    ("frame.anchors-in-all", "anchors"),
    ("lintel.length", "lintel"),
    ("threshold-length", "threshold"),
    ("drip", "it stands out"),
];
const PIECES: [(&str, &str); 6] = [
    ("pieces", "each layer"),
    ("cut-length", "cut to"),
    ("bevel", "bevel"),
    ("sagitta", "curve over chord"),
    ("plank", "plank, if sawn"),
    ("radius", "radius"),
];
const BEAM: [(&str, &str); 14] = [
    ("bond-beam.width", "width"),
    ("bond-beam.height", "height"),
    ("bond-beam.layers", "layers"),
    ("top-length", "length all round"),
    ("bond-beam.length-on-slope", "on the slope of the top"),
    ("bond-beam.pieces", "pieces in all"),
    ("bond-beam.cut-length", "length of all pieces"),
    ("bond-beam.longest", "longest piece"),
    ("bond-beam.scarf", "a scarf"),
    ("bond-beam.scarfs", "scarfs"),
    ("bond-beam.bolts-in-all", "bolts"),
    ("bond-beam.shims", "pairs of level shims"),
    ("bond-beam.timber", "timber to cut it from"),
    ("bond-beam.volume", "timber as it lies"),
];
const GAP: [(&str, &str); 7] = [
    ("poles", "from wall or beam to the deck, at a pole"),
    ("rise", "rise of the deck over the wall, in the mean"),
    ("joint", "soft joint under the deck"),
    ("height", "height of the filling, in the mean"),
    ("volume", "cob in it, poles taken out"),
    ("trimmings", "trimmings left for it"),
    ("to-mix", "to mix for it, beside the beam too"),
];
const MOSAIC: [(&str, &str); 7] = [
    ("area", "area"),
    ("tile", "tiles, thickness"),
    ("bedding", "bed, thickness"),
    ("tile-area", "tiles"),
    ("bedding-volume", "bed"),
    ("grout-volume", "grout"),
    ("mass", "mass on the wall"),
];
const OVEN: [(&str, &str); 20] = [
    ("diameter", "floor within, diameter"),
    ("dome-height", "dome within, height"),
    ("door-width", "doorway, width"),
    ("door-height", "doorway, height"),
    ("sand-form", "damp sand in the form"),
    ("thermal", "inner layer, thickness"),
    ("thermal-volume", "inner layer"),
    ("insulation", "outer layer, thickness"),
    ("insulation-volume", "outer layer"),
    ("over-dome", "diameter over the dome"),
    ("bricks", "floor bricks"),
    ("base.height", "base, height above the floor"),
    ("ring-volume", "ring of stone, as laid"),
    ("fill-volume", "fill within it, packed"),
    ("footing.depth", "footing, below the floor"),
    ("footing.width", "footing, diameter"),
    ("footing-volume", "footing"),
    ("mass", "mass on the footing, dry"),
    ("ground-pressure", "mean pressure on the ground"),
    ("clear-of-wall", "clear way to the wall"),
];

pub(super) fn chapter(answers: &Answers) -> Value {
    let carded = &answers.carded;
    let openings = || answers.schedule.iter().map(|hung| (spoken(&hung.name), format!("openings.{}.", hung.name)));
    let words = answers.schedule.iter().map(|hung| {
        let said = |word: &str| if word.is_empty() { "ask".to_owned() } else { word.to_owned() };
        let hand = if hung.swing == "fixed" { "–".to_owned() } else { said(hung.hand) };
        let name = spoken(&hung.name);
        let lift = spoken(&hung.lift);
        vec![name, hung.kind.to_owned(), hung.form.to_owned(), said(hung.swing), hand, lift]
    });
    let beam = answers.beam_plan.as_ref();
    let marks = beam.iter().flat_map(|plan| plan.marks.iter().zip(plan.parts.iter().skip(1))).map(|(mark, part)| {
        let stem = mark.path.trim_end_matches("pieces").to_owned();
        (format!("{}  {}", mark.name, spoken(&part.name)), stem)
    });
    let cards = |names: &[String], nouns: &[(&str, &str)]| {
        let card = |name: &String| {
            json!({
                "name": capital(&spoken(name)),
                "figures": figures(answers, &format!("built-in.{name}."), nouns),
            })
        };
        names.iter().map(card).collect::<Vec<_>>()
    };
    let sloping = answers.rows.find("wall.lowest").is_some();
    json!({
        "words": words.collect::<Vec<_>>(),
        "sizes": lines(answers, "", openings(), &SIZES),
        "fitted": lines(answers, "", openings(), &FITTED),
        "pieces": lines(answers, "", marks, &PIECES),
        "beam": if beam.is_some() { figures(answers, "wall.", &BEAM) } else { Vec::new() },
        "gap": figures(answers, "wall.gap.", &GAP),
        "sloping": sloping,
        "mosaics": cards(&carded.mosaics, &MOSAIC),
        "ovens": cards(&carded.ovens, &OVEN),
        "bottles": carded.bottles.iter().map(|name| bottles(answers, name)).collect::<Vec<_>>(),
    })
}

/// The lengths of bottle bricks and how many bottles they take.
fn bottles(answers: &Answers, name: &str) -> Value {
    let stem = format!("built-in.{name}.");
    let is_length = |path: &str| path.starts_with(&stem) && path.ends_with("length");
    let lengths = answers.rows.iter().filter(|row| is_length(&row.path));
    let lengths = lengths.map(|row| [capital(&row.title), marked(answers, row)]);
    let counts = figures(
        answers,
        &stem,
        &[("count", "bottle bricks"), ("diameter", "diameter"), ("collect", "bottles to collect")],
    );
    json!({
        "name": capital(&spoken(name)),
        "figures": counts.into_iter().chain(lengths).collect::<Vec<_>>(),
    })
}
