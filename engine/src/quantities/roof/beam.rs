//! Rows of the bond beam under a ring of poles: what bends, pulls, shears and twists each part of it, and what its scarfs must carry.

mod seats;

use super::super::line::bind;
use super::factors::Factors;
use super::hold::{Governs, Stood};
use super::members;
use crate::house::{BondBeam, House};
use crate::known::{Known, Origin};
use crate::reason::Answer;
use crate::roof::beam::{self as ring, Answers, Beam, Left, Presses, Resists, Under, Used, Worst};
use crate::roof::poles::Rafter;
use crate::roof::standing::Feet;
use crate::row::Rows;
use crate::timber::{beam as timber, section};
use crate::units::{Area, Length, Moment, Pressure, Ratio, SecondMoment, SectionModulus};

/// Corners of the beam's line as it is followed round.
const CORNERS: u32 = 36;

/// So short a stretch does not buckle: the wall keeps the beam from it.
const BRACED: Length = Length::mm(1.0);

fn number(name: &str) -> f64 {
    timber::fact(name).unwrap_or(f64::NAN)
}

fn path(noun: &str) -> String {
    format!("roof.beam.{noun}")
}

/// The beam with all that its rows have in common.
struct Laid<'a, 'b> {
    house: &'a House,
    beam: &'a BondBeam,
    stood: &'a Stood<'b>,
    feet: Vec<Feet>,
    groups: Vec<Vec<Presses>>,
    shares: Vec<Vec<f64>>,
    left: Left,
    shape: f64,
    /// How wide each pole lies on it.
    flats: Vec<Length>,
    /// Over which it hands a load on: to soft earth, to stiff earth.
    elastic: [Length; 2],
}

pub(super) fn walk(house: &House, stood: &Stood<'_>, rows: &mut Rows) {
    let Some(beam) = house.bond_beam.as_ref().filter(|_| house.wall.line.is_closed()) else { return };
    let laid = Laid::of(house, beam, stood, rows);
    let Ok(answers) = laid.ring().answers(&laid.groups) else { return };
    let weights: Vec<f64> = stood.strength.combinations.iter().map(|one| one.weight).collect();
    let resists = laid.resists();
    let under = Under {
        combinations: &laid.shares,
        weights: &weights,
        resists: &resists,
        elastic: laid.elastic[0],
        spreads: &laid.flats,
        left: laid.left,
    };
    laid.parts(&answers, &under, rows);
    laid.seats(rows);
    laid.anchors(&answers, &under, rows);
}

/// What cannot be said of the beam since snow or wind is not known.
pub(super) fn not_known(house: &House, factors: &Factors, rows: &mut Rows) {
    let Some(beam) = house.bond_beam.as_ref().filter(|_| house.wall.line.is_closed()) else { return };
    for part in &beam.parts {
        let on = &beam.stretches[part.longest];
        for (noun, words) in [
            ("bending", members::words("bending")),
            ("ring", "strength used by ring force and bending"),
            ("shear", members::words("shear")),
        ] {
            let path = path(&format!("{}.{}", on.name, factors.noun(noun)));
            rows.not_known(path, format!("bond beam over {}: {words}", on.words()));
        }
    }
}

impl<'a, 'b> Laid<'a, 'b> {
    fn of(house: &'a House, beam: &'a BondBeam, stood: &'a Stood<'b>, rows: &mut Rows) -> Laid<'a, 'b> {
        let (feet, groups) = stood.model.on_wall(&stood.answers).into_iter().unzip();
        let shares = stood.strength.combinations.iter().map(|one| stood.answers.shares(one)).collect();
        let left = left(beam, rows);
        let plank = beam.height.value / beam.layers.value as f64;
        let shape = timber::twist_shape(beam.width.value, plank, number("twist-more"), number("twist-most")).value;
        let elastic = elastic(beam, stood, plank, rows);
        let flat =
            |rafter: &Rafter| section::seat_width(rafter.pole.diameter(rafter.overhang), stood.ring.seat.value).value;
        let flats = stood.ring.layout.rafters.iter().map(flat).collect();
        Laid { house, beam, stood, feet, groups, shares, left, shape, flats, elastic }
    }

