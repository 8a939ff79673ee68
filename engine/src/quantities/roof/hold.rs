//! Whether a roof holds: what governs each pole, crossing and foot of a ring under all its loads, as rows that the code is held against.

use super::super::line::bind;
use super::beam::{OnBeam, Planks};
use super::factors::{Factors, Lasts};
use super::loads::{self, Loaded};
use super::{advice, beam, crossings, feet, heads, members, rafters, secondary, slide, ties, trade};
use crate::house::{Borne, Code, Frame, Held, House, Ring, Roof, Secondary};
use crate::known::Origin;
use crate::loads::acting::Acting;
use crate::reason::Answer;
use crate::roof::poles;
use crate::roof::standing::{self, Answers, Fault, Feet, Joints, Loading, Model, Passing};
use crate::row::Rows;
use crate::timber::{asd, bolt, section};
use crate::units::{Angle, Length, LineLoad};

/// A ring that was answered for every load.
pub(super) struct Stood<'a> {
    pub held: &'a Held,
    pub ring: &'a Ring,
    pub factors: Factors,
    pub model: Model,
    pub answers: Answers,
    pub wood: standing::Wood,
    pub stiff: [LineLoad; 2],
    pub strength: Lasts,
    /// The same and, after it, what lifts it as a body.
    pub lifting: Lasts,
    pub sag: Lasts,
}

/// Rows of its shape, its wood and its joints, beside those of its secondary rafters.
const FRAME: [&str; 5] = [
    "roof.ring.pitch",
    "poles.strength.stiffness",
    "poles.strength.shear-stiffness",
    "roof.joints.push",
    "roof.joints.tie",
];

/// An acting and the feet under which something is greatest.
pub(super) struct Governs<'a> {
    pub acting: &'a Acting,
    pub feet: Feet,
}

pub(super) fn walk(house: &House, roof: &Roof, rows: &mut Rows) {
    let Some(held) = &roof.held else { return };
    let pitch = if matches!(roof.frame, Frame::Reciprocal { ring: Some(_), .. }) {
        "roof.ring.pitch"
    } else {
        super::pitch_path(rows)
    };
    wood(held, rows);
    washers(roof, held, rows);
    let loaded = loads::walk(house, roof, held, pitch, rows);
    slide::walk(roof, pitch, rows);
    if let (Frame::Reciprocal { .. }, Some(loaded)) = (&roof.frame, &loaded) {
        trade::walk(held, loaded, rows);
    }
    match &roof.frame {
        Frame::Reciprocal { ring: Some(ring), .. } => {
            let stood = loaded.as_ref().and_then(|loaded| Some((stand(held, ring, loaded, rows).ok()?, loaded)));
            match &stood {
                Some((stood, loaded)) => {
                    members::walk(stood, rows);
                    crossings::walk(stood, rows);
                    if let Some((own, (second, on_frame))) =
                        roof.secondary.as_ref().and_then(|own| Some((own, own.second_ring()?)))
                    {
                        heads::walk(stood, (own.diameter.value, second, on_frame), rows);
                    }
                    feet::walk(stood, rows);
                    Planks::noted(held, rows);
                    beam::walk(house, &OnBeam::ring(stood, rows), rows);
                    advice::walk(house, roof, (stood, loaded), rows);
                }
                None => {
                    not_known(held, ring, rows);
                    beam::not_known(house, &Factors::of(held), rows);
                }
            }
            if let Some(own) = &roof.secondary {
                if let (Borne::OnPoles(second), None) = (&own.borne, &stood) {
                    heads::not_known(second, held, rows);
                }
                secondary::held((own, ring), held, (loaded.as_ref(), roof.density.value), rows);
            }
        }
        Frame::Reciprocal { count, .. } => {
            let factors = Factors::of(held);
            for noun in members::NOUNS {
                let title = format!("{noun} of {} poles that nobody measured", count.value);
                rows.not_known(format!("roof.members.1.{}", factors.noun(noun)), title);
            }
            beam::unmeasured(house, &factors, rows);
        }
        Frame::OneWay { rafters: own, .. } => {
            rafters::walk(house, (roof, own), held, loaded.as_ref(), rows);
        }
    }
    ties::walk(held, rows);
}

