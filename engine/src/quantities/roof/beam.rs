//! Rows of the bond beam under a ring of poles: what bends, pulls, shears and twists each part of it, and what its scarfs must carry.

mod anchors;
mod held;
mod left;
mod planks;
mod seats;
mod tipping;
mod unknown;

pub(super) use unknown::{not_known, under_no_ring};

use super::super::line::bind;
use super::hold::{Governs, Stood};
use super::members;
use crate::house::built_in::{Lie, Stretch};
use crate::house::{BondBeam, Code, House};
use crate::reason::Answer;
use crate::roof::beam::{self as ring, Answers, Beam, Left, Presses, Resists, Under, Used, Worst};
use crate::roof::poles::Rafter;
use crate::roof::standing::Feet;
use crate::row::Rows;
use crate::timber::{beam as timber, section};
use crate::units::{Force, Length, Moment, Pressure, Ratio};
use planks::Planks;

/// Sides of the beam's line as it is followed all the way round a curve; where it is straight one is enough.
const SIDES: f64 = 20.0;

/// How far eave and plate lie outside of the wall's line.
const OUT: [&str; 2] = ["roof.eave-offset", "roof.plate-offset"];

/// Why neither shares of its strength nor of its anchors are known where secondary rafters lie on it.
const BESIDE: &str = "what secondary rafters press on it and lift between the poles is not counted";

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
    planks: Planks<'a>,
    feet: Vec<Feet>,
    groups: Vec<Vec<Presses>>,
    shares: Vec<Vec<f64>>,
    left: Left,
    shape: f64,
    /// Where each corner of its line lies along that of the wall, in metres, and of which part the side after it is.
    corners: Vec<(f64, usize)>,
    /// Rows that place its anchors, and its sizes, by which it shares out among them.
    anchored: Vec<String>,
    /// How wide each pole lies on it.
    flats: Vec<Length>,
    /// How far each goes on outwards from its middle, at least.
    beyond: Length,
    /// Over which it hands a load on: to soft earth, to stiff earth.
    elastic: [Length; 2],
    /// Why no share of its strength is known.
    unknown: Option<String>,
}

pub(super) fn walk(house: &House, stood: &Stood<'_>, rows: &mut Rows) {
    let beam = house.bond_beam.as_ref().filter(|_| house.wall.line.is_closed());
    let Some((beam, planks)) = beam.and_then(|beam| Some((beam, Planks::of(stood, rows)?))) else {
        return unknown::without_beam(house, &stood.factors, rows);
    };
    let mut laid = Laid::of((house, beam), stood, planks, rows);
    let weights: Vec<f64> = stood.lifting.combinations.iter().map(|one| one.weight).collect();
    let answers = match laid.ring().answers(&laid.groups, &laid.shares, &weights) {
        Ok(answers) => answers,
        Err(fault) => return unknown::all(house, &stood.factors, &fault.to_string(), rows),
    };
    laid.unknown = match answers.anchors() {
        Err(fault) => Some(fault.to_string()),
        Ok(_) if timber::whole_planks(beam.layers.value).value == 0 => {
            Some("each scarf cuts its only layer, and what a scarf carries is not known".to_owned())
        }
        Ok(_) if laid.has_secondary() => Some(BESIDE.to_owned()),
        Ok(_) => None,
    };
    let resists = laid.resists();
    let under = Under {
        combinations: &laid.shares[..resists.len()],
        resists: &resists,
        elastic: laid.elastic[0],
        spreads: &laid.flats,
        left: laid.left,
    };
    laid.parts(&answers, &under, rows);
    laid.seats(&answers, rows);
    laid.anchors(&answers, rows);
}

impl<'a, 'b> Laid<'a, 'b> {
    fn of(
        (house, beam): (&'a House, &'a BondBeam),
        stood: &'a Stood<'b>,
        planks: Planks<'a>,
        rows: &mut Rows,
    ) -> Laid<'a, 'b> {
        let (feet, groups) = stood.model.on_wall(&stood.answers).into_iter().unzip();
        let shares = stood.lifting.combinations.iter().map(|one| stood.answers.shares(one)).collect();
        let left = left::left(beam, rows);
        let plank = beam.height.value / beam.layers.value as f64;
        let shape = timber::twist_shape(beam.width.value, plank, number("twist-more"), number("twist-most")).value;
        let elastic = left::elastic(beam, &planks, plank, rows);
        // As far from its butt as the eave stands out from the plate; a pole that slants lies on it a little farther in, where it is
        // less than a hundredth thinner.
        let [eave, plate] = OUT.map(|path| rows.value::<Length>(path).unwrap_or(Length::ZERO));
        let flat =
            |rafter: &Rafter| section::seat_width(rafter.pole.diameter(eave - plate), stood.ring.seat.value).value;
        let flats = stood.ring.layout.rafters.iter().map(flat).collect();
        let corners = corners(beam, house.wall.line.length());
        let sizes = ["width", "height", "layers"].map(|noun| format!("wall.bond-beam.{noun}"));
        let nouns = house.anchors.iter().flat_map(|own| ["along", "spacing", "count"].map(|noun| own.path(noun)));
        let wood = [&planks.wood.density.path, &planks.wood.values.stiffness.path];
        let wood = wood.into_iter().chain([&planks.wood.values.shear_stiffness.path]).cloned();
        let anchored = sizes.into_iter().chain(nouns).chain(wood).collect();
        let unknown = None;
        Laid {
            house,
            beam,
            stood,
            planks,
            feet,
            groups,
            shares,
            left,
            shape,
            corners,
            anchored,
            flats,
            beyond: eave - plate,
            elastic,
            unknown,
        }
    }

