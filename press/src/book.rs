//! The build book: chapters as data, one typesetter behind the feature `book`.

/// The look of the book, as a virtual file for the typesetter: `#import "/style.typ": *`.
pub const STYLE: &str = include_str!("book/style.typ");

#[cfg(feature = "book")]
mod boarding;
#[cfg(feature = "book")]
mod bricks;
#[cfg(feature = "book")]
mod checks;
#[cfg(feature = "book")]
mod deck;
#[cfg(feature = "book")]
mod earth;
#[cfg(feature = "book")]
mod floor;
#[cfg(feature = "book")]
mod gate;
#[cfg(feature = "book")]
mod glossary;
#[cfg(feature = "book")]
mod holds;
#[cfg(feature = "book")]
mod job;
#[cfg(feature = "book")]
mod later;
#[cfg(feature = "book")]
mod lifts;
#[cfg(feature = "book")]
mod mixes;
#[cfg(feature = "book")]
mod orders;
#[cfg(feature = "book")]
mod panels;
mod plans;
#[cfg(feature = "book")]
mod quantities;
#[cfg(feature = "book")]
mod rafters;
#[cfg(feature = "book")]
mod roof;
#[cfg(feature = "book")]
mod rows;
#[cfg(feature = "book")]
mod set_out;
#[cfg(feature = "book")]
mod site;
#[cfg(feature = "book")]
mod skin;
#[cfg(feature = "book")]
mod soil;
#[cfg(feature = "book")]
mod sources;
#[cfg(feature = "book")]
mod studies;
#[cfg(feature = "book")]
pub mod typeset;
#[cfg(feature = "book")]
mod walls;

#[cfg(feature = "book")]
pub use whole::book;

#[cfg(feature = "book")]
mod whole {
    use engine::answers::Answers;
    use engine::pictures::Pictures;
    use engine::studies::Findings;
    use engine::units::Quantity;
    use jiff::civil::Date;
    use serde_json::{Value, json};

    use super::typeset::{Typeset, typeset};
    use super::{
        boarding, bricks, checks, deck, earth, floor, gate, glossary, holds, job, later, lifts, mixes, orders, panels,
        plans, quantities, rafters, roof, set_out, site, skin, soil, sources, studies, walls,
    };
    use crate::drawing::{self, Drawing};
    use crate::paper::Paper;

    const MAIN: &str = include_str!("book/main.typ");
    /// Read once for all chapters: each reading of its own takes more than a megabyte.
    const DATA: &[u8] = b"#let data = json(\"/data.json\")";

    /// The chapters that `main.typ` includes, in its order.
    const CHAPTERS: &[(&str, &str)] = &[
        ("/job.typ", include_str!("book/chapters/job.typ")),
        ("/site.typ", include_str!("book/chapters/site.typ")),
        ("/setting-out.typ", include_str!("book/chapters/setting-out.typ")),
        ("/drawings.typ", include_str!("book/chapters/drawings.typ")),
        ("/walls.typ", include_str!("book/chapters/walls.typ")),
        ("/earth.typ", include_str!("book/chapters/earth.typ")),
        ("/mixes.typ", include_str!("book/chapters/mixes.typ")),
        ("/panels.typ", include_str!("book/chapters/panels.typ")),
        ("/plans.typ", include_str!("book/chapters/plans.typ")),
        ("/bricks.typ", include_str!("book/chapters/bricks.typ")),
        ("/lifts.typ", include_str!("book/chapters/lifts.typ")),
        ("/roof.typ", include_str!("book/chapters/roof.typ")),
        ("/rafters.typ", include_str!("book/chapters/rafters.typ")),
        ("/holds.typ", include_str!("book/chapters/holds.typ")),
        ("/studies.typ", include_str!("book/chapters/studies.typ")),
        ("/poles.typ", include_str!("book/chapters/poles.typ")),
        ("/skin.typ", include_str!("book/chapters/skin.typ")),
        ("/floor.typ", include_str!("book/chapters/floor.typ")),
        ("/deck.typ", include_str!("book/chapters/deck.typ")),
        ("/laid.typ", include_str!("book/chapters/laid.typ")),
        ("/boarding.typ", include_str!("book/chapters/boarding.typ")),
        ("/orders.typ", include_str!("book/chapters/orders.typ")),
        ("/quantities.typ", include_str!("book/chapters/quantities.typ")),
        ("/cautions.typ", include_str!("book/chapters/cautions.typ")),
        ("/checklists.typ", include_str!("book/chapters/checklists.typ")),
        ("/gate.typ", include_str!("book/chapters/gate.typ")),
        ("/glossary.typ", include_str!("book/chapters/glossary.typ")),
        ("/later.typ", include_str!("book/chapters/later.typ")),
        ("/sheets.typ", include_str!("book/chapters/sheets.typ")),
        ("/checks.typ", include_str!("book/chapters/checks.typ")),
        ("/sources.typ", include_str!("book/chapters/sources.typ")),
    ];

