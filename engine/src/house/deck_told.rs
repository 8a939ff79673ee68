//! What holds a deck's boards and covers its eye, with nothing missing; shim table and cutting list as plain data.

use super::Roof;
use super::deck_plan::{DeckPlan, deck_plan};
use super::place::within;
use crate::build::{self, Source};
use crate::known::{Known, Origin};
use crate::roof::deck::{EdgeBoard, Shim, Station};
use crate::units::{Angle, Force, Length, Mass, Pressure, System};

/// What holds the boards of a deck down.
#[derive(Clone, Debug)]
pub struct Held {
    /// What one fastener holds against being pulled out; none where it is not written.
    pub withdrawal: Option<Known<Force>>,
    /// From one row of fasteners to the other across the end of a board.
    pub rows: Known<Length>,
    /// Shear modulus of the boards.
    pub shear: Known<Pressure>,
    /// Suction over the deck and push under it for each pressure of the gust.
    pub suction: Known<f64>,
}

/// What lies over the eye while it is a hole.
#[derive(Clone, Debug)]
pub struct Cover {
    /// How far it lies over the deck all round.
    pub lap: Known<Length>,
    /// People on it at any one time.
    pub people: Known<u64>,
    /// Mass of each.
    pub each: Known<Mass>,
    /// Mass of tools and material on it.
    pub things: Known<Mass>,
    /// What it carries; none where it is not written.
    pub carries: Option<Known<Force>>,
}

pub(super) fn held(source: &Source<'_>, written: &build::DeckHeld, system: System) -> Held {
    let forces = Force::n(10.0)..Force::kn(20.0);
    let what = "what one fastener holds against being pulled out";
    let lengths = Length::mm(10.0)..Length::mm(400.0);
    let rows = within(source, written.rows.as_ref(), lengths, "from row to row of fasteners", system);
    let moduli = Pressure::mpa(50.0)..Pressure::mpa(2000.0);
    let shear = within(source, written.shear.as_ref(), moduli, "the shear modulus of a board", system);
    let suction = within(source, written.suction.as_ref(), 0.1..10.0, "a coefficient of suction on a deck", system);
    Held {
        withdrawal: within(source, written.withdrawal.as_ref(), forces, what, system),
        rows: rows.unwrap_or_else(|| {
            let why = "a row a finger's width from either edge of a board";
            Known::assumed(Length::mm(80.0), "roof.deck.rows", Origin::Judgement, why)
        }),
        shear: shear.unwrap_or_else(|| {
            let why = "softwood of class C16 by EN 338, mean";
            Known::assumed(Pressure::mpa(500.0), "roof.deck.shear", Origin::Memory, why)
        }),
        suction: suction.unwrap_or_else(|| {
            let why = "suction at an eave and as much push under an open one; a code has tables of its own";
            Known::assumed(2.0, "roof.deck.suction", Origin::Judgement, why)
        }),
    }
}

pub(super) fn cover(source: &Source<'_>, written: &build::DeckCover, system: System) -> Cover {
    let lap = within(source, written.lap.as_ref(), Length::ZERO..Length::m(1.0), "how far a cover lies over", system);
    let masses = || Mass::kg(1.0)..Mass::kg(2000.0);
    let each = within(source, written.each.as_ref(), masses(), "the mass of a person", system);
    let things = within(source, written.things.as_ref(), masses(), "the mass of tools and material", system);
    let people = written.people.as_ref().map(|people| Known::given(people.value, people.path.clone(), people.line));
    Cover {
        lap: lap.unwrap_or_else(|| {
            let why = "so that it cannot slip into the hole; it is fixed as well";
            Known::assumed(Length::mm(150.0), "roof.deck.cover.lap", Origin::Judgement, why)
        }),
        people: people.unwrap_or_else(|| {
            let why = "one who works at the eye and one who hands up";
            Known::assumed(2, "roof.deck.cover.people", Origin::Judgement, why)
        }),
        each: each.unwrap_or_else(|| {
            let why = "a heavy person in work clothes";
            Known::assumed(Mass::kg(100.0), "roof.deck.cover.each", Origin::Judgement, why)
        }),
        things: things.unwrap_or_else(|| {
            let why = "two full buckets and tools";
            Known::assumed(Mass::kg(50.0), "roof.deck.cover.things", Origin::Judgement, why)
        }),
        carries: within(
            source,
            written.carries.as_ref(),
            Force::n(100.0)..Force::kn(100.0),
            "what a cover carries",
            system,
        ),
    }
}

