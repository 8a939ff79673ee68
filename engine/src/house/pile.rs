//! The poles that lie there, each measured, and what makes one choice of them better than another.

use super::place::{nearest, within};
use crate::build::{self, Source, Written};
use crate::known::{Known, Origin};
use crate::roof::poles::{self, Candidate, Laid, Pole};
use crate::units::{Angle, Length, Mass, System};

/// A pole of the pile, as it is measured, or a typical one that stands in for it.
#[derive(Clone, Debug)]
pub struct PilePole {
    /// Its tag.
    pub tag: String,
    /// Whether somebody measured it.
    pub is_measured: bool,
    /// Diameters of its thick end.
    pub butt: Vec<Known<Length>>,
    /// Diameters of its thin end.
    pub tip: Vec<Known<Length>>,
    /// What of it can be used.
    pub length: Known<Length>,
    /// Its greatest bow, and the one square to that.
    pub bow: [Known<Length>; 2],
}

impl PilePole {
    /// The measured poles of a pile, and one of the typical ones, which are all alike.
    pub fn of_each_kind(pile: &[PilePole]) -> impl Iterator<Item = &PilePole> {
        let typical = pile.iter().find(|pole| !pole.is_measured);
        pile.iter().filter(|pole| pole.is_measured).chain(typical)
    }

    /// The pole as a choice may take it.
    #[must_use]
    pub fn candidate(&self) -> Candidate {
        let [bow, across] = [&self.bow[0], &self.bow[1]].map(|bow| bow.value);
        let (butt, tip) = (mean(&self.butt), mean(&self.tip));
        Candidate { pole: Pole { length: self.length.value, butt, tip, bow, bow_turn: Angle::rad(0.0) }, across }
    }
}

fn mean(lengths: &[Known<Length>]) -> Length {
    poles::mean_diameter(lengths.iter().map(|length| length.value)).value
}

/// The measured poles of a pile, and as many typical ones as still lack; `None` where one is told of that cannot be.
pub(super) fn pile(source: &Source<'_>, written: &build::Poles, count: u64, system: System) -> Option<Vec<PilePole>> {
    let measured = written.pile.iter().filter_map(|one| pole(source, one, "poles.pile.", system));
    let mut pile: Vec<PilePole> = measured.collect();
    if pile.len() < written.pile.len() {
        return None;
    }
    let Some(typical) = &written.typical else { return Some(pile) };
    let table = &typical.tag;
    if pile.len() as u64 >= count {
        let message = format!("the pile has the {count} poles of the roof, each measured: no typical one is taken");
        source.fault(table.span.clone(), &table.path, message, "leave [poles.typical] out");
        return None;
    }
    if let Some(own) = written.pile.iter().find(|pole| pole.tag.value.starts_with(TYPICAL)) {
        let message = format!("`{}` would be taken for a pole that nobody measured", own.tag.value);
        source.fault(own.tag.span.clone(), &own.tag.path, message, "give the pole another tag");
        return None;
    }
    let mut like = pole(source, typical, "poles.", system)?;
    let why = "what a pole that nobody measured yet is taken to be";
    for known in like.butt.iter_mut().chain(&mut like.tip).chain([&mut like.length]).chain(&mut like.bow) {
        *known = Known::assumed(known.value, known.path.as_str(), Origin::Word, why);
    }
    let lacking = 1..=count - pile.len() as u64;
    pile.extend(lacking.map(|number| PilePole {
        tag: format!("{TYPICAL}{number}"),
        is_measured: false,
        ..like.clone()
    }));
    Some(pile)
}

/// How the tag of a pole begins that nobody measured.
const TYPICAL: &str = "typical-";