    fn has_secondary(&self) -> bool {
        self.house.roof.as_ref().is_some_and(|roof| roof.secondary.is_some())
    }

    fn ring(&self) -> Beam {
        let line = &self.house.wall.line;
        let at = |along: f64| {
            let at = line.at(along).beside(self.beam.offset.in_m());
            [at.x, at.y].map(Length::m)
        };
        // A strap comes up through the beam plumb over its deadman.
        let spots = self.house.anchors.iter().flat_map(|anchors| &anchors.spots);
        let anchors = spots.map(|spot| ring::Anchor { at: at(line.along_line(spot.station)), gives: None });
        let support = |rafter: &Rafter| [rafter.support[0], rafter.support[1]];
        Beam {
            line: self.corners.iter().map(|&(along, _)| at(along)).collect(),
            width: self.beam.width.value,
            height: self.beam.height.value,
            layers: self.beam.layers.value,
            wood: self.planks.ring(),
            seats: self.stood.ring.layout.rafters.iter().map(support).collect(),
            anchors: anchors.collect(),
        }
    }

    fn resists(&self) -> Vec<Resists> {
        let planks = &self.planks;
        let resists = |duration: &f64| {
            let bears = |noun: &str| planks.strength(noun) * (duration / planks.factors.partial);
            Resists {
                bending: bears("bending"),
                tension: bears("tension"),
                compression: bears("compression"),
                shear: bears("shear") * planks.factors.uncracked,
                twist: bears("shear") * self.shape,
            }
        };
        planks.durations.iter().map(resists).collect()
    }

    fn parts(&self, answers: &Answers, under: &Under<'_>, rows: &mut Rows) {
        let sides: Vec<usize> = self.corners.iter().map(|&(_, part)| part).collect();
        let of = |kind: Feet| self.feet.iter().position(|feet| *feet == kind);
        let Some(sliding) = of(Feet::Sliding) else { return };
        let held = of(Feet::Held).map_or_else(Vec::new, |group| answers.thrust(group, &sides, under));
        let worst = answers.worst(sliding, &sides, under);
        for (place, worst) in worst.iter().enumerate().filter(|(_, worst)| worst.bending.share > 0.0) {
            let part = self.part(place);
            part.bending(worst, rows);
            part.ring(worst, rows);
            part.shear(worst, rows);
            part.twist(worst, rows);
            if let Some(held) = held.get(place) {
                part.held(held, rows);
            }
        }
        let most = held.iter().enumerate().max_by(|one, other| one.1.share.total_cmp(&other.1.share));
        let Some((place, most)) = most else { return };
        self.part(place).held_alone(most, rows);
    }

    fn part(&self, place: usize) -> Part<'_> {
        let part = &self.beam.parts[place];
        let words: Vec<String> = part.over.iter().map(|&place| self.beam.stretches[place].words()).collect();
        let name = &self.beam.stretches[part.longest].name;
        Part { laid: self, name, on: format!("bond beam over {}", words.join(" with ")) }
    }

    fn governs(&self, combination: usize, group: usize) -> Governs<'_> {
        self.stood.governs(combination, self.feet[group])
    }

    /// Adds what makes a force in plan where the beam is used most: the planks that count have a part in which place that is.
    fn in_plan_at_the_worst<T>(&self, answer: Answer<T>, used: &Used, rows: &Rows) -> Answer<T> {
        bind(self.in_plan(answer, used, rows), rows, &path("planks"))
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
        self.anchored.iter().fold(answer, |answer, path| bind(answer, rows, path))
    }
}

/// Which strength the ring force uses.
fn along(used: &Used) -> &'static str {
    if used.forces.pull > Force::ZERO { "tension" } else { "compression" }
}

