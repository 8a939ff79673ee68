//! Rows of the scarfs of a bond beam: what the bolts of one must hand over in each part, what they hold, and the room that they want.

use super::Laid;
use super::part::Part;
use crate::house::Code;
use crate::quantities::line::bind;
use crate::quantities::roof::crossings;
use crate::reason::Answer;
use crate::roof::beam::{self as ring, Scarfs, Used, Worst};
use crate::row::Rows;
use crate::timber::tables::factor;
use crate::timber::{beam as timber, bolt, distances, used};
use crate::units::{Angle, Force, Length, Pressure, Ratio};

/// What one bolt of a scarf carries before factors of time and material: across it, along it by its washers and by its steel.
#[derive(Clone, Copy)]
pub(super) struct Bolted {
    across: Force,
    washers: Force,
    steel: Force,
}

/// The scarfs of a beam with what one of their bolts carries; else why that is not known.
pub(super) type Known = Result<(Scarfs, Bolted), &'static str>;

const ACROSS: &str = "roof.scarf.across";
const WASHERS: &str = "roof.scarf.washers";
const STEEL: &str = "roof.scarf.steel";

fn number(name: &str) -> f64 {
    factor(name).map_or(f64::NAN, |fact| fact.number)
}

impl Bolted {
    /// What it holds by design, across it and along it, for a factor of time.
    fn holds(&self, (code, duration, partial): (Code, f64, f64)) -> [Force; 2] {
        // Allowable pressure across the grain knows no duration.
        let washers = if code == Code::En { self.washers * (duration / partial) } else { self.washers };
        [self.across * (duration / partial), washers.min(self.steel)]
    }
}

