//! Places bottle bricks and vents: level cuts straight through the wall.

use super::Spot;
use super::cover::cover;
use super::site::Site;
use crate::build::{self, Written};
use crate::curve::{Cut, Form};
use crate::house::place::known;
use crate::known::{Known, Origin};
use crate::units::{Length, Ratio};

/// Bottle bricks, one by one or in a row.
#[derive(Clone, Debug)]
pub struct Bottles {
    /// Diameter of each.
    pub diameter: Known<Length>,
    /// Where each is, or the first of a row: place and level of its middle.
    pub places: Vec<(Spot, Known<Length>)>,
    /// How a row goes on from its first.
    pub row: Option<Row>,
    /// Bottles that may break, as a share of those that are needed.
    pub spare: Known<Ratio>,
    /// What is bought.
    pub of: String,
    /// What each cuts.
    pub cuts: Vec<Cut>,
}

/// How many stand in a row.
#[derive(Clone, Debug)]
pub struct Row {
    /// How many.
    pub count: Known<u64>,
    /// From the middle of one to the next, along the run.
    pub spacing: Known<Length>,
}

/// A hole for air through the wall.
#[derive(Clone, Debug)]
pub struct Vent {
    /// Where its middle is.
    pub spot: Spot,
    /// Level of its middle.
    pub level: Known<Length>,
    /// How large it is.
    pub size: VentSize,
    /// What it cuts.
    pub cut: Cut,
}

/// The size of a vent.
#[derive(Clone, Debug)]
pub enum VentSize {
    /// The diameter of a round one.
    Round(Known<Length>),
    /// Width and height of a rectangle.
    Rectangle(Known<Length>, Known<Length>),
}

/// The most that one row holds: more are a slip of the pen.
const MOST: u64 = 500;

pub(super) fn bottles(site: &Site<'_>, written: &build::BuiltIn) -> Option<Bottles> {
    let keys = &written.keys;
    let path = format!("built-in.{}.diameter", written.name.value);
    let diameter = match &keys.diameter {
        Some(_) => site.size(keys.diameter.as_ref(), "the diameter of a bottle brick")?,
        None => Known::assumed(Length::mm(90.0), path, Origin::Memory, "two bottles end to end, as thick as one"),
    };
    let of = keys.of.as_ref().map_or_else(|| "bottle-brick".to_owned(), |of| of.value.clone());
    let spare = match &keys.spare {
        Some(_) => site.within(keys.spare.as_ref(), Ratio::ZERO..Ratio::percent(200.0), "a share of bottles to break"),
        None => {
            let path = format!("built-in.{}.spare", written.name.value);
            Some(Known::assumed(Ratio::percent(10.0), path, Origin::Judgement, "some bottles break when they are cut"))
        }
    };
    let is_row = keys.spot.run.is_some() || keys.spot.along.is_some();
    if !is_row && keys.at.is_empty() {
        let hint = "write at = [{ run = \"south\", along = \"1 m\", level = \"1.2 m\" }]";
        // A row of which a key is missing was told already.
        if !site.source.is_faulty(&written.name.path) {
            site.refuse::<String>(None, &written.name, "nothing says where the bottle bricks are", hint);
        }
        return None;
    }
    let spots: Vec<&build::Spot> = if is_row { vec![&keys.spot] } else { keys.at.iter().collect() };
    let placed = spots.iter().map(|spot| Some((site.spot(spot)?, known(spot.level.as_ref())?)));
    let places: Vec<(Spot, Known<Length>)> = placed.collect::<Option<_>>()?;
    let row = if is_row { Some(row(site, &written.name, &keys.count, &keys.spacing)?) } else { None };
    let stations = match &row {
        Some(row) => in_a_row(site, &places[0].0, row, &written.name, keys.spacing.as_ref())?,
        None => places.iter().map(|(spot, _)| spot.clone()).collect(),
    };
    let radius = 0.5 * diameter.value.in_m();
    let mut cuts = Vec::new();
    for (place, spot) in stations.iter().enumerate() {
        let at = if is_row { 0 } else { place };
        let middle = places[at].1.value.in_m();
        let cut = Cut::straight(spot.station, Form::Round { radius, middle });
        let level = spots[at].level.as_ref();
        cuts.push(goes_through(site, cut, level, &written.name, "bottle brick").then_some(cut)?);
    }
    Some(Bottles { diameter, places, row, spare: spare?, of, cuts })
}

