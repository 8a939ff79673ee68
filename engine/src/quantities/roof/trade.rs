//! Rows of what a ring of equal poles may be: what loads it, what it uses, and between which eyes it works with more poles or fewer.

use super::super::line::bind;
use super::factors::Factors;
use super::loads::{self, Loaded};
use crate::house::{Code, Held};
use crate::loads::acting::Acting;
use crate::roof::trade::{self, Trade};
use crate::row::Rows;
use crate::timber::tables::factor;
use crate::timber::{asd, eurocode, section};
use crate::units::{Angle, Density, Length, LineLoad, Pressure};

/// What the look at a ring leans on.
const LEANS: [&str; 8] = [
    "roof.trade.load",
    "roof.trade.own",
    "roof.trade.strength",
    "roof.plan-radius",
    "roof.bolt.diameter",
    "poles.diameter",
    "roof.pitch",
    "poles.count",
];

/// Those before this place matter only where bending ends what works.
const BENT: usize = 5;

/// How many poles the rings that are looked at have: beside the ring of the house, those with fewer and with more.
pub(crate) fn counts(count: u64) -> impl Iterator<Item = u64> {
    count.saturating_sub(2).max(3)..=count + 3
}

pub(super) fn walk(held: &Held, loaded: &Loaded, rows: &mut Rows) {
    let factors = Factors::of(held);
    let strength = factors.strength(&loaded.loads, 0);
    let mean = |acting: &Acting| (acting.areas[0] + acting.areas[1]) * 0.5;
    let against = |(acting, lasts): &(&Acting, &f64)| mean(acting).in_pa() / **lasts;
    let all = strength.acting.iter().zip(&strength.durations);
    let Some((acting, duration)) = all.max_by(|one, other| against(one).total_cmp(&against(other))) else { return };
    let title = format!("even load by which a ring is looked at: {}", acting.name());
    let load = trade::trade_load(mean(acting));
    let load = acting.loads().fold(load, |load, one| bind(load, rows, loads::path(one)));
    rows.add("roof.trade.load", title, load);
    bears(held, &factors, *duration, rows);
    let (Some(density), Some(diameter)) =
        (rows.value::<Density>("poles.density"), rows.value::<Length>("poles.diameter"))
    else {
        return;
    };
    let own = trade::pole_weight(density, diameter, acting.weight)
        .from("density", "poles.density")
        .from("diameter", "poles.diameter")
        .without("factor");
    let title = format!("weight of a pole on each metre of it, with its factor: {}", acting.name());
    rows.add("roof.trade.own", title, own);
    used(rows);
    eyes(rows);
}

/// What the wood bears in bending under that load.
fn bears(held: &Held, factors: &Factors, duration: f64, rows: &mut Rows) {
    let bending = held.wood.values.bending.value;
    let strength = match factors.code {
        Code::En => eurocode::design_strength(bending, duration, factors.partial)
            .from("characteristic", "poles.strength.bending")
            .without("modification")
            .without("partial"),
        Code::Asce => asd::adjusted(bending, duration, factors.wet("bending"))
            .from("reference", "poles.strength.bending")
            .without("duration")
            .without("other"),
    };
    let strength = bind(strength, rows, "poles.damp");
    rows.add("roof.trade.strength", "what the poles bear in bending under that load", strength);
}

/// The moment and the share of the strength of a regular ring as it is written.
fn used(rows: &mut Rows) {
    let (Some(eye), Some(count)) = (rows.value::<Length>("roof.eye"), rows.value::<u64>("poles.count")) else { return };
    let Some(pitch) = rows.value::<Angle>("roof.pitch") else { return };
    let look = with(rows, |trade| {
        let moment = trade::regular_moment(trade.load, trade.own, count, trade.plan_radius, eye, pitch);
        let notch = rows.value::<Length>("roof.notch").unwrap_or(Length::ZERO);
        let modulus = (trade.left)(notch * 0.5);
        let used = trade::regular_used(moment.value, modulus, trade.strength);
        (moment, used)
    });
    let Some((moment, used)) = look else { return };
    let moment = moment
        .from("load", "roof.trade.load")
        .from("own", "roof.trade.own")
        .from("count", "poles.count")
        .from("plan radius", "roof.plan-radius")
        .from("eye radius", "roof.eye")
        .from("pitch", "roof.pitch");
    rows.add("roof.trade.moment", "moment at the first crossing of equal poles in a regular ring", moment);
    let used = used.from("moment", "roof.trade.moment").without("modulus").from("strength", "roof.trade.strength");
    let used =
        ["poles.diameter", "roof.notch", "roof.bolt.diameter"].iter().fold(used, |used, path| bind(used, rows, path));
    rows.add("roof.trade.used", "bending strength used by equal poles in a regular ring, a first look", used);
}

/// Between which eyes rings of more poles and of fewer work at this pitch.
fn eyes(rows: &mut Rows) {
    let (Some(count), Some(pitch)) = (rows.value::<u64>("poles.count"), rows.value::<Angle>("roof.pitch")) else {
        return;
    };
    let found = |count: u64| {
        let eyes = with(rows, |trade| trade.eyes(count, pitch))??;
        Some((count, eyes.works?, eyes.bends.is_some()))
    };
    let found: Vec<_> = counts(count).filter_map(found).collect();
    for (count, [least, largest], is_bent) in found {
        let leans = if is_bent { &LEANS[..] } else { &LEANS[BENT..] };
        let least = leans.iter().fold(trade::least_eye(least), |least, path| bind(least, rows, path));
        let path = |noun: &str| format!("roof.trade.{count}.{noun}");
        let title = format!("smallest eye that works with {count} of these poles at this pitch");
        rows.add(path("least-eye"), title, least);
        let diameter = rows.value::<Length>("poles.diameter").unwrap_or(largest);
        let touching = trade::largest_eye(diameter, pitch, count);
        if touching.value > largest {
            continue;
        }
        let largest =
            bind(touching.from("diameter", "poles.diameter").from("pitch", "roof.pitch"), rows, "poles.count");
        let title = format!("largest eye without packing, {count} of these poles at this pitch");
        rows.add(path("largest-eye"), title, largest);
    }
}

/// Looks at the choice of a ring; none where its loads or its poles are not known.
pub(crate) fn with<T>(rows: &Rows, look: impl FnOnce(&Trade<'_>) -> T) -> Option<T> {
    let diameter = rows.value::<Length>("poles.diameter")?;
    let hole = rows.value::<Length>("roof.bolt.diameter").unwrap_or(Length::ZERO);
    let share = factor("notch-depth-share")?.number;
    let left = |seat: Length| section::net_modulus(diameter, seat, hole).value;
    Some(look(&Trade {
        diameter,
        plan_radius: rows.value::<Length>("roof.plan-radius")?,
        load: rows.value::<Pressure>("roof.trade.load")?,
        own: rows.value::<LineLoad>("roof.trade.own")?,
        strength: rows.value::<Pressure>("roof.trade.strength")?,
        deepest: diameter * (2.0 * share),
        left: &left,
    }))
}
