//! Places a mosaic on one face of the wall: how large it is, and what it is laid with.

use super::Spot;
use super::site::{self, Site};
use crate::build;
use crate::curve::{Cut, Form, Side};
use crate::house::place::known;
use crate::known::{Known, Origin};
use crate::units::{Area, Density, Length, Quantity, Ratio};

/// Tiles on one face.
#[derive(Clone, Debug)]
pub struct Mosaic {
    /// The face.
    pub side: Side,
    /// How large it is.
    pub surface: Surface,
    /// Thickness of its tiles.
    pub tile: Known<Length>,
    /// Thickness of the bed under them.
    pub bedding: Known<Length>,
    /// Share of the area that is joints.
    pub joints: Known<Ratio>,
    /// Density of tiles, bed and grout together.
    pub density: Known<Density>,
    /// What the tiles are bought as.
    pub of: String,
    /// What is under the tiles, and between them.
    pub laid_with: [LaidWith; 2],
}

/// How large a mosaic is.
#[derive(Clone, Debug)]
pub enum Surface {
    /// An area of any outline.
    Area(Known<Area>),
    /// A rectangle.
    Rectangle(Box<Rectangle>),
}

/// A rectangle of tiles.
#[derive(Clone, Debug)]
pub struct Rectangle {
    /// Where its middle is.
    pub spot: Spot,
    /// Level of its middle.
    pub level: Known<Length>,
    /// Width.
    pub width: Known<Length>,
    /// Height.
    pub height: Known<Length>,
    /// The patch of the face that it covers.
    pub cut: Cut,
}

/// What bed or grout is made of.
#[derive(Clone, Debug)]
pub enum LaidWith {
    /// A recipe.
    Recipe(String),
    /// A thing that is bought.
    Good(String),
}

impl LaidWith {
    /// The recipe, when it is one.
    #[must_use]
    pub fn recipe(&self) -> Option<&str> {
        match self {
            LaidWith::Recipe(name) => Some(name),
            LaidWith::Good(_) => None,
        }
    }

    /// The thing that is bought, when it is one.
    #[must_use]
    pub fn good(&self) -> Option<&str> {
        match self {
            LaidWith::Recipe(_) => None,
            LaidWith::Good(name) => Some(name),
        }
    }
}

pub(super) fn place(site: &Site<'_>, written: &build::BuiltIn) -> Option<Mosaic> {
    let (keys, name) = (&written.keys, &written.name.value);
    let laid = &keys.mosaic;
    fn or<T: Copy + PartialOrd + Into<Quantity>>(
        site: &Site<'_>,
        written: &Option<build::Written<T>>,
        (range, what): (std::ops::Range<T>, &str),
        usual: (T, Origin, &'static str, String),
    ) -> Option<Known<T>> {
        if written.is_some() {
            return site.within(written.as_ref(), range, what);
        }
        let (value, origin, why, path) = usual;
        Some(Known::assumed(value, path, origin, why))
    }
    let path = |key: &str| format!("built-in.{name}.{key}");
    let thin = || Length::mm(0.5)..Length::mm(80.0);
    let usual = (Length::mm(10.0), Origin::Judgement, "shards and tiles of about that thickness", path("tile"));
    let tile = or(site, &laid.tile, (thin(), "the thickness of a tile"), usual);
    let usual = (Length::mm(6.0), Origin::CommonPractice, "a bed pressed to about 6 mm", path("bedding"));
    let bedding = or(site, &laid.bedding, (thin(), "the thickness of a tile's bed"), usual);
    let shares = Ratio::ZERO..Ratio::percent(60.0);
    let usual = (Ratio::percent(15.0), Origin::Judgement, "joints between broken tiles", path("joints"));
    let joints = or(site, &laid.joints, (shares, "a share of joints"), usual);
    let densities = Density::kg_m3(500.0)..Density::kg_m3(3500.0);
    let usual = (Density::kg_m3(2000.0), Origin::Memory, "fired clay, mortar and grout", path("density"));
    let density = or(site, &laid.density, (densities, "the density of a mosaic"), usual);
    let laid_with = [(&laid.bedding_of, "tile-bedding"), (&laid.grout_of, "tile-grout")].map(|(of, own)| match of {
        Some(of) if site.earth.is_some_and(|earth| earth.recipe(&of.value).is_some()) => {
            LaidWith::Recipe(of.value.clone())
        }
        Some(of) => LaidWith::Good(of.value.clone()),
        None => LaidWith::Good(own.to_owned()),
    });
    let side = site::side(keys.side.as_ref(), Side::Inner);
    let surface = match &keys.area {
        Some(_) => {
            let areas = Area::m2(0.001)..Area::m2(100.0);
            Surface::Area(site.within(keys.area.as_ref(), areas, "the area of a mosaic")?)
        }
        None => rectangle(site, written)?,
    };
    let of = keys.of.as_ref().map_or_else(|| "tile".to_owned(), |of| of.value.clone());
    Some(Mosaic { side, surface, tile: tile?, bedding: bedding?, joints: joints?, density: density?, of, laid_with })
}

fn rectangle(site: &Site<'_>, written: &build::BuiltIn) -> Option<Surface> {
    let keys = &written.keys;
    let spot = site.spot(&keys.spot);
    let width = site.size(keys.width.as_ref(), "the width of a mosaic");
    let height = site.size(keys.height.as_ref(), "the height of a mosaic");
    let (spot, level, width, height) = (spot?, known(keys.spot.level.as_ref())?, width?, height?);
    let [half, up] = [&width, &height].map(|size| 0.5 * size.value.in_m());
    let middle = level.value.in_m();
    let form = Form::Rectangle { half, bottom: middle - up, top: middle + up };
    let cut = Cut::straight(spot.station, form);
    let at = keys.spot.level.as_ref();
    site.is_in_the_cob(&cut, [at, at], &written.name)
        .then(|| Surface::Rectangle(Box::new(Rectangle { spot, level, width, height, cut })))
}
