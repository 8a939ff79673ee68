//! What would change a ring that fails: fewer poles, a larger eye, thicker poles, each tried on the whole frame at the same pitch.

use super::super::line::bind;
use super::hold::{self, Stood};
use super::loads::Loaded;
use crate::house::{Frame, House, Other, Roof, other_ring};
use crate::reason::Answer;
use crate::roof::standing::{self, Feet, Joints, Lasting, Loading, Passing};
use crate::row::Rows;
use crate::timber::used;
use crate::units::{Angle, Length, Ratio};

/// Most steps that are tried of each.
const STEPS: u32 = 12;
/// A step of an eye, in millimetres.
const EYE_MM: f64 = 50.0;
/// A step of a pole's thickness, in millimetres.
const THICKER_MM: f64 = 10.0;

/// Notes what would do where a share of a member is past all that it has.
pub(super) fn walk(house: &House, roof: &Roof, (stood, loaded): (&Stood<'_>, &Loaded), rows: &mut Rows) {
    let Frame::Reciprocal { count, eye, .. } = &roof.frame else { return };
    let nouns = ["bending", "shear", "compression", "tension"];
    let worst = nouns.iter().flat_map(|noun| {
        let pattern = format!("roof.members.*.{}", stood.factors.noun(noun));
        rows.matching(&pattern).filter_map(|row| row.quantity.si()).collect::<Vec<f64>>()
    });
    if worst.fold(0.0, f64::max) <= 1.0 {
        return;
    }
    let own = Other { count: count.value, eye: eye.value, thicker: Length::ZERO };
    let fewer = (3..own.count).rev().map(|count| Other { count, ..own });
    let wider = (1..=STEPS).map(|step| Other { eye: own.eye + Length::mm(EYE_MM * f64::from(step)), ..own });
    let thicker = (1..=STEPS).map(|step| Other { thicker: Length::mm(THICKER_MM * f64::from(step)), ..own });
    let tried = |other: &Other| share(house, roof, (stood, loaded), other).map(|share| (*other, share));
    let does = |found: &Option<(Other, f64)>| found.as_ref().is_some_and(|(_, share)| *share <= 1.0);
    let first = |all: &mut dyn Iterator<Item = Other>| all.map(|other| tried(&other)).find(does).flatten();
    let advice = Advice { pitch: "roof.ring.pitch" };
    match first(&mut fewer.into_iter()) {
        Some((other, share)) => {
            advice.told("poles", "fewer poles: so many", used::other_count(other.count), share, rows)
        }
        None => advice.nothing("poles", "no fewer poles round the same eye", rows),
    }
    match first(&mut wider.into_iter()) {
        Some((other, share)) => {
            advice.told("eye", "a larger eye: so much in radius", used::other_length(other.eye), share, rows)
        }
        None => advice.nothing("eye", "no larger eye up to 600 mm more", rows),
    }
    match first(&mut thicker.into_iter()) {
        Some((other, share)) => {
            advice.told("thicker", "thicker poles: by so much", used::other_length(other.thicker), share, rows);
        }
        None => advice.nothing("thicker", "no poles up to 120 mm thicker", rows),
    }
}

struct Advice {
    pitch: &'static str,
}

impl Advice {
    fn told<T: Copy + Into<crate::units::Quantity>>(
        &self,
        noun: &str,
        words: &str,
        answer: Answer<T>,
        share: f64,
        rows: &mut Rows,
    ) {
        let answer = bind(answer, rows, self.pitch);
        let would = "would do at this pitch, with notches to suit: try, then have it confirmed by an engineer";
        rows.add(format!("roof.advice.{noun}"), format!("{words} {would}"), answer);
        let used = used::other_share(Ratio::fraction(share));
        let used = bind(bind(used, rows, self.pitch), rows, "roof.loads.soil");
        rows.add(format!("roof.advice.{noun}-used"), format!("{words}: strength used then, at most"), used);
    }

    fn nothing(&self, noun: &str, words: &str, rows: &mut Rows) {
        rows.not_known(format!("roof.advice.{noun}"), format!("{words} would do at this pitch"));
    }
}

/// The greatest share used of any pole of another ring; none where it makes no ring.
fn share(house: &House, roof: &Roof, (stood, loaded): (&Stood<'_>, &Loaded), other: &Other) -> Option<f64> {
    let (layout, solved) = other_ring(house, roof, stood.ring, other)?;
    let joints = Joints { passing: Passing::Touching { push: stood.stiff[0], tie: stood.stiff[1] }, upper_share: 0.5 };
    let model = standing::model(&layout, &solved, &stood.wood, &joints).ok()?;
    let extras = match loaded.pond {
        Some((weight, reach)) => vec![standing::ponded(&layout, &solved, weight, reach).ok()?],
        None => Vec::new(),
    };
    let answers = model.answers(&Loading { first_half: Angle::ZERO, extras }, &Feet::BOTH).ok()?;
    let half = |place: usize| layout.rafters[place].notch * 0.5;
    let shares = (0..layout.rafters.len()).map(|place| {
        let (set, rafter) = (&solved.sets[place], &layout.rafters[place]);
        let cuts = [(set.carry_diameter, half(layout.above(place))), (set.rest_diameter, half(place))]
            .map(|(diameter, seat)| hold::left(diameter, seat, stood.hole()));
        let span = set.carry - rafter.overhang;
        let middle = rafter.pole.diameter(rafter.overhang + span * 0.5);
        let bears = stood.factors.bears(stood.held, &stood.strength, span, middle);
        let under = Lasting { combinations: &stood.strength.combinations, bears: &bears };
        let worst = model.worst(&answers, place, cuts, &under).ok()?;
        let all = [worst.bending, worst.shear, worst.compression, worst.tension];
        Some(all.iter().flatten().map(|used| used.share).fold(0.0, f64::max))
    });
    shares.collect::<Option<Vec<f64>>>().map(|shares| shares.into_iter().fold(0.0, f64::max))
}
