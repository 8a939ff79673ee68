//! The layers on the deck of measured poles, on the surface that their tops make.

use super::Fineness;
use super::columns;
use crate::house::Deck;
use crate::solid::Mesh;

/// The twisted surface in columns from the eave up to the eye; lengths in metres.
pub(super) struct OnPoles {
    columns: Vec<Vec<[f64; 3]>>,
    /// Area in plan, in square metres.
    pub(super) plan_area: f64,
}

impl OnPoles {
    /// The surface of a deck.
    pub(super) fn of(deck: &Deck, fineness: Fineness) -> OnPoles {
        let bays = deck.frame.bays();
        let shares = || (0..fineness.strips).map(|strip| f64::from(strip) / f64::from(fineness.strips));
        let places = bays.iter().flat_map(|bay| shares().map(|share| [bay.at_eave(share), bay.at_eye(share)]));
        let columns: Vec<Vec<[f64; 3]>> = places
            .map(|[eave, eye]| {
                let up = |step: u32| f64::from(step) / f64::from(fineness.steps);
                let at = |share: f64| [0, 1, 2].map(|axis| eave[axis] + share * (eye[axis] - eave[axis]));
                (0..=fineness.steps).map(|step| at(up(step))).collect()
            })
            .collect();
        let within = |place: usize| {
            let ends = columns.iter().zip(columns.iter().cycle().skip(1));
            0.5 * ends.map(|(a, b)| a[place][0] * b[place][1] - b[place][0] * a[place][1]).sum::<f64>()
        };
        let plan_area = (within(0) - within(fineness.steps as usize)).abs();
        OnPoles { columns, plan_area }
    }

    /// A layer between two levels, plumb above the tops of the poles.
    pub(super) fn layer(&self, levels: [f64; 2]) -> Mesh {
        columns::body(&self.columns, levels)
    }
}
