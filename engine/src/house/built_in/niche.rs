//! Places niches and shelves: cuts into one face that do not go through.

use super::Spot;
use super::cover::{cover, reach};
use super::site::{Site, side};
use crate::build::{self, NicheForm, Written};
use crate::curve::{Cut, Depth, Form, Side};
use crate::house::place::known;
use crate::known::{Known, Origin};
use crate::units::Length;

/// The least cob behind a niche or the bedded edge of a shelf: our judgement.
pub(super) const COB_BEHIND: Length = Length::mm(100.0);

/// A hollow in one face.
#[derive(Clone, Debug)]
pub struct Niche {
    /// Where its middle is.
    pub spot: Spot,
    /// The face.
    pub side: Side,
    /// The word for its form.
    pub form: NicheForm,
    /// Level of its bottom.
    pub sill: Known<Length>,
    /// Width; the diameter of a round one.
    pub width: Known<Length>,
    /// Height, unless it is round.
    pub height: Option<Known<Length>>,
    /// Rise of its arch, when it has one.
    pub rise: Option<Known<Length>>,
    /// Depth behind the face at its middle.
    pub depth: Known<Length>,
    /// What it cuts.
    pub cut: Cut,
}

/// A board let into one face.
#[derive(Clone, Debug)]
pub struct Shelf {
    /// Where its middle is.
    pub spot: Spot,
    /// The face.
    pub side: Side,
    /// Level of its top.
    pub level: Known<Length>,
    /// Length along the wall.
    pub length: Known<Length>,
    /// How far it stands out of the face at its middle.
    pub depth: Known<Length>,
    /// Thickness of the board.
    pub thickness: Known<Length>,
    /// How deep its back edge is let in behind the face at its middle.
    pub bedded: Known<Length>,
    /// What is bought.
    pub of: String,
    /// What its bedded edge cuts.
    pub cut: Cut,
}

/// What is said of a cut into one face: a word for it, and where its width and depth are written.
struct Said<'a> {
    name: &'a Written<String>,
    what: &'static str,
    width: Option<&'a Written<Length>>,
    depth: Option<&'a Written<Length>>,
}

pub(super) fn niche(site: &Site<'_>, written: &build::BuiltIn) -> Option<Niche> {
    let keys = &written.keys;
    let width = site.size(keys.width.as_ref(), "the width of a niche");
    let height = site.size(keys.height.as_ref(), "the height of a niche");
    let depth = site.size(keys.depth.as_ref(), "the depth of a niche");
    let spot = site.spot(&keys.spot);
    let form_word = keys.form.as_ref()?.value;
    let (spot, width, depth, sill) = (spot?, width?, depth?, known(keys.sill.as_ref())?);
    let rise = match form_word {
        NicheForm::Arched => Some(rise(site, written, &width, height.as_ref()?)?),
        NicheForm::Rectangle | NicheForm::Round => None,
    };
    let (half, bottom) = (0.5 * width.value.in_m(), sill.value.in_m());
    let form = match (form_word, &height, &rise) {
        (NicheForm::Round, ..) => Form::Round { radius: half, middle: bottom + half },
        (NicheForm::Arched, Some(height), Some(rise)) => {
            let top = bottom + height.value.in_m();
            Form::Arched { half, bottom, spring: top - rise.value.in_m(), top }
        }
        (_, Some(height), _) => Form::Rectangle { half, bottom, top: bottom + height.value.in_m() },
        _ => return None,
    };
    let side = side(keys.side.as_ref(), Side::Inner);
    let cut = site.cut_into(spot.station, side, form, depth.value);
    let top = keys.height.as_ref().or(keys.width.as_ref());
    let said = Said { name: &written.name, what: "niche", width: keys.width.as_ref(), depth: keys.depth.as_ref() };
    let stands =
        site.is_in_the_cob(&cut, [keys.sill.as_ref(), top], &written.name) && has_cob_round_it(site, &cut, &said);
    let height = if form_word == NicheForm::Round { None } else { height };
    stands.then_some(Niche { spot, side, form: form_word, sill, width, height, rise, depth, cut })
}

/// The rise of an arch: as written, else a half circle's.
fn rise(
    site: &Site<'_>,
    written: &build::BuiltIn,
    width: &Known<Length>,
    height: &Known<Length>,
) -> Option<Known<Length>> {
    let keys = &written.keys;
    let rise = match &keys.rise {
        Some(_) => site.size(keys.rise.as_ref(), "the rise of an arch")?,
        None => {
            let path = format!("built-in.{}.rise", written.name.value);
            Known::assumed(width.value * 0.5, path, Origin::CommonPractice, "the arch is a half circle")
                .following(width.path.as_str())
        }
    };
    let at = keys.rise.as_ref().or(keys.height.as_ref());
    if rise.value > width.value * 0.5 {
        let message = format!(
            "the arch would rise by {}, more than half its width, {}",
            site.shown(rise.value),
            site.shown(width.value * 0.5)
        );
        site.refuse(at, &written.name, message, "write a rise of half the width or less");
        return None;
    }
    if rise.value > height.value {
        let message = format!(
            "the arch would rise by {}, more than the whole niche is high, {}",
            site.shown(rise.value),
            site.shown(height.value)
        );
        site.refuse(at, &written.name, message, "write a smaller rise, or make the niche higher or narrower");
        return None;
    }
    Some(rise)
}