    fn ring(&self) -> Beam {
        let line = &self.house.wall.line;
        let corner = |corner: u32| {
            let at = line.at(middle(line.length(), f64::from(corner))).beside(self.beam.offset.in_m());
            [at.x, at.y].map(Length::m)
        };
        let anchors = self.house.anchors.iter().flat_map(|anchors| {
            let at = |spot: &crate::house::built_in::Spot| {
                let at = line.at(line.along_line(spot.station)).beside(anchors.offset.in_m());
                ring::Anchor { at: [at.x, at.y].map(Length::m), gives: None }
            };
            anchors.spots.iter().map(at)
        });
        let support = |rafter: &Rafter| [rafter.support[0], rafter.support[1]];
        Beam {
            line: (0..CORNERS).map(corner).collect(),
            width: self.beam.width.value,
            height: self.beam.height.value,
            layers: self.beam.layers.value,
            wood: self.stood.wood,
            seats: self.stood.ring.layout.rafters.iter().map(support).collect(),
            anchors: anchors.collect(),
        }
    }

    fn resists(&self) -> Vec<Resists> {
        let (held, factors) = (self.stood.held, &self.stood.factors);
        let bears = factors.bears(held, &self.stood.strength.durations, BRACED, self.beam.height.value);
        let resists = |one: crate::roof::standing::Bears| Resists {
            bending: one.bending,
            tension: one.tension,
            compression: one.compression,
            shear: one.shear,
            twist: one.shear * (self.shape / factors.uncracked),
        };
        bears.into_iter().map(resists).collect()
    }

    /// For each side of the beam's line the part that it lies in.
    fn sides(&self) -> Vec<usize> {
        let whole = self.house.wall.line.length();
        let lies = |along: f64| {
            let over =
                |[from, to]: [f64; 2]| [-whole, 0.0, whole].iter().any(|turn| (from..=to).contains(&(along + turn)));
            let stretch = self.beam.stretches.iter().position(|stretch| over(stretch.along)).unwrap_or(0);
            self.beam.parts.iter().position(|part| part.over.contains(&stretch)).unwrap_or(0)
        };
        (0..CORNERS).map(|side| lies(middle(whole, f64::from(side) + 0.5))).collect()
    }

    fn parts(&self, answers: &Answers, under: &Under<'_>, rows: &mut Rows) {
        let sides = self.sides();
        let of = |kind: Feet| self.feet.iter().position(|feet| *feet == kind);
        let Some(worst) = of(Feet::Sliding).map(|group| answers.worst(group, &sides, under)) else { return };
        let held = of(Feet::Held).map(|group| answers.worst(group, &sides, under)).unwrap_or_default();
        for (place, (part, worst)) in
            self.beam.parts.iter().zip(&worst).enumerate().filter(|(_, (_, worst))| worst.bending.share > 0.0)
        {
            let on = &self.beam.stretches[part.longest];
            let words: Vec<String> = part.over.iter().map(|&place| self.beam.stretches[place].words()).collect();
            let part = Part { laid: self, name: &on.name, on: format!("bond beam over {}", words.join(" with ")) };
            part.bending(worst, rows);
            part.ring(worst, rows);
            part.shear(worst, rows);
            part.twist(worst, rows);
            if let Some(held) = held.get(place) {
                part.held(held, rows);
            }
        }
    }

