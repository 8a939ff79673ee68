//! The deck on the measured poles of a ring with nothing missing: its surface, shims, boards, eave and downspouts.

use super::Wall;
use super::deck_told::{self, Cover, Held};
use super::place::{shown, within};
use super::ring::{CHORD, Ring};
use crate::build::{self, DeckBedding, Source, Written};
use crate::known::{Known, Origin};
use crate::roof::deck::{
    self, Bedding, Board, Catchment, Drainage, Edge, EdgePoint, Frame, Nesting, Rafter, ShimTable,
};
use crate::roof::poles::Set;
use crate::units::{Length, System, Volume};
use crate::wall;

/// The deck of a roof.
#[derive(Clone, Debug)]
pub struct Deck {
    /// What its underside follows.
    pub bedding: DeckBedding,
    /// Width that one board covers.
    pub width: Known<Length>,
    /// What a saw cut takes.
    pub kerf: Known<Length>,
    /// Lengths of boards that are sold.
    pub stock: Vec<Known<Length>>,
    /// The least height of a shim.
    pub shim: Known<Length>,
    /// Width of a pole's top that carries shims, both sides together.
    pub bearing: Known<Length>,
    /// From station to station along a pole.
    pub spacing: Known<Length>,
    /// Radius at which the deck ends round the eye.
    pub edge: Known<Length>,
    /// What holds the boards down.
    pub held: Held,
    /// Heights of the upstand at the eye and at the edge, where they are written.
    pub upstand: [Option<Known<Length>>; 2],
    /// From one depth peg to the next.
    pub pegs: Known<Length>,
    /// What a bucket holds as it is hoisted.
    pub bucket: Known<Volume>,
    /// What lies over the eye while it is a hole.
    pub cover: Cover,
    /// Downspouts: name, and the pole after which each stands half-way to the next.
    pub downspouts: Vec<(String, Known<u64>)>,
    /// The tops of the poles between eave and eye.
    pub frame: Frame,
    /// Shims.
    pub shims: ShimTable,
    /// Boards: the bay of each, from 0, and the board.
    pub boards: Vec<(usize, Board)>,
    /// What they are cut from; none where no stock that is assumed is long enough.
    pub cut: Option<Nesting>,
    /// Places of the eave.
    pub eave: Vec<EdgePoint>,
    /// Where its water goes; none without downspouts.
    pub water: Option<Drainage>,
}

impl Deck {
    /// The boards alone.
    #[must_use]
    pub fn boards_alone(&self) -> Vec<Board> {
        self.boards.iter().map(|(_, board)| *board).collect()
    }

    /// What runs to a downspout, by its place among them.
    #[must_use]
    pub fn catchment(&self, place: usize) -> Option<&Catchment> {
        self.water.as_ref()?.catchments.get(place)
    }

    /// Whether every highest and lowest shim lies at a cut, as on a flat deck: then stations between move none of them.
    #[must_use]
    pub fn shims_are_ruled_by_cuts(&self) -> bool {
        self.shims.rafters.iter().all(|stations| {
            let ends = [stations.first(), stations.last()];
            (0..2).all(|side| {
                let shim = |station: &deck::Station| station.sides[side];
                let at_ends: Vec<deck::Shim> = ends.iter().filter_map(|station| shim((*station)?)).collect();
                let high = at_ends.iter().map(deck::Shim::height).fold(Length::ZERO, Length::max);
                let low = |shim: &deck::Shim| shim.inner.min(shim.outer);
                let lowest = at_ends.iter().map(low).fold(Length::m(f64::INFINITY), Length::min);
                stations.iter().filter_map(shim).all(|shim| shim.height() <= high && low(&shim) >= lowest)
            })
        })
    }
}

/// What the roof says of its deck.
pub(super) struct Under<'a> {
    pub ring: &'a Ring,
    pub eye: &'a Known<Length>,
    pub overhang: Length,
}

