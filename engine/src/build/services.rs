//! The tables of services: `[services.NAME]`.

use super::built_in::Spot;
use super::reader::Table;
use super::skin::Face;
use super::source::Written;
use crate::units::{Kind, Length, Slope};

/// What a service carries.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ServiceKind {
    /// Water under pressure.
    Water,
    /// Waste water that runs off by itself.
    Drain,
    /// Cables.
    Conduit,
    /// Smoke.
    Flue,
    /// Air.
    Vent,
}

impl ServiceKind {
    /// Each with the word of the build file.
    pub const WORDS: [(&'static str, ServiceKind); 5] = [
        ("water", ServiceKind::Water),
        ("drain", ServiceKind::Drain),
        ("conduit", ServiceKind::Conduit),
        ("flue", ServiceKind::Flue),
        ("vent", ServiceKind::Vent),
    ];

    /// The word of the build file.
    #[must_use]
    pub fn word(self) -> &'static str {
        Self::WORDS.iter().find(|(_, kind)| *kind == self).map_or("", |(word, _)| word)
    }
}

/// What a flue goes through.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Passage {
    /// The wall.
    Wall,
    /// The roof.
    Roof,
}

/// `[services.NAME]`
#[derive(Clone, Debug)]
pub struct Service {
    /// Its name.
    pub name: Written<String>,
    /// What it carries.
    pub kind: Option<Written<ServiceKind>>,
    /// What a flue goes through.
    pub through: Option<Written<Passage>>,
    /// Where it is on the wall.
    pub spot: Spot,
    /// Where it goes through the roof, in plan.
    pub at: Option<Written<[Written<Length>; 2]>>,
    /// Level to which a conduit rises in the wall.
    pub to_level: Option<Written<Length>>,
    /// Diameter outside.
    pub diameter: Option<Written<Length>>,
    /// Diameter of the sleeve that it passes in.
    pub sleeve: Option<Written<Length>>,
    /// How much wider than the service a sleeve is that is not written.
    pub play: Option<Written<Length>>,
    /// Fall of a drain.
    pub slope: Option<Written<Slope>>,
    /// Levels of the boxes of a conduit.
    pub boxes: Vec<Written<Length>>,
    /// The face that the boxes are in.
    pub side: Option<Written<Face>>,
    /// From a flue to what burns, by its listing.
    pub clearance: Option<Written<Length>>,
    /// What its sleeve, or a conduit, is bought as.
    pub of: Option<Written<String>>,
}

/// Every key of every kind, for a table whose kind cannot be read: none is blamed.
const ALL: [&str; 14] = [
    "through",
    "run",
    "along",
    "level",
    "at",
    "to-level",
    "diameter",
    "sleeve",
    "play",
    "slope",
    "boxes",
    "side",
    "clearance",
    "of",
];

pub(super) fn service(name: Written<String>, mut table: Table<'_, '_>) -> Service {
    let kind = table.needed_choice("kind", &ServiceKind::WORDS);
    let mut service = Service {
        name,
        kind,
        through: None,
        spot: Spot::default(),
        at: None,
        to_level: None,
        diameter: None,
        sleeve: None,
        play: None,
        slope: None,
        boxes: Vec::new(),
        side: None,
        clearance: None,
        of: None,
    };
    let Some(kind) = service.kind.as_ref().map(|kind| kind.value) else {
        ALL.into_iter().for_each(|key| {
            table.unread(key);
        });
        table.finish();
        return service;
    };
    service.diameter = table.needed_like("diameter", Kind::Length, "32 mm");
    if kind == ServiceKind::Flue {
        service.through = table.choice("through", &[("wall", Passage::Wall), ("roof", Passage::Roof)]);
        service.clearance = table.quantity("clearance", Kind::Length);
    }
    if service.through.as_ref().is_some_and(|through| through.value == Passage::Roof) {
        service.at = table.point("at");
    } else {
        service.spot = super::built_in::spot(&mut table);
        on_the_wall(kind, &mut table, &mut service);
    }
    table.finish();
    service
}

fn on_the_wall(kind: ServiceKind, table: &mut Table<'_, '_>, service: &mut Service) {
    service.of = table.text("of");
    if kind == ServiceKind::Conduit && table.has("to-level") {
        service.to_level = table.quantity("to-level", Kind::Length);
        service.boxes = table.lengths("boxes");
        service.side = super::built_in::side(table);
    } else {
        service.sleeve = table.quantity("sleeve", Kind::Length);
        if kind != ServiceKind::Flue {
            service.play = table.quantity("play", Kind::Length);
        }
    }
    if kind == ServiceKind::Drain {
        service.slope = table.quantity("slope", Kind::Slope);
    }
}