impl Laid<'_> {
    /// What the bolts of a scarf hold, and the room that they want.
    pub(super) fn scarfs(&self, rows: &mut Rows) -> Known {
        self.room(rows);
        let planks = timber::whole_planks(self.beam.layers.value).value;
        if planks == 0 {
            return Err("each scarf cuts its only layer, and no plank beside it carries what it must");
        }
        let bolted = self.bolted(rows)?;
        let halves = self.beam.parts.iter().map(|part| {
            let length = Length::m(part.middle.length());
            ring::half_piece(length, part.division.pieces).value
        });
        let (code, partial) = (self.planks.factors.code, self.planks.factors.partial);
        let bolts = self.beam.bolts.value as f64;
        let holds = self
            .planks
            .durations
            .iter()
            .map(|&duration| bolted.holds((code, duration, partial)).map(|force| force * bolts));
        Ok((Scarfs { halves: halves.collect(), planks, holds: holds.collect() }, bolted))
    }

    /// The room that the bolts want.
    fn room(&self, rows: &mut Rows) {
        let (beam, d) = (self.beam, self.beam.bolt.diameter.value);
        let (bolts, scarf) = (beam.bolts.value, beam.scarf.value);
        rows.known("diameter of the bolts through the scarfs of the bond beam", &beam.bolt.diameter);
        rows.known("side of the washers of those bolts", &beam.bolt.washer);
        let along = match self.planks.factors.code {
            Code::En => distances::room_along(d, bolts, scarf),
            Code::Asce => distances::room_along_asd(d, bolts, scarf),
        };
        let along = along
            .from("diameter", beam.bolt.diameter.path.as_str())
            .from("bolts", beam.bolts.path.as_str())
            .from("scarf", beam.scarf.path.as_str());
        rows.add("roof.scarf.room.along", "share of a scarf's length that its bolts want in a row along it", along);
        let across = distances::room_across(d, beam.width.value)
            .from("diameter", beam.bolt.diameter.path.as_str())
            .from("width", beam.width.path.as_str());
        rows.add(
            "roof.scarf.room.across",
            "share of the beam's width that a row of bolts along its middle wants",
            across,
        );
    }

    /// What one bolt carries, through the halves of a plank where they lie on each other.
    fn bolted(&self, rows: &mut Rows) -> Result<Bolted, &'static str> {
        let (beam, bolt) = (self.beam, &self.beam.bolt);
        let half = beam.height.value / (2.0 * beam.layers.value as f64);
        let is_european = self.planks.factors.code == Code::En;
        let across = if is_european { self.by_johansen(half) } else { self.by_allowed(half) };
        let Some((across, density)) = across else {
            return Err("nobody wrote of which class its planks are, and how dense their wood is");
        };
        let across = bind(bolt::in_all_planes(across), rows, &bolt.diameter.path);
        let sizes = [beam.height.path.as_str(), beam.layers.path.as_str(), density];
        let across = sizes.iter().fold(across, |answer, path| bind(answer, rows, path));
        let title = "what one bolt of a scarf carries across it, between halves of a plank, before factors of time and material";
        let across = rows.add(ACROSS, title, across);
        let d = bolt.diameter.value;
        let washer = bolt::washer_area(bolt.washer.value, d).value;
        let strength = self.planks.strength("across");
        let washers =
            if is_european { bolt::washer_pull(strength, washer) } else { bolt::washer_pull_allowed(strength, washer) };
        let sizes = [&bolt.washer.path, &bolt.diameter.path];
        let washers = washers.without("across").without("washer");
        let washers = sizes.iter().fold(washers, |answer, path| bind(answer, rows, path));
        let washers = self.planks.bound(washers, "across", rows);
        let washers = rows.add(WASHERS, "what it carries along it by its washers, before those factors", washers);
        let steel = if is_european {
            let [thread, share, factor] = ["bolt-thread-share", "bolt-tension-share", "gamma-m2"].map(number);
            let steel = bolt::tension(d, Pressure::pa(number("bolt-tension-pa")), thread, share, factor);
            steel.without("thread share").without("share").without("steel factor")
        } else {
            bolt::tension_allowed(d, Pressure::pa(number("bolt-allowed-tension-pa")))
        };
        let steel = steel.without("strength").from("diameter", bolt.diameter.path.as_str());
        let steel = rows.add(STEEL, "what it carries along it by its steel", steel);
        Ok(Bolted { across, washers, steel })
    }

    /// What a bolt carries across it by the European code, and the row of the density that it follows from.
    fn by_johansen(&self, half: Length) -> Option<(Force, &str)> {
        let (values, bolt) = (&self.planks.wood.values, &self.beam.bolt);
        let sizes = (bolt.diameter.value, bolt.washer.value);
        let [_, across, ..] = crossings::carried(values, self.planks.factors.partial, sizes, [half; 2])?;
        let [low, _] = values.densities.as_ref()?;
        Some((across, &low.path))
    }

    /// The same by allowable stresses.
    fn by_allowed(&self, half: Length) -> Option<(Force, &str)> {
        let gravity = self.planks.wood.values.gravity.as_ref()?;
        let (d, right) = (self.beam.bolt.diameter.value, Angle::rad(std::f64::consts::FRAC_PI_2));
        let wood = bolt::embedment_of_gravity_across(gravity.value, d).value;
        let yields = bolt::yield_moment_of_strength(d, Pressure::pa(number("bolt-yield-pa"))).value;
        let [crushed, tilted, bent] = ["rd-crushed", "rd-tilted", "rd-bent"].map(number);
        let allowed = |force: Force, reduction: f64| bolt::allowed(force, reduction, right).value;
        let ways = [
            allowed(bolt::crushed(wood, half, d).value, crushed),
            allowed(bolt::tilted(wood, wood, half, half, d).value, tilted),
            allowed(bolt::bent_once(wood, wood, half, d, yields).value, bent),
            allowed(bolt::bent_twice(wood, wood, d, yields).value, bent),
        ];
        Some((bolt::least(&ways)?.1 * self.planks.factors.wet("bolt"), &gravity.path))
    }
}

