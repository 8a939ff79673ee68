//! Words of the door and window schedule, and which things on the wall have a card of their own.

use super::House;
use super::built_in::What;
use crate::build::{Hand, OpeningForm, OpeningKind, Swing};

/// What a schedule says of a door or a window beside its figures.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hung {
    /// Its name.
    pub name: String,
    /// Door or window.
    pub kind: &'static str,
    /// Rectangle, round or arched.
    pub form: &'static str,
    /// Which way it opens; empty where nothing is written.
    pub swing: &'static str,
    /// The side of the hinges seen from outside; empty where nothing is written.
    pub hand: &'static str,
    /// The lift at whose beginning its frame must stand.
    pub lift: String,
}

/// Every door and window, in the order of the file.
#[must_use]
pub fn schedule(house: &House) -> Vec<Hung> {
    let lifts = &house.wall.lifts;
    let hung = house.openings.iter().map(|opening| Hung {
        name: opening.name.clone(),
        kind: match opening.kind {
            OpeningKind::Door => "door",
            OpeningKind::Window => "window",
        },
        form: match opening.form {
            OpeningForm::Rectangle => "rectangle",
            OpeningForm::Round => "round",
            OpeningForm::Arched => "arched",
        },
        swing: match opening.hanging.swing {
            Some(Swing::In) => "in",
            Some(Swing::Out) => "out",
            Some(Swing::Fixed) => "fixed",
            None => "",
        },
        hand: match opening.hanging.hand {
            Some(Hand::Left) => "left",
            Some(Hand::Right) => "right",
            None => "",
        },
        lift: lifts
            .iter()
            .find(|lift| opening.bottom.value < lift.top.value)
            .map_or_else(String::new, |lift| lift.name.clone()),
    });
    hung.collect()
}

/// Names of mosaics, of bottle bricks and of ovens.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Carded {
    /// Mosaics.
    pub mosaics: Vec<String>,
    /// Bottle bricks.
    pub bottles: Vec<String>,
    /// Ovens.
    pub ovens: Vec<String>,
}

/// The things on the wall and in the room that have a card of their own, each kind in the order of the file.
#[must_use]
pub fn carded(house: &House) -> Carded {
    let mut carded = Carded::default();
    for thing in &house.built_in {
        let list = match &thing.what {
            What::Mosaic(_) => &mut carded.mosaics,
            What::Bottles(_) => &mut carded.bottles,
            What::Oven(_) => &mut carded.ovens,
            _ => continue,
        };
        list.push(thing.name.clone());
    }
    carded
}