fn wood(held: &Held, rows: &mut Rows) {
    let values = &held.wood.values;
    for (title, known) in [
        ("strength of the poles in bending", &values.bending),
        ("strength of the poles in tension along the grain", &values.tension),
        ("strength of the poles in compression along the grain", &values.compression),
        ("strength of the poles in compression across the grain", &values.across),
        ("strength of the poles in shear", &values.shear),
        ("modulus of elasticity of the poles", &values.stiffness),
        ("modulus of elasticity of the poles, against buckling", &values.low_stiffness),
        ("shear modulus of the poles", &values.shear_stiffness),
    ] {
        rows.known(title, known);
    }
    for (title, known) in ["low", "mean"].iter().zip(values.densities.iter().flatten()) {
        rows.known(format!("density of the wood as its class has it, {title}"), known);
    }
    borrowed(held, rows);
    rows.known("place of damp of the roof's timber: 1 dry, 2 under a roof, 3 wet", &held.wood.damp);
    rows.known("diameter of the bolts of the roof", &held.bolt.diameter);
    rows.known("side of the washers of those bolts", &held.bolt.washer);
}

/// How many values of round poles are those of sawn lumber, where a code has others for poles.
fn borrowed(held: &Held, rows: &mut Rows) {
    let values = &held.wood.values;
    let all = [
        &values.bending,
        &values.tension,
        &values.compression,
        &values.across,
        &values.shear,
        &values.stiffness,
        &values.low_stiffness,
        &values.shear_stiffness,
    ];
    let of_lumber: Vec<&str> =
        all.iter().filter(|value| value.origin != Origin::Given).map(|value| value.path.as_str()).collect();
    if held.code != Code::Asce || of_lumber.is_empty() {
        return;
    }
    let count = asd::values_of_lumber(of_lumber.len() as u64);
    let count = of_lumber.iter().fold(count, |count, path| bind(count, rows, path));
    rows.add("poles.strength.borrowed", "values of the poles that are those of sawn lumber", count);
}

/// How wide the washers of crossings and heads are beside their bolts, which one code has a rule for.
fn washers(roof: &Roof, held: &Held, rows: &mut Rows) {
    if held.code != Code::En || !matches!(roof.frame, Frame::Reciprocal { .. }) {
        return;
    }
    let washer = &held.bolt.washer;
    let head = roof.secondary.as_ref().and_then(Secondary::second_ring).and_then(|(own, _)| own.bolt.as_ref());
    let crossing = ("bolt", "bolts of the crossings", &held.bolt.diameter);
    let bolts = [Some(crossing), head.map(|bolt| ("secondary", "bolts of the second ring", bolt))];
    for (noun, words, bolt) in bolts.into_iter().flatten() {
        let wide = bolt::washer_in_bolts(washer.value, bolt.value)
            .from("side", washer.path.as_str())
            .from("diameter", bolt.path.as_str());
        rows.add(format!("roof.{noun}.washer-in-bolts"), format!("{words}: side of a washer, in diameters"), wide);
    }
}

/// What could not be held since snow or wind is not known, or since the ring makes no frame.
fn not_known(held: &Held, ring: &Ring, rows: &mut Rows) {
    let factors = Factors::of(held);
    for place in 0..ring.layout.rafters.len() {
        let tag = members::tag(ring, place);
        for noun in members::NOUNS {
            let title = format!("place {}, {tag}: {}", place + 1, members::words(noun));
            rows.not_known(members::path(place, &factors.noun(noun)), title);
        }
        let bolt = (held.code == Code::En).then_some("bolt");
        for noun in crossings::NOUNS.into_iter().chain(bolt) {
            let title = format!("crossing {}, where {tag} rests: {}", place + 1, crossings::words(noun));
            rows.not_known(crossings::path(place, &factors.noun(noun)), title);
        }
    }
}