/// Where the corners of a beam's line lie along a wall's line so long, and of which part each side is.
fn corners(beam: &BondBeam, whole: f64) -> Vec<(f64, usize)> {
    let of = |(place, stretch): (usize, &Stretch)| {
        let part = beam.parts.iter().position(|part| part.over.contains(&place)).unwrap_or(0);
        let [from, long] = [stretch.along[0], stretch.along[1] - stretch.along[0]];
        let sides = if stretch.way == Lie::Straight { 1.0 } else { (SIDES * long / whole).ceil().max(1.0) };
        (0..sides as u32).map(move |side| (from + long * f64::from(side) / sides, part))
    };
    beam.stretches.iter().enumerate().flat_map(of).collect()
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
        self.laid.planks.durations[used.combination]
    }

    /// A share of its strength, where it is known.
    fn share(&self, noun: &str, title: String, share: Answer<Ratio>, rows: &mut Rows) {
        match &self.laid.unknown {
            Some(why) => rows.not_known(self.row(noun), format!("{title} ({why})")),
            None => drop(rows.add(self.row(noun), title, share)),
        }
    }

    /// Drops the factors of the tables and adds the strength and the place of damp.
    fn by_wood(&self, share: Answer<Ratio>, noun: &str, rows: &Rows) -> Answer<Ratio> {
        let share = ["strength", "duration", "partial"].iter().fold(share, |share, name| share.without(name));
        self.laid.planks.bound(share, noun, rows)
    }

    fn strength(&self, noun: &str) -> Pressure {
        self.laid.planks.strength(noun)
    }

    fn bent(&self, used: &Used) -> Answer<Ratio> {
        let (left, forces, partial) = (&self.laid.left, &used.forces, self.laid.planks.factors.partial);
        let (duration, strength) = (self.duration(used), self.strength("bending"));
        timber::bent_both_ways(forces.upright, forces.plan, left.upright, left.plan, strength, duration, partial)
    }

    fn bending(&self, worst: &Worst, rows: &mut Rows) {
        let used = &worst.bending;
        let upright = self.laid.upright(timber::beam_upright(used.forces.upright), used, rows);
        rows.add(self.row("moment-upright"), self.title("moment up and down", used), upright);
        let plan = self.laid.in_plan_at_the_worst(timber::beam_plan(used.forces.plan), used, rows);
        rows.add(self.row("moment-plan"), self.title("moment in plan at the same place", used), plan);
        let share = self
            .bent(used)
            .from("upright", self.row("moment-upright"))
            .from("plan", self.row("moment-plan"))
            .from("upright modulus", path("upright.modulus"))
            .from("plan modulus", path("plan.modulus"));
        let share = self.by_wood(share, "bending", rows);
        let noun = self.laid.stood.factors.noun("bending");
        self.share(&noun, self.title(members::words("bending"), used), share, rows);
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
        let (used, factors) = (&worst.ring, &self.laid.planks.factors);
        let force = self.laid.in_plan_at_the_worst(timber::ring_force(used.forces.pull), used, rows);
        let force = rows.add(self.row("ring-force"), self.title("ring force, push below zero", used), force);
        let along = along(used);
        let bent = self.bent(used).value;
        let (area, strength) = (self.laid.left.area, self.strength(along));
        let share = timber::ring_used(force, area, strength, bent, self.duration(used), factors.partial)
            .from("force", self.row("ring-force"))
            .from("area", path("area"))
            .without("bending used");
        let share = self.by_ring_and_bending(share, along, rows);
        let share = self.laid.upright(share, used, rows);
        self.share(&factors.noun("ring"), self.title("strength used by ring force and bending", used), share, rows);
        let each = timber::scarf_pull(force, self.laid.beam.layers.value)
            .from("force", self.row("ring-force"))
            .from("layers", self.laid.beam.layers.path.as_str());
        rows.add(
            self.row("scarf-force"),
            format!("{}: force along that a scarf must carry, each plank", self.on),
            each,
        );
    }

    /// Adds what bears of the beam in bending, beside what `by_wood` adds.
    fn by_ring_and_bending(&self, share: Answer<Ratio>, along: &str, rows: &Rows) -> Answer<Ratio> {
        let moments = ["upright.modulus", "plan.modulus"].map(path);
        let share = moments.iter().fold(share, |share, path| bind(share, rows, path));
        bind(self.by_wood(share, along, rows), rows, &self.laid.planks.wood.values.bending.path)
    }

    fn shear(&self, worst: &Worst, rows: &mut Rows) {
        let (used, factors) = (&worst.shear, &self.laid.planks.factors);
        let force = self.laid.upright(timber::beam_shear(used.forces.shear), used, rows);
        let force = rows.add(self.row("shear-force"), self.title("force across it", used), force);
        let (area, strength) = (self.laid.left.area, self.strength("shear"));
        let share =
            timber::planks_sheared(force, area, factors.uncracked, strength, self.duration(used), factors.partial)
                .from("shear", self.row("shear-force"))
                .from("area", path("area"))
                .without("uncracked");
        let share = self.by_wood(share, "shear", rows);
        self.share(&factors.noun("shear"), self.title(members::words("shear"), used), share, rows);
    }

    fn twist(&self, worst: &Worst, rows: &mut Rows) {
        let (used, factors) = (&worst.twist, &self.laid.planks.factors);
        let words = "shear strength used by twist";
        if !used.is_lifted {
            // Poles do not lift it, and what lies between them may.
            if self.laid.has_secondary() && factors.code == Code::En {
                rows.not_known(self.row("twist"), format!("{}: {words} ({BESIDE})", self.on));
            }
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
        self.share(&factors.noun("twist"), self.title(words, used), share, rows);
    }
}