pub(super) fn place(
    source: &Source<'_>,
    written: &build::Roof,
    wall: &Wall,
    under: &Under<'_>,
    system: System,
) -> Option<Deck> {
    let keys = &written.deck;
    let length = |written: &Option<Written<Length>>, ends: [f64; 2], what: &str, or: Known<Length>| {
        length(source, written, ends, what, system).unwrap_or(or)
    };
    let assumed = |mm: f64, path: &str, why| Known::assumed(Length::mm(mm), path, Origin::Judgement, why);
    let width = assumed(120.0, "roof.deck.width", "a board that still lies down on a twisted bay");
    let shim = assumed(5.0, "roof.deck.shim", "thinner shims split when they are nailed");
    let bearing = assumed(80.0, "roof.deck.bearing", "a flat of two thumbs on either side of a pole's top line");
    let spacing = assumed(500.0, "roof.deck.spacing", "a shim block under every fourth board");
    let edge = Known::assumed(
        under.eye.value + Length::mm(150.0),
        "roof.deck.edge",
        Origin::Judgement,
        "the eye and a hand beside it: nearer in, poles lie over each other",
    );
    let edge = length(&keys.edge, [100.0, 6000.0], "the edge of a deck round the eye", edge.following("roof.eye"));
    let bucket = bucket(source, keys, system);
    let upstand =
        |place: usize| self::length(source, &keys.upstand[place], [0.0, 600.0], "the height of an upstand", system);
    let count = under.ring.solved.sets.len();
    let in_ring = format!("in a ring of {count}");
    let loose = Loose {
        bedding: keys.bedding.as_ref().map_or(DeckBedding::Ruled, |bedding| bedding.value),
        width: length(&keys.width, [40.0, 400.0], "the width of a deck board", width),
        kerf: kerf(source, keys, system),
        shim: length(&keys.shim, [0.0, 100.0], "the least height of a shim", shim),
        bearing: length(&keys.bearing, [20.0, 300.0], "the width of a pole's top that carries shims", bearing),
        spacing: length(&keys.spacing, [100.0, 2000.0], "a spacing of shims", spacing),
        edge,
    };
    // Every slip is told at once: what needs nothing else is read before anything is laid.
    let held = deck_told::held(source, &keys.held, system);
    let cover = deck_told::cover(source, &keys.cover, system);
    let upstand = [upstand(0), upstand(1)];
    let pegs = pegs(source, keys, system);
    let (stock, downspouts) = (stock(source, keys, system), downspouts(source, keys, (count, "pole", &in_ring)));
    let (stock, downspouts) = (stock?, downspouts?);
    let frame = frame(source, written, wall, under, &loose.edge)?;
    let boards: Vec<(usize, Board)> = frame
        .bays()
        .iter()
        .enumerate()
        .flat_map(|(number, bay)| {
            deck::courses(bay, loose.width.value).boards.into_iter().map(move |board| (number, board))
        })
        .map(|(number, board)| match loose.bedding {
            DeckBedding::Ruled => (number, board),
            DeckBedding::Flat => (number, Board { twist_on_a_metre: 0.0, ..board }),
        })
        .collect();
    if !rows_fit(source, keys, &held, loose.width.value, system) {
        return None;
    }
    let pieces: Vec<Length> = boards.iter().map(|(_, board)| board.length).collect();
    let cut = cut(source, keys, (&pieces, &stock), loose.kerf.value, system)?;
    let deck = match loose.bedding {
        DeckBedding::Ruled => deck::Deck::Ruled,
        DeckBedding::Flat => deck::Deck::FlatBays,
    };
    let (spacing, bearing, least) = (loose.spacing.value, loose.bearing.value, loose.shim.value);
    let shims = deck::shims(&frame, &Bedding { deck, spacing, bearing, least });
    let eave = deck::edge_points(&frame);
    let outlets: Vec<usize> = downspouts.iter().map(|(_, pole)| outlet(pole.value)).collect();
    let water = (!outlets.is_empty()).then(|| deck::drainage(&eave, true, &outlets));
    let Loose { bedding, width, kerf, shim, bearing, spacing, edge } = loose;
    Some(Deck {
        bedding,
        width,
        kerf,
        stock,
        shim,
        bearing,
        spacing,
        edge,
        held,
        upstand,
        pegs,
        bucket,
        cover,
        downspouts,
        frame,
        shims,
        boards,
        cut,
        eave,
        water,
    })
}

