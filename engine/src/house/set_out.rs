//! Places the baseline, the benchmark and what near enough means; refuses a baseline that no string could follow.

use std::ops::Range;

use kurbo::Point;

use super::place::{known, nearest, shown, within};
use super::{Trench, Wall};
use crate::build::{Build, Place, Source, Written};
use crate::known::{Known, Origin};
use crate::set_out::{self, Baseline};
use crate::tolerance::{self, tolerances};
use crate::units::{self, Length, Quantity, System};

/// How the house is set out.
#[derive(Clone, Debug)]
pub struct SetOut {
    /// Pegs A and B as the builder wrote them, x and y of each; none where they follow from the house.
    pub pegs: Option<[[Known<Length>; 2]; 2]>,
    /// The baseline between them.
    pub baseline: Baseline,
    /// Clear ground between the baseline and the trench.
    pub clear: Known<Length>,
    /// How far the baseline goes beyond the trench at either end.
    pub beyond: Known<Length>,
    /// Steps along chords and curves.
    pub spacing: Known<Length>,
    /// The longest radius that is swung by a string.
    pub string: Known<Length>,
    /// Level of the benchmark.
    pub benchmark: Known<Length>,
    /// The highest step that is built before a door.
    pub rise: Known<Length>,
    /// What near enough means at each step.
    pub tolerances: Vec<Near>,
}

/// What near enough means at one step of this build.
#[derive(Clone, Debug)]
pub struct Near {
    /// The step.
    pub of: &'static tolerance::Tolerance,
    /// How far off is near enough.
    pub within: Known<Quantity>,
}

impl Near {
    /// Its row.
    #[must_use]
    pub fn path(name: &str) -> String {
        format!("rules.tolerances.{name}.within")
    }
}

/// The width that is kept clear of, and its row: the trench's, or the stem's where there is no trench.
#[must_use]
pub fn widest(wall: &Wall, trench: Option<&Trench>) -> (Length, &'static str) {
    match trench {
        Some(trench) => (trench.width.value, "water.trench.width"),
        None => (wall.stem_width.value, "wall.stem.width"),
    }
}

pub(super) fn place(
    source: &Source<'_>,
    build: &Build,
    wall: &Wall,
    trench: Option<&Trench>,
    system: System,
) -> Option<SetOut> {
    let written = &build.site.set_out;
    let length = |written: &Option<Written<Length>>, range: Range<f64>, what: &str, or: Known<Length>| {
        within(source, written.as_ref(), Length::m(range.start)..Length::m(range.end), what, system).unwrap_or(or)
    };
    let judged = |value: Length, key: &str, why: &'static str| {
        Known::assumed(value, format!("site.set-out.{key}"), Origin::Judgement, why)
    };
    let clear = judged(Length::m(1.0), "clear", "room for the spoil of the trench and for feet");
    let clear = length(&written.clear, 0.1..20.0, "clear ground beside a trench", clear);
    let beyond = judged(Length::m(1.0), "beyond", "a peg that digging does not shake");
    let beyond = length(&written.beyond, 0.1..20.0, "how far a baseline goes beyond a house", beyond);
    let spacing = judged(Length::mm(500.0), "spacing", "a bent lath is true between points so near");
    let spacing = length(&written.spacing, 0.1..3.0, "a step along a curve", spacing);
    let string = judged(Length::m(4.0), "string", "a longer string sags and stretches");
    let string = length(&written.string, 0.5..20.0, "a radius that is swung by a string", string);
    let benchmark = judged(Length::ZERO, "benchmark", "the foot of the cob, marked on a post outside of the work");
    let benchmark = length(&written.benchmark, -10.0..10.0, "the level of a benchmark beside a small house", benchmark);
    let rise = judged(Length::mm(180.0), "rise", "an easy step, wet or dark");
    let rise = length(&written.rise, 0.08..0.4, "the height of a step", rise);
    let pegs = match (&written.from, &written.to) {
        (Some(from), Some(to)) => Some([peg(source, from, system)?, peg(source, to, system)?]),
        _ => None,
    };
    let (half, _) = widest(wall, trench);
    let baseline = match &pegs {
        Some(pegs) => {
            let at = |[x, y]: &[Known<Length>; 2]| Point::new(x.value.in_m(), y.value.in_m());
            Baseline { a: at(&pegs[0]), b: at(&pegs[1]) }
        }
        None => {
            let (extent, _) = wall.line.extent(0.0);
            let at = |reach: f64, clear: &Known<Length>, side: f64| {
                set_out::clear_of(half, clear.value, Length::m(reach), side).value.in_m()
            };
            let y = at(extent.y0, &clear, -1.0);
            let [a, b] = [(extent.x0, -1.0), (extent.x1, 1.0)].map(|(reach, side)| at(reach, &beyond, side));
            Baseline { a: Point::new(a, y), b: Point::new(b, y) }
        }
    };
    if let (Some(_), Some(to)) = (&pegs, &written.to)
        && !lies_clear(source, to, baseline, (wall, half), system)
    {
        return None;
    }
    let tolerances = near(source, build, system);
    Some(SetOut { pegs, baseline, clear, beyond, spacing, string, benchmark, rise, tolerances })
}