    fn governs(&self, combination: usize, group: usize) -> Governs<'_> {
        self.stood.governs(combination, self.feet[group])
    }

    /// Adds what makes a force in plan: the ring of poles and its loads, and how easily the beam bends there against being pulled.
    fn in_plan<T>(&self, answer: Answer<T>, used: &Used, rows: &Rows) -> Answer<T> {
        let answer = self.stood.bound(answer, &self.governs(used.combination, used.group), rows);
        bind(answer, rows, "wall.bond-beam.width")
    }

    /// Adds what makes a force that the earth and, where it is lifted, the anchors have a part in.
    fn upright<T>(&self, answer: Answer<T>, used: &Used, rows: &Rows) -> Answer<T> {
        let answer = self.stood.bound(answer, &self.governs(used.combination, used.group), rows);
        let answer = bind(bind(answer, rows, &path("soft-length")), rows, "roof.seat");
        if used.is_lifted { self.anchored(answer, rows) } else { answer }
    }

    fn anchored<T>(&self, answer: Answer<T>, rows: &Rows) -> Answer<T> {
        let sizes = ["wall.bond-beam.width", "wall.bond-beam.height", "wall.bond-beam.layers"];
        let answer = sizes.iter().fold(answer, |answer, path| bind(answer, rows, path));
        let nouns = self.house.anchors.iter().flat_map(|own| ["along", "spacing", "count"].map(|noun| own.path(noun)));
        nouns.fold(answer, |answer, path| bind(answer, rows, &path))
    }
}

fn middle(length: f64, corner: f64) -> f64 {
    length * corner / f64::from(CORNERS)
}

/// What bears of the beam.
fn left(beam: &BondBeam, rows: &mut Rows) -> Left {
    let (width, height, layers) = (beam.width.value, beam.height.value, beam.layers.value);
    let planks = timber::whole_planks(layers).from("layers", beam.layers.path.as_str());
    let planks =
        rows.add(path("planks"), "planks of the bond beam that count in strength, one less for its scarfs", planks);
    let sized = |answer: Answer<SectionModulus>| {
        let answer = answer.from("width", beam.width.path.as_str()).from("height", beam.height.path.as_str());
        answer.from("layers", beam.layers.path.as_str()).from("planks", path("planks"))
    };
    let area = timber::planks_area(width, height, layers, planks)
        .from("width", beam.width.path.as_str())
        .from("height", beam.height.path.as_str())
        .from("layers", beam.layers.path.as_str())
        .from("planks", path("planks"));
    let area: Area = rows.add(path("area"), "area of those planks", area);
    let upright = sized(timber::planks_upright(width, height, layers, planks));
    let plan = sized(timber::planks_plan(width, height, layers, planks));
    let twist = sized(timber::planks_twist(width, height, layers, planks));
    Left {
        area,
        upright: rows.add(path("upright.modulus"), "section modulus of those planks, up and down", upright),
        plan: rows.add(path("plan.modulus"), "section modulus of those planks, in plan", plan),
        twist: rows.add(path("twist.modulus"), "torque over its greatest stress, of those planks", twist),
    }
}

/// Over which length the beam hands a load on to soft earth and to stiff earth; as if only the planks that count lay there.
fn elastic(beam: &BondBeam, stood: &Stood<'_>, plank: Length, rows: &mut Rows) -> [Length; 2] {
    let planks = timber::whole_planks(beam.layers.value).value as f64;
    let second: SecondMoment = section::rectangle_second_moment(beam.width.value, plank).value * planks;
    ["soft", "stiff"].map(|noun| {
        let (earth, origin, why) = match noun {
            "soft" => ("earth-soft-mpa", Origin::Judgement, "a cob wall that has not dried through"),
            _ => ("earth-stiff-mpa", Origin::Memory, "dry cob walls in tests, and stiffer ones"),
        };
        let earth = Known::assumed(Pressure::mpa(number(earth)), path(&format!("{noun}-earth")), origin, why);
        let earth =
            rows.known(format!("modulus of elasticity of the earth under the bond beam, where it is {noun}"), &earth);
        let bed = ring::bed_stiffness(earth, beam.width.value, stood.wood.young, second, number("earth-poisson"));
        let bed = bed
            .from("earth", path(&format!("{noun}-earth")))
            .from("width", beam.width.path.as_str())
            .from("stiffness", "poles.strength.stiffness")
            .without("second moment")
            .without("poisson");
        let bed =
            [beam.height.path.as_str(), beam.layers.path.as_str()].iter().fold(bed, |bed, path| bind(bed, rows, path));
        let title = format!("how stiff {noun} earth bears each metre of the bond beam");
        let bed = rows.add(path(&format!("{noun}-bed")), title, bed);
        let length = ring::elastic_length(bed, stood.wood.young, second)
            .from("bed", path(&format!("{noun}-bed")))
            .from("stiffness", "poles.strength.stiffness")
            .without("second moment");
        let length = [beam.width.path.as_str(), beam.height.path.as_str(), beam.layers.path.as_str()]
            .iter()
            .fold(length, |length, path| bind(length, rows, path));
        let title = format!("length to either side over which the bond beam hands a load on to {noun} earth");
        rows.add(path(&format!("{noun}-length")), title, length)
    })
}