/// How many stand in a row and how far apart.
pub(super) fn row(
    site: &Site<'_>,
    name: &Written<String>,
    count: &Option<Written<u64>>,
    spacing: &Option<Written<Length>>,
) -> Option<Row> {
    let count = count.as_ref()?;
    if !(1..=MOST).contains(&count.value) {
        let message = format!("{} is not a number of things in one row", count.value);
        site.refuse(Some(count), name, message, format!("write a number from 1 to {MOST}"));
        return None;
    }
    let spacing = site.size(spacing.as_ref(), "a distance from one to the next")?;
    Some(Row { count: known(Some(count))?, spacing })
}

/// The places of a row, from its first on along the run; a fault where the run ends before it does.
pub(super) fn in_a_row(
    site: &Site<'_>,
    first: &Spot,
    row: &Row,
    name: &Written<String>,
    spacing: Option<&Written<Length>>,
) -> Option<Vec<Spot>> {
    let place = |number: u64| {
        let along = first.along.value + row.spacing.value * number as f64;
        let station = site.wall.line.station(first.run, along.in_m())?;
        Some(Spot { run: first.run, along: Known { value: along, ..first.along.clone() }, station })
    };
    let spots: Vec<Spot> = (0..row.count.value).map_while(place).collect();
    if spots.len() as u64 == row.count.value {
        return Some(spots);
    }
    let run = &site.wall.points[first.run].name;
    let whole = site.shown_m(site.wall.line.runs()[first.run].whole.length());
    let message =
        format!("only {} of {} fit on the run from `{run}`, which is {whole} long", spots.len(), row.count.value);
    site.refuse(spacing, name, message, "write a smaller count or spacing, or begin nearer to the start of the run");
    None
}

pub(super) fn vent(site: &Site<'_>, written: &build::BuiltIn) -> Option<Vent> {
    let keys = &written.keys;
    let diameter = site.size(keys.diameter.as_ref(), "the diameter of a vent");
    let width = site.size(keys.width.as_ref(), "the width of a vent");
    let height = site.size(keys.height.as_ref(), "the height of a vent");
    let spot = site.spot(&keys.spot)?;
    let level = known(keys.spot.level.as_ref())?;
    let middle = level.value.in_m();
    let (form, size) = match (diameter, width, height) {
        (Some(diameter), ..) => {
            (Form::Round { radius: 0.5 * diameter.value.in_m(), middle }, VentSize::Round(diameter))
        }
        (None, Some(width), Some(height)) => {
            let [half, up] = [&width, &height].map(|size| 0.5 * size.value.in_m());
            let form = Form::Rectangle { half, bottom: middle - up, top: middle + up };
            (form, VentSize::Rectangle(width, height))
        }
        _ => return None,
    };
    let cut = Cut::straight(spot.station, form);
    goes_through(site, cut, keys.spot.level.as_ref(), &written.name, "vent").then_some(Vent { spot, level, size, cut })
}

/// Whether a cut lies in the cob and meets both faces.
fn goes_through(
    site: &Site<'_>,
    cut: Cut,
    level: Option<&Written<Length>>,
    name: &Written<String>,
    what: &str,
) -> bool {
    if !site.is_in_the_cob(&cut, [level, level], name) {
        return false;
    }
    let meets = cover(&site.shape, &cut).is_some();
    if !meets {
        let message = format!("the wall turns away from this {what}: a side of it would never meet the face");
        site.refuse(level, name, message, "make it narrower, or put it where the wall is straighter");
    }
    meets
}
