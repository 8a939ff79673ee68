//! The build book: chapters as data, one typesetter behind the feature `book`.

/// The look of the book, as a virtual file for the typesetter: `#import "/style.typ": *`.
pub const STYLE: &str = include_str!("book/style.typ");

#[cfg(feature = "book")]
mod checks;
#[cfg(feature = "book")]
mod earth;
#[cfg(feature = "book")]
mod job;
#[cfg(feature = "book")]
mod orders;
#[cfg(feature = "book")]
mod quantities;
#[cfg(feature = "book")]
mod sources;
#[cfg(feature = "book")]
pub mod typeset;

#[cfg(feature = "book")]
pub use whole::book;

#[cfg(feature = "book")]
mod whole {
    use engine::answers::Answers;
    use engine::units::{Quantity, System};
    use jiff::civil::Date;
    use serde_json::{Value, json};

    use super::typeset::{Typeset, typeset};
    use super::{checks, earth, job, orders, quantities, sources};
    use crate::drawing::{self, Scaled};
    use crate::paper::Paper;

    const MAIN: &str = include_str!("book/main.typ");

    /// The build book of a house, printed on a day.
    ///
    /// # Errors
    /// The typesetter's message and place; a fault of this program, not of the build file.
    pub fn book(answers: &Answers, printed: Date) -> Result<Typeset, String> {
        let paper = Paper::of(answers.system);
        let (plan, section) = (drawing::plan(answers, paper), drawing::section(answers, paper));
        let (unrolled, trench) = (drawing::unrolled(answers, paper), drawing::trench_section(answers, paper));
        let data = json!({
            "name": answers.about.name,
            "printed": Quantity::from(printed).shown(answers.system, engine::units::Fineness::Figure),
            "paper": paper.name(),
            "rounding": match answers.system {
                System::Metric => "Sizes are drawn to 5 mm; radii, places and levels to 1 mm.",
                System::Us => "Sizes are drawn to 1/8 in; radii, places and levels to 1/16 in.",
            },
            "job": job::chapter(answers),
            "plan": drawn(&plan),
            "section": drawn(&section),
            "unrolled": drawn(&unrolled),
            "trench": trench.as_ref().map(drawn),
            "other-way": if answers.rows.find("water.trench.longest-way").is_none() {
                "The other way round is the same."
            } else {
                "The other way is shorter."
            },
            "recipes": earth::recipes(answers),
            "behind": earth::behind(answers),
            "orders": orders::chapter(answers),
            "quantities": quantities::chapter(answers),
            "checks": checks::chapter(answers),
            "sources": sources::chapter(answers)?,
        })
        .to_string();
        let (plan, section) = (plan.svg.to_string(), section.svg.to_string());
        let (unrolled, trench) = (unrolled.svg.to_string(), trench.map(|trench| trench.svg.to_string()));
        let cover = drawing::picture(answers, paper).to_string();
        let recipes = earth::drawings(answers);
        let mut files: Vec<(&str, &[u8])> = vec![
            ("/cover.svg", cover.as_bytes()),
            ("/main.typ", MAIN.as_bytes()),
            ("/data.json", data.as_bytes()),
            ("/plan.svg", plan.as_bytes()),
            ("/section.svg", section.as_bytes()),
            ("/unrolled.svg", unrolled.as_bytes()),
        ];
        files.extend(trench.iter().map(|drawn| ("/trench.svg", drawn.as_bytes())));
        files.extend(recipes.iter().map(|(name, drawn)| (name.as_str(), drawn.as_bytes())));
        typeset(&files, "/main.typ")
    }

    fn drawn(drawing: &Scaled) -> Value {
        let key = drawing.key.iter().map(|(number, words)| [number.to_string(), words.clone()]);
        json!({"width": drawing.svg.width_mm(), "scale": drawing.scale, "key": key.collect::<Vec<_>>()})
    }
}
