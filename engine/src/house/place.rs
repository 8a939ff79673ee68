//! From what was written to a house with nothing missing: fills in what was not, places every part, refuses what cannot be.

use std::ops::Range;

use super::{
    About, House, Stone, Wall, batches, bricks, built_in, earth, floor as floor_work, gap, gauge, goods, gradings,
    jars, layers, levels, lifts, limits, line, mixes, openings, panels, planks, profile, roof, samples, sanding,
    set_out, shelter, site,
};
use crate::build::{Build, Source, Written};
use crate::curve::Along;
use crate::known::{Known, Origin};
use crate::rulebook;
use crate::units::{Angle, Density, Fineness, Length, Quantity, Ratio, Slope, System, Volume};

/// Stands for a value where the house takes something that the build does not say and nothing counts.
pub const OPEN: &str = "open";

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
    let earth = earth::place(source, build, system);
    let cob = layers::cob(source, build, earth.as_ref(), &mut assumed);
    let jars = jars::place(source, build, earth.as_ref(), system);
    let limits = limits::place(source, build, earth.as_ref(), system);
    let gradings = gradings::place(source, build, earth.as_ref(), system);
    let sandings = sanding::place(source, build, earth.as_ref(), (&jars, &gradings), system);
    let mixes = mixes::place(source, build, earth.as_ref(), system);
    let bars = samples::bars(source, build, earth.as_ref(), system);
    let erosion = samples::erosion(source, build, earth.as_ref(), system);
    let bricks = bricks::place(source, build, earth.as_ref(), cob.as_deref(), system);
    let skin = layers::skin(source, build, earth.as_ref(), &mut assumed, system);
    let panels = panels::place(source, build, (earth.as_ref(), &skin), system);
    let floor = layers::floor(source, build, earth.as_ref(), system);
    let oil = floor_work::oil(source, build, system);
    let (vehicles, goods) = goods::place(source, build, earth.as_ref(), system);
    let wall = wall(source, build, cob, system);
    let batches = batches::place(source, build, (earth.as_ref(), wall.as_ref()), system);
    let ground = levels::levels(source, build, wall.as_ref(), system);
    let wall = wall?;
    if !wall.line.is_closed() {
        needs_no_room(source, build);
    }
    let openings = openings::place(source, build, &wall, &ground.1, system);
    let against = (&wall, &openings[..], (&ground.0, &ground.1));
    let bays = floor_work::bays(source, build, &wall, &openings, system);
    let on_it = built_in::place(source, build, against, earth.as_ref(), &mut assumed, system);
    let (trench, drain) = levels::water(source, build, &wall, &ground.0, system);
    built_in::ovens_are_clear(source, build, (&wall, &on_it.built_in, trench.as_ref()), system);
    let beam = on_it.bond_beam.as_ref().map_or(Length::ZERO, |beam| beam.height.value);
    let are_wood = build.wall.bond_beam.as_ref().is_none_or(|beam| planks::are_wood(source, &beam.planks, system));
    let roof = if wall.line.is_closed() { roof::place(source, build, &wall, (beam, are_wood), system) } else { None };
    if roof.as_ref().is_some_and(|roof| roof.deck.is_some())
        && build.roof.as_ref().is_some_and(|roof| roof.deck.bedding.is_none())
    {
        assumed.push(("roof.deck.bedding", "ruled", "boards follow the twist of their bay, so shims stay low"));
    }
    let set_out = set_out::place(source, build, &wall, trench.as_ref(), system)?;
    let gap = gap::place(source, build, (&wall, roof.as_ref()), earth.as_ref(), system);
    if roof.as_ref().is_some_and(|roof| roof.is_open(&wall, gap.is_some())) {
        let why = "what bears the rafters over a level wall on their high side, and what closes the wall there, is not counted \
                   yet: have it drawn and priced, or let the top of the wall rise with them";
        assumed.push(("roof.rise", OPEN, why));
    }
    let site = site::place(source, build, &wall, (trench.as_ref(), drain.as_ref()), system);
    let house = House {
        about: about(build),
        system,
        rulebooks,
        assumed,
        north: known(build.site.north.as_ref()).unwrap_or_else(|| {
            Known::assumed(Angle::deg(90.0), "site.north", Origin::Judgement, "north lies along the y axis of the plan")
        }),
        wall,
        openings,
        built_in: on_it.built_in,
        bond_beam: on_it.bond_beam,
        gap,
        anchors: on_it.anchors,
        ground: ground.0,
        floor_level: ground.1,
        spoil: levels::spoil(source, build, system),
        trench,
        drain,
        set_out,
        earth,
        bricks,
        jars,
        limits,
        gradings,
        mixes,
        panels,
        batches,
        bars,
        erosion,
        sandings,
        floor,
        bays,
        oil,
        skin,
        roof,
        site,
        gauge: gauge::place(source, &build.wall.gauge, system),
        cover: shelter::cover(source, build, system),
        platform: shelter::platform(source, build, system),
        heap: goods::heap(source, build, system),
        vehicles,
        goods,
        crew: [
            ("lead builders", &build.crew.leads),
            ("helpers", &build.crew.helpers),
            ("learners", &build.crew.learners),
        ]
        .into_iter()
        .filter_map(|(title, count)| Some((title, known(count.as_ref())?)))
        .collect(),
        placing: placing(source, build, system),
        dates: [
            ("first day of the course", &build.dates.start),
            ("last day of the course", &build.dates.course_over),
            ("weather-tight by", &build.dates.weather_tight),
            ("ready for use by", &build.dates.ready_for_use),
        ]
        .into_iter()
        .filter_map(|(title, date)| Some((title, known(date.as_ref())?)))
        .collect(),
    };
    // What a roof that was refused would need is not told to be unneeded.
    if build.roof.is_some() == house.roof.is_some() {
        goods::are_needed(source, build, &house);
    }
    source.is_clean().then_some(house)
}