    /// The build book of a house with what its long computations found, printed on a day.
    ///
    /// # Errors
    /// The typesetter's message and place; a fault of this program, not of the build file.
    pub fn book(answers: &Answers, pictures: &Pictures, findings: &Findings, printed: Date) -> Result<Typeset, String> {
        let paper = Paper::of(answers.system);
        // The proof takes as long as all drawings together.
        let (drawings, sources) = std::thread::scope(|scope| {
            let sources = scope.spawn(|| sources::chapter(answers));
            let drawings = drawing::all(answers, pictures, paper);
            (drawings, sources.join().unwrap_or_else(|panic| std::panic::resume_unwind(panic)))
        });
        let data = json!({
            "name": answers.about.name,
            "printed": Quantity::from(printed).shown(answers.system, engine::units::Fineness::Figure),
            "paper": paper.name(),
            "drawings": drawings.iter().map(drawn).collect::<Vec<_>>(),
            "job": job::chapter(answers),
            "set_out": set_out::chapter(answers),
            "walls": walls::chapter(answers),
            "site": site::chapter(answers),
            "recipes": earth::recipes(answers),
            "behind": earth::behind(answers),
            "mixes": mixes::chapter(answers),
            "panels": panels::chapter(answers),
            "plans": plans::chapter(answers),
            "batches": plans::logs(answers),
            "bricks": bricks::chapter(answers),
            "soil": soil::section(answers),
            "lifts": lifts::chapter(answers),
            "roof": roof::chapter(answers),
            "rafters": rafters::chapter(answers),
            "holds": holds::chapter(answers),
            "studies": studies::chapter(answers, findings),
            "poles": roof::cards(answers),
            "skin": skin::chapter(answers),
            "floor": floor::chapter(answers),
            "deck": deck::chapter(answers),
            "boarding": boarding::chapter(answers),
            "orders": orders::chapter(answers),
            "quantities": quantities::chapter(answers),
            "checks": checks::chapter(answers),
            "gate": gate::chapter(answers)?,
            "glossary": glossary::chapter(),
            "later": later::chapter(answers),
            "sources": sources?,
        })
        .to_string();
        let cover = drawing::cover(answers, &pictures.exploded, paper);
        let mut drawn_files = vec![("/cover.svg".to_owned(), cover.to_string())];
        drawn_files
            .extend(drawings.iter().map(|drawing| (format!("/{}.svg", drawing.name), drawing.scaled.svg.to_string())));
        drawn_files.extend(earth::drawings(answers));
        let mut files: Vec<(&str, &[u8])> =
            vec![("/main.typ", MAIN.as_bytes()), ("/data.typ", DATA), ("/data.json", data.as_bytes())];
        files.extend(CHAPTERS.iter().map(|(name, text)| (*name, text.as_bytes())));
        files.extend(drawn_files.iter().map(|(name, drawn)| (name.as_str(), drawn.as_bytes())));
        typeset(&files, "/main.typ")
    }

    fn drawn(drawing: &Drawing) -> Value {
        let scaled = &drawing.scaled;
        let key = scaled.key.iter().map(|(number, words)| [number.to_string(), words.clone()]);
        json!({
            "path": format!("/{}.svg", drawing.name),
            "chapter": drawing.chapter,
            "title": drawing.title,
            "caption": caption(drawing),
            "width": scaled.svg.width_mm(),
            "key": key.collect::<Vec<_>>(),
        })
    }

    /// Title, scale where there is one, and what is said of it.
    fn caption(drawing: &Drawing) -> String {
        let scale = &drawing.scaled.scale;
        let scale = if scale.is_empty() { String::new() } else { format!(", {scale}") };
        format!("{}{scale}. {}", drawing.title, drawing.note)
    }
}