/// A part of the beam.
struct Part<'a> {
    laid: &'a Laid<'a, 'a>,
    name: &'a str,
    on: String,
}

impl Part<'_> {
    fn row(&self, noun: &str) -> String {
        path(&format!("{}.{noun}", self.name))
    }

    fn title(&self, words: &str, used: &Used) -> String {
        format!("{}: {words}, under {}", self.on, self.laid.governs(used.combination, used.group).words())
    }

    fn duration(&self, used: &Used) -> f64 {
        self.laid.stood.strength.durations[used.combination]
    }

    /// Drops the factors of the tables and adds the strength and the place of damp.
    fn by_wood(&self, share: Answer<Ratio>, noun: &str, rows: &Rows) -> Answer<Ratio> {
        let share = ["strength", "duration", "partial"].iter().fold(share, |share, name| share.without(name));
        bind(bind(share, rows, &format!("poles.strength.{noun}")), rows, "poles.damp")
    }

    fn strength(&self, noun: &str) -> Pressure {
        let values = &self.laid.stood.held.wood.values;
        let value = match noun {
            "bending" => &values.bending,
            "tension" => &values.tension,
            "compression" => &values.compression,
            _ => &values.shear,
        };
        value.value * self.laid.stood.factors.wet(noun)
    }

    fn bent(&self, used: &Used) -> Answer<Ratio> {
        let (left, forces, partial) = (&self.laid.left, &used.forces, self.laid.stood.factors.partial);
        let (duration, strength) = (self.duration(used), self.strength("bending"));
        timber::bent_both_ways(forces.upright, forces.plan, left.upright, left.plan, strength, duration, partial)
    }

    fn bending(&self, worst: &Worst, rows: &mut Rows) {
        let used = &worst.bending;
        let upright = self.laid.upright(timber::beam_upright(used.forces.upright), used, rows);
        rows.add(self.row("moment-upright"), self.title("moment up and down", used), upright);
        let plan = self.laid.in_plan(timber::beam_plan(used.forces.plan), used, rows);
        rows.add(self.row("moment-plan"), self.title("moment in plan at the same place", used), plan);
        let share = self
            .bent(used)
            .from("upright", self.row("moment-upright"))
            .from("plan", self.row("moment-plan"))
            .from("upright modulus", path("upright.modulus"))
            .from("plan modulus", path("plan.modulus"));
        let share = self.by_wood(share, "bending", rows);
        let noun = self.laid.stood.factors.noun("bending");
        rows.add(self.row(&noun), self.title(members::words("bending"), used), share);
        for (noun, of, words) in [
            ("scarf-upright", "moment-upright", "moment up and down that a scarf must carry, each plank"),
            ("scarf-plan", "moment-plan", "moment in plan that a scarf must carry, each plank"),
        ] {
            let moment = rows.value(&self.row(of)).unwrap_or(Moment::ZERO);
            let each = timber::scarf_moment(moment, self.laid.beam.layers.value)
                .from("moment", self.row(of))
                .from("layers", self.laid.beam.layers.path.as_str());
            rows.add(self.row(noun), format!("{}: {words}", self.on), each);
        }
    }

    fn ring(&self, worst: &Worst, rows: &mut Rows) {
        let (used, factors) = (&worst.ring, &self.laid.stood.factors);
        let force = self.laid.in_plan(timber::ring_force(used.forces.pull), used, rows);
        let force = rows.add(self.row("ring-force"), self.title("ring force, push below zero", used), force);
        let along = if used.forces.pull > crate::units::Force::ZERO { "tension" } else { "compression" };
        let bent = self.bent(used).value;
        let (area, strength) = (self.laid.left.area, self.strength(along));
        let share = timber::ring_used(force, area, strength, bent, self.duration(used), factors.partial)
            .from("force", self.row("ring-force"))
            .from("area", path("area"))
            .without("bending used");
        let moments = ["upright.modulus", "plan.modulus"].map(path);
        let share = moments.iter().fold(share, |share, path| bind(share, rows, path));
        let share = bind(self.by_wood(share, along, rows), rows, "poles.strength.bending");
        let share = self.laid.upright(share, used, rows);
        rows.add(self.row(&factors.noun("ring")), self.title("strength used by ring force and bending", used), share);
        let each = timber::scarf_pull(force, self.laid.beam.layers.value)
            .from("force", self.row("ring-force"))
            .from("layers", self.laid.beam.layers.path.as_str());
        rows.add(
            self.row("scarf-force"),
            format!("{}: force along that a scarf must carry, each plank", self.on),
            each,
        );
    }

    fn shear(&self, worst: &Worst, rows: &mut Rows) {
        let (used, factors) = (&worst.shear, &self.laid.stood.factors);
        let force = self.laid.upright(timber::beam_shear(used.forces.shear), used, rows);
        let force = rows.add(self.row("shear-force"), self.title("force across it", used), force);
        let (area, strength) = (self.laid.left.area, self.strength("shear"));
        let share =
            timber::planks_sheared(force, area, factors.uncracked, strength, self.duration(used), factors.partial)
                .from("shear", self.row("shear-force"))
                .from("area", path("area"))
                .without("uncracked");
        let share = self.by_wood(share, "shear", rows);
        rows.add(self.row(&factors.noun("shear")), self.title(members::words("shear"), used), share);
    }

    fn twist(&self, worst: &Worst, rows: &mut Rows) {
        let (used, factors) = (&worst.twist, &self.laid.stood.factors);
        if !used.is_lifted {
            return;
        }
        let governs = self.laid.governs(used.combination, used.group);
        let twist = self.laid.stood.bound(timber::beam_twist(used.forces.twist), &governs, rows);
        let twist = self.laid.anchored(twist, rows);
        let twist = rows.add(self.row("twist-moment"), self.title("twist between anchors", used), twist);
        let (modulus, strength) = (self.laid.left.twist, self.strength("shear"));
        let share = timber::twist_used(twist, modulus, self.laid.shape, strength, self.duration(used), factors.partial)
            .from("twist", self.row("twist-moment"))
            .from("modulus", path("twist.modulus"))
            .without("shape");
        let sizes = ["wall.bond-beam.width", "wall.bond-beam.height", "wall.bond-beam.layers"];
        let share = sizes.iter().fold(share, |share, path| bind(share, rows, path));
        let share = self.by_wood(share, "shear", rows);
        rows.add(self.row(&factors.noun("twist")), self.title("shear strength used by twist", used), share);
    }

    /// What the ring would carry if it alone held what poles thrust on feet that do not give.
    fn held(&self, held: &Worst, rows: &mut Rows) {
        let used = &held.ring;
        let force = self.laid.in_plan(timber::held_ring_force(used.forces.pull), used, rows);
        let title = self.title("ring force, push below zero, if the ring alone held its poles", used);
        rows.add(self.row("held-force"), title, force);
        let moment = self.laid.in_plan(timber::held_ring_moment(used.forces.plan), used, rows);
        let title = self.title("moment in plan there, if the ring alone held its poles", used);
        rows.add(self.row("held-moment"), title, moment);
    }
}
