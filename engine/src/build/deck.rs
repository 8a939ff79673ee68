//! `[roof.deck]`: how the deck lies on its poles, what it is cut from, what holds it, where its water goes.

use super::reader::Table;
use super::source::Written;
use crate::units::{Force, Kind, Length, Mass, Pressure, Volume};

/// How a deck lies on its poles.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DeckBedding {
    /// On the twisted surface between the poles.
    Ruled,
    /// Flat in each bay.
    Flat,
}

/// `[roof.deck]`
#[derive(Clone, Debug, Default)]
pub struct Deck {
    /// Where the table stands, when it is written.
    pub at: Option<std::ops::Range<usize>>,
    /// How it lies.
    pub bedding: Option<Written<DeckBedding>>,
    /// Width that one board covers.
    pub width: Option<Written<Length>>,
    /// What a saw cut takes.
    pub kerf: Option<Written<Length>>,
    /// Lengths of boards that are sold.
    pub stock: Vec<Written<Length>>,
    /// The least height of a shim.
    pub shim: Option<Written<Length>>,
    /// Width of a pole's top that carries shims.
    pub bearing: Option<Written<Length>>,
    /// From station to station along a pole.
    pub spacing: Option<Written<Length>>,
    /// Radius at which the deck ends round the eye.
    pub edge: Option<Written<Length>>,
    /// What holds the boards.
    pub held: DeckHeld,
    /// Heights of the upstand at the eye and at the edge.
    pub upstand: [Option<Written<Length>>; 2],
    /// From one depth peg to the next.
    pub pegs: Option<Written<Length>>,
    /// What a bucket holds as it is hoisted.
    pub bucket: Option<Written<Volume>>,
    /// The cover of the eye.
    pub cover: DeckCover,
    /// Downspouts by name, each with the pole after which it stands.
    pub downspouts: Vec<(Written<String>, Option<Written<u64>>)>,
}

/// What holds the boards of a deck down.
#[derive(Clone, Debug, Default)]
pub struct DeckHeld {
    /// What one fastener holds against being pulled out.
    pub withdrawal: Option<Written<Force>>,
    /// From one row of fasteners to the other across a board.
    pub rows: Option<Written<Length>>,
    /// Shear modulus of the boards.
    pub shear: Option<Written<Pressure>>,
    /// Suction over the deck and push under it for each pressure of the gust.
    pub suction: Option<Written<f64>>,
}

/// `[roof.deck.cover]`: what lies over the eye while it is a hole.
#[derive(Clone, Debug, Default)]
pub struct DeckCover {
    /// How far it lies over the deck all round.
    pub lap: Option<Written<Length>>,
    /// People on it at any one time.
    pub people: Option<Written<u64>>,
    /// Mass of each.
    pub each: Option<Written<Mass>>,
    /// Mass of tools and material on it.
    pub things: Option<Written<Mass>>,
    /// What it carries.
    pub carries: Option<Written<Force>>,
}

pub(super) fn deck(roof: &mut Table<'_, '_>) -> Deck {
    let Some(mut table) = roof.table("deck") else { return Deck::default() };
    let mut deck = Deck {
        at: Some(table.span.clone()),
        bedding: table.choice("bedding", &[("ruled", DeckBedding::Ruled), ("flat", DeckBedding::Flat)]),
        stock: table.lengths("stock"),
        bucket: table.quantity("bucket", Kind::Volume),
        cover: cover(&mut table),
        downspouts: downspouts(&mut table),
        held: DeckHeld {
            withdrawal: table.quantity("withdrawal", Kind::Force),
            rows: table.quantity("rows", Kind::Length),
            shear: table.quantity("shear", Kind::Pressure),
            suction: table.quantity("suction", Kind::Number),
        },
        ..Deck::default()
    };
    let lengths = ["width", "kerf", "shim", "bearing", "spacing", "edge", "pegs"];
    [deck.width, deck.kerf, deck.shim, deck.bearing, deck.spacing, deck.edge, deck.pegs] =
        lengths.map(|key| table.quantity(key, Kind::Length));
    if let Some(mut upstand) = table.table("upstand") {
        deck.upstand = ["eye", "edge"].map(|key| upstand.quantity(key, Kind::Length));
        upstand.finish();
    }
    table.finish();
    deck
}

fn cover(deck: &mut Table<'_, '_>) -> DeckCover {
    let Some(mut table) = deck.table("cover") else { return DeckCover::default() };
    let read = DeckCover {
        lap: table.quantity("lap", Kind::Length),
        people: table.count("people"),
        each: table.quantity("each", Kind::Mass),
        things: table.quantity("things", Kind::Mass),
        carries: table.quantity("carries", Kind::Force),
    };
    table.finish();
    read
}

fn downspouts(deck: &mut Table<'_, '_>) -> Vec<(Written<String>, Option<Written<u64>>)> {
    let Some(mut table) = deck.table("downspouts") else { return Vec::new() };
    let read = |(name, mut table): (Written<String>, Table<'_, '_>)| {
        let pole = table.needed_count("pole", 3);
        table.finish();
        (name, pole)
    };
    table.named_tables().into_iter().map(read).collect()
}