fn placing(source: &Source<'_>, build: &Build, system: System) -> Known<Volume> {
    let range = Volume::m3(0.01)..Volume::m3(2.0);
    let written = within(source, build.crew.placing.as_ref(), range, "the cob that one person places in a day", system);
    written.unwrap_or_else(|| {
        let why = "mixing and carrying left out, a learner among others; count the batches of a day to know yours";
        Known::assumed(Volume::m3(0.15), "crew.placing", Origin::CommonPractice, why)
    })
}

/// What needs a wall that goes round is refused where the wall is open.
fn needs_no_room(source: &Source<'_>, build: &Build) {
    let hint = "leave it out, or close the wall: ends = \"closed\"";
    if let Some(layer) = build.floor.layers.first() {
        let path = format!("floor.layers.{}", layer.name.value);
        source.fault(
            layer.name.span.clone(),
            &path,
            "a floor needs a wall that goes round, and this one is open",
            hint,
        );
    }
    if let Some(roof) = &build.roof {
        let at = roof.kind.as_ref().map_or(0..0, |kind| kind.span.clone());
        source.fault(at, "roof", "a roof needs a wall that goes round, and this one is open", hint);
    }
    if let Some(poles) = &build.poles {
        let at = poles.diameter.as_ref().map_or(0..0, |diameter| diameter.span.clone());
        source.fault(at, "poles", "the poles of a roof need a wall that goes round, and this one is open", hint);
    }
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
        currency: goods::currency(build),
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
    let names: Vec<&str> = rulebook::SHIPPED.iter().map(|book| book.name).collect();
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

fn wall(source: &Source<'_>, build: &Build, cob: Option<String>, system: System) -> Option<Wall> {
    let written = &build.wall;
    let within = |value: &Option<Written<Length>>, range: Range<f64>, what: &str| {
        within(source, value.as_ref(), Length::m(range.start)..Length::m(range.end), what, system)
    };
    let thickness = profile::own(source, written.thickness.as_ref(), profile::THICKNESS, system);
    let height = profile::own(source, written.height.as_ref(), profile::HEIGHT, system);
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
    let slope = profile::slope(source, build, &points, system);
    if slope.is_none() && build.wall.top.is_some() {
        return None;
    }
    let top = profile::top(profile::along(&points, &line, height.value, 1), slope.as_ref(), &points);
    let highest = profile::highest(&line, &top, &height);
    let lifts = lifts::place(source, build, &thickness, &highest, system);
    let wall = Wall {
        cob,
        trim: layers::trim(source, build, system),
        stone: stone(source, build, system),
        lifts,
        thicknesses: profile::along(&points, &line, thickness.value, 0),
        stem_widths: Along::even(stem_width.value.in_m()),
        top,
        slope,
        points,
        line,
        thickness,
        height,
        batter_inside,
        batter_outside,
        stem_height,
        stem_width,
    };
    if !profile::stands(source, build, &wall, system) {
        return None;
    }
    let [_, widest] = wall.thicknesses.range();
    let body = if wall.stem_width.value.in_m() > widest {
        ("stem wall", wall.stem_width.value)
    } else {
        ("wall", Length::m(widest))
    };
    line::faces_are_whole(source, build, (&wall.points, &wall.line), body, system).then_some(wall)
}

fn stone(source: &Source<'_>, build: &Build, system: System) -> Stone {
    let written = &build.wall.stem;
    let shares = |from: f64, to: f64| Ratio::percent(from)..Ratio::percent(to);
    let what = "the solid share of a stone wall";
    let solid = within(source, written.solid.as_ref(), shares(40.0, 100.0), what, system);
    let what = "the share of hearting in a stone wall";
    let hearting = within(source, written.hearting.as_ref(), shares(0.0, 60.0), what, system);
    let spacings = Length::mm(300.0)..Length::m(5.0);
    let through = within(source, written.through.as_ref(), spacings, "a spacing of through stones", system);
    let densities = Density::kg_m3(1500.0)..Density::kg_m3(3500.0);
    let density = within(source, written.density.as_ref(), densities, "the density of stone", system);
    Stone {
        solid: solid.unwrap_or_else(|| {
            let why = "a wall laid tight is about three quarters stone";
            Known::assumed(Ratio::percent(75.0), "wall.stem.solid", Origin::CommonPractice, why)
        }),
        hearting: hearting.unwrap_or_else(|| {
            let why = "about a quarter of the stone is packed between the faces";
            Known::assumed(Ratio::percent(25.0), "wall.stem.hearting", Origin::CommonPractice, why)
        }),
        through: through.unwrap_or_else(|| {
            let why = "one through stone to about 1.5 m, half-way up";
            Known::assumed(Length::m(1.5), "wall.stem.through", Origin::CommonPractice, why)
        }),
        density: density.unwrap_or_else(|| {
            let why = "between light sandstone and granite";
            Known::assumed(Density::kg_m3(2500.0), "wall.stem.density", Origin::Memory, why)
        }),
    }
}

/// A written value that lies in a range that is not a slip of the pen; a fault otherwise.
pub(super) fn within<T: Copy + PartialOrd + Into<Quantity>>(
    source: &Source<'_>,
    written: Option<&Written<T>>,
    range: Range<T>,
    what: &str,
    system: System,
) -> Option<Known<T>> {
    let written = written?;
    if range.contains(&written.value) {
        return known(Some(written));
    }
    let kind = range.start.into().kind().name();
    source.fault(
        written.span.clone(),
        &written.path,
        format!("{} is not {what}", shown(written.value, system)),
        format!("write {kind} from {} to {}", shown(range.start, system), shown(range.end, system)),
    );
    None
}

/// A quantity as messages show it.
pub(super) fn shown(quantity: impl Into<Quantity>, system: System) -> String {
    quantity.into().shown(system, Fineness::SetOut)
}

/// A hint with the name nearest to one that is not there.
pub(super) fn nearest<'a>(names: impl Iterator<Item = &'a str>, word: &str) -> String {
    let nearest = names.min_by_key(|name| strsim::damerau_levenshtein(name, word));
    nearest.map_or_else(|| "none is written yet".to_owned(), |name| format!("nearest is \"{name}\""))
}
