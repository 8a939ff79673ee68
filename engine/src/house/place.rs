//! From what was written to a house with nothing missing: fills in what was not, places every part, refuses what cannot be.

use std::ops::Range;

use super::{About, House, Wall, levels, lifts, line, openings};
use crate::build::{Build, Source, Written};
use crate::known::{Known, Origin};
use crate::rulebook;
use crate::units::{Angle, Fineness, Length, Quantity, Slope, System};

/// The height of a stem wall that is not written: our judgement.
pub(super) const STEM_HEIGHT: Length = Length::mm(600.0);

/// The house of a build file; faults go to the source. `None` when it cannot be placed.
#[must_use]
pub fn place(source: &Source<'_>, build: &Build) -> Option<House> {
    let mut assumed = Vec::new();
    let system = build.site.units.as_ref().map_or_else(
        || {
            assumed.push(("site.units", "metric", "the units of most of the world"));
            System::Metric
        },
        |units| units.value,
    );
    let rulebooks = rulebooks(source, build, &mut assumed);
    people_and_days(source, build);
    let wall = wall(source, build, system);
    let ground = levels::levels(source, build, wall.as_ref(), system);
    let wall = wall?;
    let openings = openings::place(source, build, &wall, &ground.1, system);
    let (trench, drain) = levels::water(source, build, &wall, &ground.0, system);
    source.is_clean().then(|| House {
        about: about(build),
        system,
        rulebooks,
        assumed,
        north: known(build.site.north.as_ref()).unwrap_or_else(|| {
            Known::assumed(Angle::deg(90.0), "site.north", Origin::Judgement, "north lies along the y axis of the plan")
        }),
        wall,
        openings,
        ground: ground.0,
        floor: ground.1,
        trench,
        drain,
        crew: [
            ("lead builders", &build.crew.leads),
            ("helpers", &build.crew.helpers),
            ("learners", &build.crew.learners),
        ]
        .into_iter()
        .filter_map(|(title, count)| Some((title, known(count.as_ref())?)))
        .collect(),
        dates: [
            ("first day of the course", &build.dates.start),
            ("last day of the course", &build.dates.course_over),
            ("weather-tight by", &build.dates.weather_tight),
            ("ready for use by", &build.dates.ready_for_use),
        ]
        .into_iter()
        .filter_map(|(title, date)| Some((title, known(date.as_ref())?)))
        .collect(),
    })
}

/// A written value as a known one.
pub(super) fn known<T: Copy>(written: Option<&Written<T>>) -> Option<Known<T>> {
    written.map(|written| Known::given(written.value, written.path.clone(), written.line))
}

fn about(build: &Build) -> About {
    let text = |written: &Option<Written<String>>| written.as_ref().map_or_else(String::new, |text| text.value.clone());
    About {
        name: text(&build.build.name),
        about: text(&build.build.about),
        currency: build.build.currency.as_ref().map(|currency| currency.value),
        invented: build.build.invented.as_ref().is_some_and(|invented| invented.value),
        place: text(&build.site.place),
        use_: text(&build.site.use_),
        path: build.site.path.as_ref().map(|path| path.value),
    }
}