pub(super) fn kerf(source: &Source<'_>, keys: &build::Deck, system: System) -> Known<Length> {
    length(source, &keys.kerf, [0.0, 20.0], "a saw cut", system).unwrap_or_else(|| {
        Known::assumed(Length::mm(4.0), "roof.deck.kerf", Origin::Judgement, "a hand-held circular saw")
    })
}

pub(super) fn pegs(source: &Source<'_>, keys: &build::Deck, system: System) -> Known<Length> {
    length(source, &keys.pegs, [200.0, 5000.0], "a spacing of depth pegs", system).unwrap_or_else(|| {
        let why = "a straightedge reaches from peg to peg";
        Known::assumed(Length::mm(1500.0), "roof.deck.pegs", Origin::Judgement, why)
    })
}

pub(super) fn bucket(source: &Source<'_>, keys: &build::Deck, system: System) -> Known<Volume> {
    let range = Volume::litres(1.0)..Volume::litres(60.0);
    within(source, keys.bucket.as_ref(), range, "a bucket", system).unwrap_or_else(|| {
        let why = "a bucket not quite full, so that nothing falls from the rope";
        Known::assumed(Volume::litres(10.0), "roof.deck.bucket", Origin::Judgement, why)
    })
}

/// A written length between two limits in millimetres.
pub(super) fn length(
    source: &Source<'_>,
    written: &Option<Written<Length>>,
    [from, to]: [f64; 2],
    what: &str,
    system: System,
) -> Option<Known<Length>> {
    within(source, written.as_ref(), Length::mm(from)..Length::mm(to), what, system)
}

/// What is written of a deck before it is laid.
struct Loose {
    bedding: DeckBedding,
    width: Known<Length>,
    kerf: Known<Length>,
    shim: Known<Length>,
    bearing: Known<Length>,
    spacing: Known<Length>,
    edge: Known<Length>,
}

fn rows_fit(source: &Source<'_>, keys: &build::Deck, held: &Held, width: Length, system: System) -> bool {
    let Some(rows) = &keys.held.rows else { return true };
    if held.rows.value < width {
        return true;
    }
    let message = format!(
        "rows of fasteners {} apart do not fit across a board of {}",
        shown(held.rows.value, system),
        shown(width, system)
    );
    source.fault(rows.span.clone(), &rows.path, message, "write what lies between the two rows, less than the board");
    false
}

/// The place on the eave half-way from a pole, counted from 1, to the next.
fn outlet(pole: u64) -> usize {
    (pole as usize).saturating_sub(1) * deck::PLACES_IN_BAY + deck::PLACES_IN_BAY / 2
}

/// Lengths of stock, in metres, that are assumed where none is written.
const STOCK: [f64; 3] = [3.0, 4.0, 5.0];

pub(super) fn stock(source: &Source<'_>, keys: &build::Deck, system: System) -> Option<Vec<Known<Length>>> {
    if keys.stock.is_empty() {
        let why = "lengths that most sawmills cut";
        let assumed = STOCK.iter().enumerate().map(|(place, &length)| {
            let path = format!("roof.deck.stock.{}", place + 1);
            Known::assumed(Length::m(length), path, Origin::CommonPractice, why)
        });
        return Some(assumed.collect());
    }
    let range = || Length::mm(500.0)..Length::m(15.0);
    let read = keys.stock.iter().map(|one| within(source, Some(one), range(), "a length of boards", system));
    read.collect()
}

