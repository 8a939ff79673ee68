//! What would change a ring that fails: fewer poles, a larger eye, thicker poles, alone or together, each tried on the whole frame at
//! the same pitch.

use super::super::line::bind;
use super::hold::{self, Stood};
use super::loads::Loaded;
use crate::house::{Frame, House, Other, Roof, other_ring};
use crate::reason::Answer;
use crate::roof::standing::{self, Combination, Feet, Joints, Lasting, Loading, Passing};
use crate::row::Rows;
use crate::timber::used;
use crate::units::{Angle, Length, Quantity, Ratio};

/// Poles fewer, millimetres of eye more, millimetres of thickness more: so much counts as one change.
const CHANGE: (u64, f64, f64) = (2, 100.0, 20.0);
/// Most changes of each that are tried.
const MOST: [u32; 3] = [3, 6, 3];

/// Notes what would do where a share of a pole is past all that it has: the smallest change of all that are tried.
pub(super) fn walk(house: &House, roof: &Roof, (stood, loaded): (&Stood<'_>, &Loaded), rows: &mut Rows) {
    let Frame::Reciprocal { count, eye, .. } = &roof.frame else { return };
    let fails = ["bending", "shear", "compression", "tension"].iter().any(|noun| {
        let pattern = format!("roof.members.*.{}", stood.factors.noun(noun));
        rows.matching(&pattern).any(|row| row.quantity.si().is_some_and(|share| share > 1.0))
    });
    if !fails {
        return;
    }
    let Some(combination) = governing(stood) else { return };
    let own = Other { count: count.value, eye: eye.value, thicker: Length::ZERO };
    let found = changes(&own).into_iter().find_map(|other| {
        let quick = stood.strength.combinations[combination..=combination].to_vec();
        let trial = Trial { house, roof, stood, loaded, other: &other };
        let durations = &stood.strength.durations;
        trial.share(&quick, &durations[combination..=combination], &Feet::BOTH[..1]).filter(|share| *share <= 1.0)?;
        let share = trial.share(&stood.strength.combinations, durations, &Feet::BOTH)?;
        (share <= 1.0).then_some((other, share))
    });
    let Some((other, share)) = found else {
        let [fewer, wider, thicker] = MOST;
        let (fewer, wider) = (CHANGE.0 * u64::from(fewer), CHANGE.1 * f64::from(wider));
        let thicker = CHANGE.2 * f64::from(thicker);
        let title = format!(
            "no ring of up to {fewer} poles fewer, an eye up to {wider:.0} mm wider and poles up to {thicker:.0} mm thicker would \
             do at this pitch"
        );
        rows.not_known("roof.advice.used", title);
        return;
    };
    told(rows, "poles", "so many poles", used::other_count(other.count));
    told(rows, "eye", "an eye of so much in radius", used::other_length(other.eye));
    told(rows, "thicker", "poles so much thicker", used::other_length(other.thicker));
    told(rows, "used", "strength of a pole used then, at most", used::other_share(Ratio::fraction(share)));
}

fn told<T: Copy + Into<Quantity>>(rows: &mut Rows, noun: &str, words: &str, answer: Answer<T>) {
    let answer = bind(bind(answer, rows, "roof.ring.pitch"), rows, "roof.loads.soil");
    let title = format!(
        "what would do at this pitch by its poles alone, crossings and sag not tried, notches to suit: {words}; try, then have \
             it confirmed by an engineer"
    );
    rows.add(format!("roof.advice.{noun}"), title, answer);
}

/// The combination under which most of any pole is used.
fn governing(stood: &Stood<'_>) -> Option<usize> {
    let places = 0..stood.ring.layout.rafters.len();
    let all = places.filter_map(|place| {
        let (set, rafter) = (&stood.ring.solved.sets[place], &stood.ring.layout.rafters[place]);
        let span = set.carry - rafter.overhang;
        let middle = rafter.pole.diameter(rafter.overhang + span * 0.5);
        let bears = stood.factors.bears(stood.held, &stood.strength.durations, span, middle);
        let under = Lasting { combinations: &stood.strength.combinations, bears: &bears };
        let worst = stood.model.worst(&stood.answers, place, &stood.cuts(place), &under).ok()?;
        let all = [worst.bending, worst.shear, worst.compression, worst.tension];
        all.into_iter()
            .flatten()
            .map(|used| (used.share, used.combination))
            .max_by(|one, other| one.0.total_cmp(&other.0))
    });
    all.max_by(|one, other| one.0.total_cmp(&other.0)).map(|(_, combination)| combination)
}

/// Other rings, the least changed first.
fn changes(own: &Other) -> Vec<Other> {
    let mut all = Vec::new();
    for fewer in 0..=MOST[0] {
        for wider in 0..=MOST[1] {
            for thicker in 0..=MOST[2] {
                let count = own.count.saturating_sub(CHANGE.0 * u64::from(fewer));
                let eye = own.eye + Length::mm(CHANGE.1 * f64::from(wider));
                let other = Other { count, eye, thicker: Length::mm(CHANGE.2 * f64::from(thicker)) };
                all.push((fewer + wider + thicker, other));
            }
        }
    }
    all.retain(|(changes, other)| *changes > 0 && other.count >= 3);
    all.sort_by_key(|(changes, _)| *changes);
    all.into_iter().map(|(_, other)| other).collect()
}

/// Another ring that is tried.
struct Trial<'a, 'b> {
    house: &'a House,
    roof: &'a Roof,
    stood: &'a Stood<'b>,
    loaded: &'a Loaded,
    other: &'a Other,
}

impl Trial<'_, '_> {
    /// The greatest share used of any of its poles; none where it makes no ring.
    fn share(&self, combinations: &[Combination], durations: &[f64], feet: &[Feet]) -> Option<f64> {
        let stood = self.stood;
        let (layout, solved) = other_ring(self.house, self.roof, stood.ring, self.other)?;
        let passing = Passing::Touching { push: stood.stiff[0], tie: stood.stiff[1] };
        let model = standing::model(&layout, &solved, &stood.wood, &Joints { passing, upper_share: 0.5 }).ok()?;
        let model = model.bearing(self.loaded.between.as_ref());
        let extras = match self.loaded.pond {
            Some((weight, reach)) => vec![standing::ponded(&layout, &solved, weight, reach).ok()?],
            None => Vec::new(),
        };
        let loading = Loading { first_half: Angle::ZERO, extras, between: self.loaded.between.clone() };
        let answers = model.answers(&loading, feet).ok()?;
        let shares = (0..layout.rafters.len()).map(|place| {
            let (set, rafter) = (&solved.sets[place], &layout.rafters[place]);
            let cuts = hold::cuts((&layout, &solved), &model, place, stood.hole());
            let span = set.carry - rafter.overhang;
            let middle = rafter.pole.diameter(rafter.overhang + span * 0.5);
            let bears = stood.factors.bears(stood.held, durations, span, middle);
            let worst = model.worst(&answers, place, &cuts, &Lasting { combinations, bears: &bears }).ok()?;
            let all = [worst.bending, worst.shear, worst.compression, worst.tension];
            Some(all.iter().flatten().map(|used| used.share).fold(0.0, f64::max))
        });
        shares.collect::<Option<Vec<f64>>>().map(|shares| shares.into_iter().fold(0.0, f64::max))
    }
}