fn pole(source: &Source<'_>, written: &build::Pole, stem: &str, system: System) -> Option<PilePole> {
    let stem = format!("{stem}{}", written.tag.value);
    let all = |written: &[Written<Length>], [from, to]: [f64; 2], what: &str| {
        let range = || Length::mm(from)..Length::mm(to);
        let read = written.iter().filter_map(|one| within(source, Some(one), range(), what, system));
        read.collect::<Vec<Known<Length>>>()
    };
    let two = |noun: &str, written: &[Written<Length>]| {
        if written.len() > 2 {
            let message = format!("`{noun}` is measured {} times", written.len());
            source.fault(written[2].span.clone(), &format!("{stem}.{noun}"), message, "measure it one or two ways");
        }
    };
    for (noun, list) in [("butt", &written.butt), ("tip", &written.tip), ("bow", &written.bow)] {
        two(noun, list);
    }
    let diameters = [40.0, 600.0];
    let (butt, tip) =
        (all(&written.butt, diameters, "a pole's diameter"), all(&written.tip, diameters, "a pole's diameter"));
    let length = within(source, written.length.as_ref(), Length::m(1.0)..Length::m(15.0), "a pole's length", system);
    let bows = all(&written.bow, [0.0, 400.0], "the bow of a pole");
    let straight = |place: usize| {
        let path = format!("{stem}.bow.{}", place + 1);
        Known::assumed(Length::ZERO, path, Origin::Judgement, "a pole is straight where no bow is written")
    };
    let mut bows = bows.into_iter();
    let bow = [0, 1].map(|place| bows.next().unwrap_or_else(|| straight(place)));
    if butt.is_empty() || tip.is_empty() || source.is_faulty(&stem) {
        return None;
    }
    if mean(&tip) > mean(&butt) {
        let message = format!("the tip of `{}` is thicker than its butt", written.tag.value);
        source.fault(written.tag.span.clone(), &stem, message, "the butt is the thick end: exchange the two");
        return None;
    }
    Some(PilePole { tag: written.tag.value.clone(), is_measured: true, butt, tip, length: length?, bow })
}

pub(super) fn weights(source: &Source<'_>, written: &build::Weights, system: System) -> [Known<f64>; 3] {
    let weight = |written: &Option<Written<f64>>, or: f64, path: &'static str, why| {
        let found = within(source, written.as_ref(), 0.0..1000.0, "a weight", system);
        found.unwrap_or_else(|| Known::assumed(or, path, Origin::Judgement, why))
    };
    [
        weight(&written.waste, 0.02, "poles.weights.waste", "fifty millimetres of firewood for one of notch"),
        weight(&written.notch, 1.0, "poles.weights.notch", "a notch takes strength where it is needed most"),
        weight(&written.bow, 0.5, "poles.weights.bow", "boards lie badly on a pole that bows to the side"),
    ]
}

/// The poles that lie, from the first place on; `None` where one is told of that cannot be.
pub(super) fn laid(source: &Source<'_>, written: &build::Poles, pile: &[PilePole], count: u64) -> Option<Vec<Laid>> {
    let Some(tags) = &written.laid else { return Some(Vec::new()) };
    if tags.value.len() as u64 > count {
        let message = format!("{} poles are laid, and the roof has {count}", tags.value.len());
        source.fault(tags.span.clone(), &tags.path, message, "write those of the roof alone, from the first place on");
        return None;
    }
    let mut laid: Vec<Laid> = Vec::new();
    for one in &tags.value {
        let tag = one.value.strip_suffix(" turned").unwrap_or(&one.value);
        let Some(pole) = pile.iter().position(|pole| pole.tag == tag) else {
            let hint = nearest(pile.iter().map(|pole| pole.tag.as_str()), tag);
            source.fault(one.span.clone(), &tags.path, format!("the pile has no pole \"{tag}\""), hint);
            return None;
        };
        if laid.iter().any(|other| other.pole == pole) {
            let message = format!("`{tag}` is laid twice");
            source.fault(one.span.clone(), &tags.path, message, "write each pole once");
            return None;
        }
        laid.push(Laid { pole, is_turned: tag != one.value });
    }
    Some(laid)
}

/// What each of those who lift poles lifts alone.
pub(super) fn alone(source: &Source<'_>, written: &build::Poles, system: System) -> Option<Known<Mass>> {
    let what = "what one lifts alone";
    within(source, written.alone.as_ref(), Mass::kg(1.0)..Mass::kg(60.0), what, system).or_else(|| {
        let why = "guideline figure of guidance L23 for a man, close to the body; a woman 16 kg";
        Some(Known::assumed(poles::each_alone()?, "poles.alone", Origin::Memory, why))
    })
}
