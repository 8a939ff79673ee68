//! Rows of niches and shelves.

use super::super::need::Need;
use super::bend::{Bend, batter, with, with_level, with_thickness};
use super::{face, said};
use crate::curve::{Cut, Form, Shape, Side};
use crate::house::built_in::{Niche, Shelf};
use crate::house::{BuiltIn, House};
use crate::known::Known;
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::{Length, Volume};
use crate::wall;

/// A cut into one face with the values that shape it: a niche, or the bedded edge of a shelf.
pub(super) struct Into<'a> {
    pub(super) house: &'a House,
    pub(super) shape: &'a Shape<'a>,
    pub(super) cut: &'a Cut,
    pub(super) side: Side,
    pub(super) width: &'a Known<Length>,
    pub(super) depth: &'a Known<Length>,
    pub(super) height: Option<(&'static str, &'a Known<Length>)>,
    pub(super) rise: Option<&'a Known<Length>>,
    pub(super) level: (&'static str, &'a Known<Length>),
    pub(super) bend: Bend<'a>,
}

impl<'a> Into<'a> {
    pub(super) fn of_niche(house: &'a House, shape: &'a Shape<'a>, niche: &'a Niche) -> Into<'a> {
        Into {
            house,
            shape,
            cut: &niche.cut,
            side: niche.side,
            width: &niche.width,
            depth: &niche.depth,
            height: niche.height.as_ref().map(|height| ("height", height)),
            rise: niche.rise.as_ref(),
            level: ("sill", &niche.sill),
            bend: Bend::of_cut(house, &[shape], &niche.cut, &[niche.side], vec![&niche.spot.along.path]),
        }
    }

    pub(super) fn of_shelf(house: &'a House, shape: &'a Shape<'a>, shelf: &'a Shelf) -> Into<'a> {
        Into {
            house,
            shape,
            cut: &shelf.cut,
            side: shelf.side,
            width: &shelf.length,
            depth: &shelf.bedded,
            height: Some(("thickness", &shelf.thickness)),
            rise: None,
            level: ("level", &shelf.level),
            bend: Bend::of_cut(house, &[shape], &shelf.cut, &[shelf.side], vec![&shelf.spot.along.path]),
        }
    }

    fn sized<T>(&self, mut answer: Answer<T>) -> Answer<T> {
        answer = answer.from("width", self.width.path.as_str()).from("depth", self.depth.path.as_str());
        if let Some((name, height)) = self.height {
            answer = with(answer, name, height);
        }
        match self.rise {
            Some(rise) => with(answer, "rise", rise),
            None => answer,
        }
    }

    /// On a curve, thickness, lean and level say how tightly the face bends.
    fn bent<T>(&self, answer: Answer<T>, rows: &Rows) -> Answer<T> {
        if self.bend.is_straight() {
            return answer;
        }
        let (name, level) = self.level;
        let answer = with_level(with_thickness(answer, self.house), self.house, self.side, name, level);
        self.bend.bind(answer, rows)
    }

    /// A form as high above its middle as below it takes out the same, lean or no lean.
    fn leaning<T>(&self, answer: Answer<T>) -> Answer<T> {
        let is_even = !matches!(self.cut.form, Form::Arched { .. });
        if is_even && self.bend.is_straight() { answer } else { with(answer, "batter", batter(self.house, self.side)) }
    }

    /// What it takes out of the whole wall.
    pub(super) fn removed(&self, rows: &Rows) -> Answer<Volume> {
        let [bottom, top] = [self.cut.form.bottom(), self.cut.form.top()].map(Length::m);
        let answer = wall::niche_removed(self.width.value, self.depth.value, self.cut, self.shape, bottom, top);
        self.bent(self.leaning(self.sized(answer)), rows)
    }

    /// What it takes out between two levels, where a lift ends within it: then its middle is not that of the part.
    pub(super) fn removed_between(&self, [from, to]: [f64; 2], rows: &Rows) -> Answer<Volume> {
        let [low, high] = [from, to].map(Length::m);
        let answer = wall::niche_removed(self.width.value, self.depth.value, self.cut, self.shape, low, high);
        let mut answer = answer.from("width", self.width.path.as_str()).from("depth", self.depth.path.as_str());
        if let Some((name, height)) = self.height {
            answer = with(answer, name, height);
        }
        if let Some(rise) = self.rise.filter(|_| to > self.cut.form.spring()) {
            answer = with(answer, "rise", rise);
        }
        let (name, level) = self.level;
        answer = with(with(answer, name, level), "batter", batter(self.house, self.side));
        if self.bend.is_straight() {
            return answer;
        }
        self.bend.bind(with_thickness(answer, self.house), rows)
    }

    fn rows(&self, thing: &BuiltIn, rows: &mut Rows) {
        let name = said(thing);
        let removed = self.removed(rows);
        rows.add(thing.path("removed-volume"), format!("cob that {name} takes out"), removed);
        let (noun, word) = face(self.side);
        let batter = batter(self.house, self.side);
        let area = wall::niche_face(self.width.value, batter.value, self.cut, self.shape, self.side)
            .from("batter", batter.path.as_str());
        let area = self.bend.bind_face(self.bent(self.sized(area), rows), rows);
        rows.add(thing.path(noun), format!("{word} face that {name} takes out"), area);
    }
}

pub(super) fn niche(house: &House, thing: &BuiltIn, niche: &Niche, rows: &mut Rows) {
    let name = said(thing);
    rows.known(format!("middle of {name} along its run"), &niche.spot.along);
    rows.known(format!("level of the bottom of {name}"), &niche.sill);
    rows.known(format!("width of {name}"), &niche.width);
    for (word, known) in [("height", &niche.height), ("rise of the arch", &niche.rise)] {
        if let Some(known) = known {
            rows.known(format!("{word} of {name}"), known);
        }
    }
    rows.known(format!("depth of {name}"), &niche.depth);
    let shape = house.wall.shape();
    let into = Into::of_niche(house, &shape, niche);
    into.rows(thing, rows);
    let inside = wall::niche_inside(niche.width.value, niche.depth.value, &niche.cut, &shape);
    let inside = into.bent(into.leaning(into.sized(inside)), rows);
    rows.add(thing.path("inside-area"), format!("surface inside {name}"), inside);
}

pub(super) fn shelf(house: &House, thing: &BuiltIn, shelf: &Shelf, rows: &mut Rows) -> Need {
    let name = said(thing);
    rows.known(format!("middle of {name} along its run"), &shelf.spot.along);
    rows.known(format!("level of the top of {name}"), &shelf.level);
    let length = rows.known(format!("length of {name}"), &shelf.length);
    let depth = rows.known(format!("depth of {name} before the wall"), &shelf.depth);
    let board = rows.known(format!("thickness of the board of {name}"), &shelf.thickness);
    let bedded = rows.known(format!("depth to which {name} is let into the wall"), &shelf.bedded);
    let shape = house.wall.shape();
    Into::of_shelf(house, &shape, shelf).rows(thing, rows);
    let area = wall::board_area(length, depth, bedded)
        .from("length", thing.path("length"))
        .from("depth", thing.path("depth"))
        .from("bedded", shelf.bedded.path.as_str());
    let area = rows.add(thing.path("board-area"), format!("board of {name}"), area);
    let volume = wall::board_volume(area, board)
        .from("area", thing.path("board-area"))
        .from("thickness", thing.path("thickness"));
    rows.add(thing.path("board-volume"), format!("board of {name}, by volume"), volume);
    Need::of(&shelf.of, [thing.path("board-area"), thing.path("board-volume")])
}