fn peg(source: &Source<'_>, written: &Place, system: System) -> Option<[Known<Length>; 2]> {
    let [x, y] = &written.value;
    let axis = |axis: &Written<Length>| {
        let range = Length::m(-200.0)..Length::m(200.0);
        within(source, Some(axis), range, "the place of a peg beside a small house", system)
    };
    Some([axis(x)?, axis(y)?])
}

/// Whether a baseline is long enough, has the house on its left and does not run through it.
fn lies_clear(
    source: &Source<'_>,
    to: &Place,
    baseline: Baseline,
    (wall, width): (&Wall, Length),
    system: System,
) -> bool {
    let refuse = |message: String, hint: &str| {
        source.fault(to.span.clone(), &to.path, message, hint);
        false
    };
    let length = Length::m(baseline.a.distance(baseline.b));
    if length < Length::m(1.0) {
        let message = format!("pegs A and B stand only {} apart", shown(length, system));
        return refuse(message, "set them at least as far apart as the house is long");
    }
    let left = baseline.axis().turn_90();
    let ([least, most], _) = wall.line.reach(0.0, left);
    let (from, half) = (baseline.a.to_vec2().dot(left), 0.5 * width.in_m());
    if most - from < -half {
        return refuse(
            "the house stands to the right of the way from peg A to peg B".to_owned(),
            "write the two pegs the other way round: from the one that is on the left as you face the house",
        );
    }
    if least - from < half {
        return refuse(
            "the baseline runs through the wall or its trench".to_owned(),
            "move both pegs out, so that the whole house lies on one side of the string",
        );
    }
    true
}

/// What near enough means, the builder's word before ours.
fn near(source: &Source<'_>, build: &Build, system: System) -> Vec<Near> {
    let names = || tolerances().iter().map(|one| one.name.as_str());
    for other in build.tolerances.iter().filter(|other| !names().any(|name| name == other.name.value)) {
        source.fault(
            other.name.span.clone(),
            &format!("rules.tolerances.{}", other.name.value),
            format!("there is no tolerance \"{}\"", other.name.value),
            nearest(names(), &other.name.value),
        );
    }
    let ours = |of: &'static tolerance::Tolerance| {
        let written = build.tolerances.iter().find(|one| one.name.value == of.name);
        let read = written.and_then(|one| one.within.as_ref()).and_then(|within| read(source, of, within, system));
        let mut within =
            read.unwrap_or_else(|| Known::assumed(of.within, Near::path(&of.name), of.origin, of.why.as_str()));
        within.path = Near::path(&of.name);
        Near { of, within }
    };
    tolerances().iter().map(ours).collect()
}

fn read(
    source: &Source<'_>,
    of: &tolerance::Tolerance,
    written: &Written<String>,
    system: System,
) -> Option<Known<Quantity>> {
    let value = match units::parse(&written.value, of.within.kind()) {
        Ok(value) => value,
        Err(misread) => {
            source.fault(written.span.clone(), &written.path, misread.message, misread.hint);
            return None;
        }
    };
    let (least, most) = (of.within.si()? * 0.01, of.within.si()? * 20.0);
    if value.si().is_some_and(|value| (least..=most).contains(&value)) {
        return known(Some(&Written {
            value,
            path: written.path.clone(),
            line: written.line,
            span: written.span.clone(),
        }));
    }
    source.fault(
        written.span.clone(),
        &written.path,
        format!("{} is no tolerance for {}", shown(value, system), of.measures),
        format!("write what you can keep to and measure; {} is usual", shown(of.within, system)),
    );
    None
}