/// Downspouts by name, each after one of so many poles, called and lying as is told.
pub(super) fn downspouts(
    source: &Source<'_>,
    keys: &build::Deck,
    (count, noun, lie): (usize, &str, &str),
) -> Option<Vec<(String, Known<u64>)>> {
    let mut taken: Vec<(u64, &str)> = Vec::new();
    let mut read = Vec::new();
    for (name, pole) in &keys.downspouts {
        let pole = pole.as_ref()?;
        let hint = format!("write the number of the {noun} before it, from 1 to {count}");
        if !(1..=count as u64).contains(&pole.value) {
            let message = format!("there is no {noun} {} {lie}", pole.value);
            source.fault(pole.span.clone(), &pole.path, message, hint);
            return None;
        }
        if let Some((_, other)) = taken.iter().find(|(place, _)| *place == pole.value) {
            let message = format!("`{other}` stands after {noun} {} already", pole.value);
            source.fault(pole.span.clone(), &pole.path, message, "give each downspout a bay of its own");
            return None;
        }
        taken.push((pole.value, &name.value));
        read.push((name.value.clone(), Known::given(pole.value, pole.path.clone(), pole.line)));
    }
    Some(read)
}

fn frame(
    source: &Source<'_>,
    written: &build::Roof,
    wall: &Wall,
    under: &Under<'_>,
    edge: &Known<Length>,
) -> Option<Frame> {
    let fault = |message: String, hint: &'static str| {
        let at = written.deck.edge.as_ref().or(written.eye.as_ref());
        if let Some(at) = at {
            source.fault(at.span.clone(), &at.path, message, hint);
        }
    };
    if edge.value <= under.eye.value {
        let message = format!(
            "the deck ends {} from the middle, within the eye of {}, where poles lie over each other",
            shown(edge.value, System::Metric),
            shown(under.eye.value, System::Metric)
        );
        fault(message, "let it end a hand farther out than the eye");
        return None;
    }
    let ring = under.ring;
    let middle = wall.line.centre();
    let from_middle = |set: &Set| Length::m(middle.distance((set.support[0].in_m(), set.support[1].in_m()).into()));
    if let Some(pole) = ring.solved.sets.iter().position(|set| from_middle(set) <= edge.value) {
        let message = format!(
            "the deck ends {} from the middle, outside of the wall under pole {}",
            shown(edge.value, System::Metric),
            pole + 1
        );
        fault(message, "let it end a hand farther out than the eye");
        return None;
    }
    let [thickness, height] = wall.means();
    let offset = wall::eave_offset(thickness, wall.batter_outside.value, height, under.overhang).value;
    let eave = Edge::Outline(wall.line.outline(offset.in_m(), CHORD * wall.line.length()));
    let metres = |place: [Length; 3]| place.map(Length::in_m);
    let rafters: Vec<Rafter> = ring
        .layout
        .rafters
        .iter()
        .zip(&ring.solved.sets)
        .map(|(rafter, set)| {
            let diameters = [rafter.pole.diameter(rafter.overhang), set.rest_diameter];
            Rafter { foot: metres(set.support), head: metres(set.rest_at), diameters }
        })
        .collect();
    let hole = Edge::Circle { middle, radius: edge.value };
    match Frame::new(&rafters, true, eave, hole) {
        Ok(frame) => Some(frame),
        Err(refused) => {
            fault(format!("the poles cannot be decked: {}", refused.in_words()), "let the deck end at another radius");
            None
        }
    }
}

/// The cutting list; nothing inside where stock that is assumed is too short, nothing at all where written stock is.
pub(super) fn cut(
    source: &Source<'_>,
    keys: &build::Deck,
    (pieces, stock): (&[Length], &[Known<Length>]),
    kerf: Length,
    system: System,
) -> Option<Option<Nesting>> {
    let lengths: Vec<Length> = stock.iter().map(|length| length.value).collect();
    match (deck::nest(pieces, &lengths, kerf), keys.stock.first()) {
        (Ok(plan), _) => Some(Some(plan)),
        (Err(_), None) => Some(None),
        (Err(_), Some(first)) => {
            let longest = pieces.iter().copied().fold(Length::ZERO, Length::max);
            let message = format!("a board of {} is longer than all stock", shown(longest, system));
            source.fault(first.span.clone(), "roof.deck.stock", message, "write a longer length that is sold");
            None
        }
    }
}