pub(super) fn shelf(site: &Site<'_>, written: &build::BuiltIn) -> Option<Shelf> {
    let keys = &written.keys;
    let length = site.size(keys.length.as_ref(), "the length of a shelf");
    let depth = site.size(keys.depth.as_ref(), "the depth of a shelf");
    let thickness = site.size(keys.thickness.as_ref(), "the thickness of a shelf");
    let bedded = site.size(keys.bedded.as_ref(), "how deep a shelf is let in");
    let spot = site.spot(&keys.spot);
    let (spot, length, depth, thickness) = (spot?, length?, depth?, thickness?);
    if keys.bedded.is_some() && bedded.is_none() {
        return None;
    }
    let bedded = bedded.unwrap_or_else(|| bedded_as_usual(site, written, &depth));
    let level = known(keys.spot.level.as_ref())?;
    let top = level.value.in_m();
    let form = Form::Rectangle { half: 0.5 * length.value.in_m(), bottom: top - thickness.value.in_m(), top };
    let side = side(keys.side.as_ref(), Side::Inner);
    let cut = site.cut_into(spot.station, side, form, bedded.value);
    let said = Said {
        name: &written.name,
        what: "shelf",
        width: keys.length.as_ref(),
        depth: keys.bedded.as_ref().or(keys.depth.as_ref()),
    };
    let at = keys.spot.level.as_ref();
    let stands = site.is_in_the_cob(&cut, [at, at], &written.name)
        && has_cob_round_it(site, &cut, &said)
        && stands_out(site, written, &cut, depth.value + bedded.value);
    let of = keys.of.as_ref().map_or_else(|| "shelf-board".to_owned(), |of| of.value.clone());
    stands.then_some(Shelf { spot, side, level, length, depth, thickness, bedded, of, cut })
}

/// As deep as it stands out, at most half the thickness of the wall.
fn bedded_as_usual(site: &Site<'_>, written: &build::BuiltIn, depth: &Known<Length>) -> Known<Length> {
    let path = format!("built-in.{}.bedded", written.name.value);
    let half = site.wall.thickness.value * 0.5;
    let why = "let in as deep as it stands out, at most by half the thickness of the wall";
    let known =
        |value, follows: &str| Known::assumed(value, path.as_str(), Origin::CommonPractice, why).following(follows);
    if depth.value < half { known(depth.value, &depth.path) } else { known(half, &site.wall.thickness.path) }
}

/// Refuses a cut that goes through the wall or nearly so, or whose back stands out of its own face.
fn has_cob_round_it(site: &Site<'_>, cut: &Cut, said: &Said<'_>) -> bool {
    let what = said.what;
    let Some(cover) = cover(&site.shape, cut) else {
        let message = format!("the wall turns away from this {what}: a side of it would never meet the face");
        site.refuse(said.width, said.name, message, "make it narrower, or put it where the wall is straighter");
        return false;
    };
    if cover.before <= 0.0 {
        let message = format!(
            "the wall bends so much that a part of the back of this {what} would stand {} out of the face",
            site.shown_m(-cover.before)
        );
        site.refuse(
            said.depth,
            said.name,
            message,
            "make it deeper or narrower, or put it where the wall is straighter",
        );
        return false;
    }
    if cover.behind < COB_BEHIND.in_m() {
        let message = if cover.behind <= 0.0 {
            format!("this {what} would go {} through the other face of the wall", site.shown_m(-cover.behind))
        } else {
            format!("this {what} would leave {} of cob behind it at the thinnest", site.shown_m(cover.behind))
        };
        site.refuse(said.depth, said.name, message, format!("leave {} or more behind it", site.shown(COB_BEHIND)));
        return false;
    }
    true
}

/// Refuses a shelf whose front would be buried where the face bends round its ends.
fn stands_out(site: &Site<'_>, written: &build::BuiltIn, cut: &Cut, board: Length) -> bool {
    let Depth::Into { side, bottom } = cut.depth else { return true };
    let Some([low, high]) = reach(&site.shape, cut, side) else { return false };
    let out = match side {
        Side::Inner => low - (bottom - board.in_m()),
        Side::Outer => bottom + board.in_m() - high,
    };
    if out <= 0.0 {
        let message =
            format!("the wall bends so much that a part of its front would lie {} in the cob", site.shown_m(-out));
        let hint = "make the shelf deeper or shorter, or put it where the wall is straighter";
        site.refuse(written.keys.depth.as_ref(), &written.name, message, hint);
    }
    out > 0.0
}