fn rulebooks(
    source: &Source<'_>,
    build: &Build,
    assumed: &mut Vec<(&'static str, &'static str, &'static str)>,
) -> Vec<String> {
    let Some(written) = &build.site.rulebooks else {
        assumed.push(("site.rulebooks", "trade-practice", "the trade's own rules come first; a code may ask for more"));
        return vec!["trade-practice".to_owned()];
    };
    if written.value.is_empty() {
        source.fault(
            written.span.clone(),
            &written.path,
            "no rulebook is named, so nothing would be checked",
            "leave the line out, or write rulebooks = [\"trade-practice\"]",
        );
    }
    let names: Vec<&str> = rulebook::SHIPPED.iter().map(|(name, _)| *name).collect();
    for book in written.value.iter().filter(|book| !names.contains(&book.value.as_str())) {
        source.fault(
            book.span.clone(),
            &book.path,
            format!("there is no rulebook \"{}\"", book.value),
            format!("known: {}", names.join(", ")),
        );
    }
    written.value.iter().map(|book| book.value.clone()).collect()
}

fn people_and_days(source: &Source<'_>, build: &Build) {
    let dates = &build.dates;
    for (early, late, what) in [
        (&dates.start, &dates.course_over, "the course begins"),
        (&dates.start, &dates.weather_tight, "the course begins"),
        (&dates.start, &dates.ready_for_use, "the course begins"),
        (&dates.weather_tight, &dates.ready_for_use, "the house is weather-tight"),
    ] {
        if let (Some(early), Some(late)) = (early, late)
            && late.value < early.value
        {
            source.fault(
                late.span.clone(),
                &late.path,
                format!("{} is before {what}, {} (line {})", late.value, early.value, early.line),
                format!("write a day on or after {}", early.value),
            );
        }
    }
}

fn wall(source: &Source<'_>, build: &Build, system: System) -> Option<Wall> {
    let written = &build.wall;
    let within = |value: &Option<Written<Length>>, range: Range<f64>, what: &str| {
        within(source, value.as_ref(), Length::m(range.start)..Length::m(range.end), what, system)
    };
    let thickness = within(&written.thickness, 0.05..3.0, "a wall's thickness");
    let height = within(&written.height, 0.1..12.0, "a wall's height");
    let stem_height = within(&written.stem.height, 0.05..3.0, "a stem wall's height").unwrap_or_else(|| {
        Known::assumed(
            STEM_HEIGHT,
            "wall.stem.height",
            Origin::Judgement,
            "450 mm above the ground against splash and 150 mm in it",
        )
    });
    let stem_width = within(&written.stem.width, 0.05..3.0, "a stem wall's width");
    let batter = |written: &Option<Written<Slope>>, path: &'static str| {
        if let Some(lean) = written.as_ref().filter(|lean| lean.value < Slope::ZERO) {
            source.fault(
                lean.span.clone(),
                &lean.path,
                "a negative batter makes the face overhang",
                "write how far the face leans back towards the middle of the wall, such as \"1:20\"",
            );
        }
        known(written.as_ref())
            .unwrap_or_else(|| Known::assumed(Slope::ZERO, path, Origin::Judgement, "the face is upright"))
    };
    let batter_inside = batter(&written.batter_inside, "wall.batter.inside");
    let batter_outside = batter(&written.batter_outside, "wall.batter.outside");
    let placed = line::place(source, build, thickness.as_ref(), system);
    let (thickness, (points, line)) = (thickness?, placed?);
    let stem_width = stem_width.unwrap_or_else(|| {
        Known::assumed(thickness.value, "wall.stem.width", Origin::CommonPractice, "as wide as the wall is thick")
            .following("wall.thickness")
    });
    let height = height?;
    let lifts = lifts::place(source, build, &thickness, &height, system);
    let wall = Wall {
        lifts,
        points,
        line,
        thickness,
        height: height.clone(),
        batter_inside,
        batter_outside,
        stem_height,
        stem_width,
    };
    let top = wall.faces().outer(height.value) - wall.faces().inner(height.value);
    if top <= Length::ZERO {
        let at = written.height.as_ref()?;
        source.fault(
            at.span.clone(),
            &at.path,
            format!(
                "the two faces lean so far that they meet at {}, below the top of the wall",
                shown(height.value * (wall.thickness.value / (wall.thickness.value - top)), system)
            ),
            "make the wall lower or thicker, or its batters smaller",
        );
        return None;
    }
    let body = if wall.stem_width.value > wall.thickness.value {
        ("stem wall", wall.stem_width.value)
    } else {
        ("wall", wall.thickness.value)
    };
    line::faces_are_whole(source, build, (&wall.points, &wall.line), body, system).then_some(wall)
}

/// A written length that lies in a range that is not a slip of the pen; a fault otherwise.
pub(super) fn within(
    source: &Source<'_>,
    written: Option<&Written<Length>>,
    range: Range<Length>,
    what: &str,
    system: System,
) -> Option<Known<Length>> {
    let written = written?;
    if range.contains(&written.value) {
        return known(Some(written));
    }
    source.fault(
        written.span.clone(),
        &written.path,
        format!("{} is not {what}", shown(written.value, system)),
        format!("write a length from {} to {}", shown(range.start, system), shown(range.end, system)),
    );
    None
}

/// A length as messages show it.
pub(super) fn shown(length: Length, system: System) -> String {
    Quantity::from(length).shown(system, Fineness::SetOut)
}