/// A station of the shim table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShimLine {
    /// The pole's place in the ring, from 1.
    pub pole: usize,
    /// Along its top from over the support, above zero inwards.
    pub along: Length,
    /// Left and right, seen from the foot.
    pub sides: [Option<Shim>; 2],
}

/// A piece of the cutting list.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoardLine {
    /// The pole before its bay, from 1.
    pub bay: usize,
    /// Its course, from the eave, from 1.
    pub course: usize,
    /// From its longest point to its longest point.
    pub length: Length,
    /// The angles of its ends from square; none where an end is cut to the curve of an edge.
    pub ends: [Option<Angle>; 2],
    /// Which length of stock it is cut from, from 1, and how long that is.
    pub from: Option<(usize, Length)>,
}

/// Tables of a deck, for paper.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct DeckTables {
    /// Shims, pole by pole from the eave to the eye.
    pub shims: Vec<ShimLine>,
    /// Boards, bay by bay from the eave up.
    pub boards: Vec<BoardLine>,
    /// The lengths of stock with the pieces cut from each, by their place in the boards.
    pub sticks: Vec<(Length, Vec<usize>)>,
    /// Levels of the eave: at each tail and at three places on to the next.
    pub eave: Vec<Length>,
    /// How far each pole is cut at the eave, along its top from over the support.
    pub cuts: Vec<Length>,
    /// The edge board from each tail to the next.
    pub edges: Vec<EdgeBoard>,
    /// The pieces of the frame round the eye, bay by bay.
    pub eye: Vec<Length>,
    /// What a drawing shows.
    pub plan: DeckPlan,
}

impl DeckTables {
    /// The same without what is cut for boards that lie on the poles themselves.
    fn off_its_poles(mut self) -> DeckTables {
        for bay in &mut self.plan.bays {
            (bay.courses, bay.boards) = (Vec::new(), 0);
        }
        self.plan.stations.iter_mut().for_each(Vec::clear);
        DeckTables { shims: Vec::new(), boards: Vec::new(), sticks: Vec::new(), ..self }
    }
}

/// The tables of the deck of a roof, where it has one. Under a second ring neither shims nor boards are known: none is told.
#[must_use]
pub fn deck_tables(roof: &Roof) -> Option<DeckTables> {
    let deck = roof.deck.as_ref()?;
    let line = |(pole, stations): (usize, &Vec<Station>)| {
        let line = move |station: &Station| ShimLine { pole: pole + 1, along: station.along, sides: station.sides };
        stations.iter().map(line).collect::<Vec<_>>()
    };
    let sticks = deck.cut.iter().flat_map(|plan| &plan.sticks);
    let sticks: Vec<(Length, Vec<usize>)> = sticks.map(|stick| (stick.stock, stick.pieces.clone())).collect();
    let from = |place: usize| {
        let found = sticks.iter().enumerate().find(|(_, (_, pieces))| pieces.contains(&place));
        found.map(|(number, (stock, _))| (number + 1, *stock))
    };
    let boards = deck.boards.iter().enumerate().map(|(place, (bay, board))| BoardLine {
        bay: bay + 1,
        course: board.course + 1,
        length: board.length,
        ends: board.ends,
        from: from(place),
    });
    let told = DeckTables {
        boards: boards.collect(),
        shims: deck.shims.rafters.iter().enumerate().flat_map(line).collect(),
        eave: deck.eave.iter().map(|point| Length::m(point.place[2])).collect(),
        cuts: crate::roof::deck::tails(&deck.frame),
        edges: crate::roof::deck::edge_boards(&deck.frame),
        eye: crate::roof::deck::eye_frame(&deck.frame),
        plan: deck_plan(deck),
        sticks,
    };
    Some(if roof.is_raised() { told.off_its_poles() } else { told })
}