/// Solves the ring for every load once.
pub(super) fn stand<'a>(held: &'a Held, ring: &'a Ring, loaded: &Loaded, rows: &mut Rows) -> Result<Stood<'a>, Fault> {
    let (layout, solved) = (&ring.layout, &ring.solved);
    let angles = standing::crossing_angles(layout, solved)?;
    let stiff = crossings::stiffness(held, ring, &angles, rows);
    let (values, factors) = (&held.wood.values, Factors::of(held));
    let wood = standing::Wood {
        young: values.stiffness.value * factors.wet("e"),
        shear: values.shear_stiffness.value,
        density: rows.value("poles.density").ok_or(Fault::Size("a density of the poles"))?,
    };
    let joints = Joints { passing: Passing::Touching { push: stiff[0], tie: stiff[1] }, upper_share: 0.5 };
    let model = standing::model(layout, solved, &wood, &joints)?.bearing(loaded.between.as_ref());
    let extras = match loaded.pond {
        Some((weight, reach)) => vec![standing::ponded(layout, solved, weight, reach)?],
        None => Vec::new(),
    };
    let count = extras.len();
    let loading = Loading { first_half: Angle::ZERO, extras, between: loaded.between.clone() };
    let answers = model.answers(&loading, &Feet::BOTH)?;
    let (strength, sag) = (factors.strength(&loaded.loads, count), factors.sag(&loaded.loads, count));
    let lifting = factors.lifting(&loaded.loads, count);
    Ok(Stood { held, ring, factors, model, answers, wood, stiff, strength, lifting, sag })
}

impl Stood<'_> {
    /// Adds what every force in the ring follows from: its shape, its wood, its joints, and the loads of the combination.
    pub fn bound<T>(&self, answer: Answer<T>, governs: &Governs<'_>, rows: &Rows) -> Answer<T> {
        let answer = FRAME.iter().chain(&secondary::ON_POLES).fold(answer, |answer, path| bind(answer, rows, path));
        loads::bound(answer, governs.acting, rows)
    }

    /// Rows of its shape, its wood and its joints.
    pub fn frame() -> Vec<String> {
        FRAME.iter().chain(&secondary::ON_POLES).map(|path| (*path).to_owned()).collect()
    }

    pub fn governs(&self, combination: usize, feet: Feet) -> Governs<'_> {
        Governs { acting: &self.lifting.acting[combination], feet }
    }

    /// Half of a notch, and of what the crossing beds: how deep one pole is cut or pressed where a pole rests.
    pub fn depth(ring: &Ring, place: usize) -> Length {
        (ring.layout.rafters[place].notch + ring.bedding.value) * 0.5
    }

    pub fn hole(&self) -> Length {
        self.held.bolt.diameter.value
    }

    /// What is left of a pole where it carries, where it rests, and where it carries a rafter of a second ring.
    pub fn cuts(&self, place: usize) -> Vec<standing::Left> {
        cuts((&self.ring.layout, &self.ring.solved), &self.model, place, self.hole())
    }

    /// Whether a place along a pole is that of the rafter of a second ring, not of a crossing.
    pub fn is_seat(&self, place: usize, along: Length) -> bool {
        let set = &self.ring.solved.sets[place];
        let far = |mark: Length| (along - mark).in_m().abs();
        self.model.bears_at(place).is_some_and(|seat| far(seat) < far(set.carry).min(far(set.rest)))
    }
}

/// What is left of a pole where it carries, where it rests, and where it carries a rafter of a second ring.
pub(super) fn cuts(
    (layout, solved): (&poles::Layout, &poles::Ring),
    model: &Model,
    place: usize,
    hole: Length,
) -> Vec<standing::Left> {
    let (set, above) = (&solved.sets[place], layout.above(place));
    let half = |place: usize| layout.rafters[place].notch * 0.5;
    let crossings = [(set.carry_diameter, half(above), hole), (set.rest_diameter, half(place), hole)];
    let seat = model.lost_at_seat(place).map(|lost| (lost.diameter, lost.depth, lost.hole));
    crossings.into_iter().chain(seat).map(|(diameter, depth, hole)| left(diameter, depth, hole)).collect()
}

/// What a seat and a bolt's hole leave of a pole.
pub(super) fn left(diameter: Length, seat: Length, hole: Length) -> standing::Left {
    standing::Left {
        area: section::net_area(diameter, seat, hole).value,
        upright: section::net_modulus(diameter, seat, hole).value,
        sideways: section::net_modulus_sideways(diameter, seat, hole).value,
    }
}

impl Governs<'_> {
    /// The combination and the feet in words.
    pub fn words(&self) -> String {
        format!("{}{}", self.acting.name(), feet_words(self.feet))
    }
}

/// Feet in words, after those of a combination.
pub(super) fn feet_words(feet: Feet) -> &'static str {
    match feet {
        Feet::Held => ", feet held",
        Feet::Sliding => ", feet free to slide",
    }
}