impl Part<'_> {
    /// What a scarf must hand over where its bolts are used most, and the share of what they hold.
    pub(super) fn scarf(&self, worst: &Worst, scarfs: &Known, rows: &mut Rows) {
        let (used, factors) = (&worst.scarf, &self.laid.planks.factors);
        let (noun, words) = (factors.noun("scarf"), "share used of the bolts of a scarf");
        let (scarfs, bolted) = match scarfs {
            Ok(known) => known,
            Err(why) => return rows.not_known(self.row(&noun), format!("{}: {words} ({why})", self.on)),
        };
        if used.share <= 0.0 {
            return;
        }
        let planks = scarfs.planks;
        let half = self.half(rows);
        let [along, across] =
            if self.laid.on.thrusts() { self.handed_in_plan(half, planks, used, rows) } else { [Force::ZERO; 2] };
        let lift = ring::handed_over(half, planks, used.forces.upright).from("half", self.row("half-piece"));
        let lift = self.laid.upright(lift.from("planks", super::path("planks")), used, rows);
        let lift = self.handed("scarf-lift", "force by which its planks would gape", lift, used, rows);
        let bolts = self.laid.beam.bolts.value;
        let [across, along] = [ring::across_bolt(along, across, bolts).value, ring::along_bolt(lift, bolts).value];
        let share = self.share_of_a_bolt((across, along), bolted, used);
        let nouns = ["scarf-force", "scarf-across", "scarf-lift"].map(|noun| self.row(noun));
        let share = nouns.iter().fold(share, |share, path| bind(share, rows, path));
        let share = bind(share, rows, &self.laid.beam.bolts.path);
        let in_plan = self.laid.on.thrusts().then_some(ACROSS);
        // Of washers and steel those count that give first.
        let factors = (factors.code, self.duration(used), factors.partial);
        let gives = if bolted.holds(factors)[1] < bolted.steel { WASHERS } else { STEEL };
        let share = in_plan.iter().chain(&[gives]).fold(share, |share, path| bind(share, rows, path));
        let share = bind(share, rows, &self.laid.planks.wood.damp.path);
        rows.add(self.row(&noun), self.title(words, used), share);
    }

    /// What its bolts hand over in plan, along the beam and across it.
    fn handed_in_plan(&self, half: Length, planks: u64, used: &Used, rows: &mut Rows) -> [Force; 2] {
        let along = ring::handed_along(planks, used.forces.pull).from("planks", super::path("planks"));
        let along = self.handed("scarf-force", "force along", self.laid.in_plan(along, used, rows), used, rows);
        let across = ring::handed_over(half, planks, used.forces.plan).from("half", self.row("half-piece"));
        let across = self.laid.in_plan(across.from("planks", super::path("planks")), used, rows);
        [along, self.handed("scarf-across", "force across", across, used, rows)]
    }

    fn share_of_a_bolt(&self, (across, along): (Force, Force), bolted: &Bolted, used: &Used) -> Answer<Ratio> {
        let (factors, duration) = (&self.laid.planks.factors, self.duration(used));
        let washers = if factors.code == Code::En { bolted.washers } else { bolted.washers / duration };
        let share = used::bolt_used(across, along, bolted.across, washers, bolted.steel, duration, factors.partial);
        let dropped = ["across", "along", "carried across", "carried along", "steel", "duration", "partial"];
        dropped.iter().fold(share, |share, name| share.without(name))
    }

    /// Half of the way from joint to joint of a layer.
    fn half(&self, rows: &mut Rows) -> Length {
        let part = &self.laid.beam.parts[self.place];
        let on = &self.laid.beam.stretches[part.longest];
        let lengths = ["part-length", "length"].map(|noun| on.path(noun));
        let told = lengths.iter().find_map(|path| Some((path, rows.value::<Length>(path)?)));
        let half = match told {
            Some((path, length)) => ring::half_piece(length, part.division.pieces).from("length", path.as_str()),
            None => ring::half_piece(Length::m(part.middle.length()), part.division.pieces).without("length"),
        };
        let title = format!("{}: half of the way from joint to joint of a layer", self.on);
        rows.add(self.row("half-piece"), title, half.from("pieces", on.path("pieces")))
    }

    fn handed(&self, noun: &str, words: &str, force: Answer<Force>, used: &Used, rows: &mut Rows) -> Force {
        rows.add(self.row(noun), self.title(&format!("{words} that the bolts of a scarf hand over"), used), force)
    }
}
