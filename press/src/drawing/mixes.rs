//! Tried mixes of three ingredients in a triangle, of two along a line: how much of all wishes is met, and the chosen recipe.

use engine::pictures::{MixPicture, StepRecipe};

use super::Scaled;
use super::area::Area;
use super::bricks::{LETTERS, WIDEST, step, written};
use super::labels::{Label, Obstacle};
use super::lettered::Lettered;
use crate::lettering;
use crate::mixes::title;
use crate::paper::{CLAY, INK, LIME, Paper, SLATE, weight};
use crate::spoken::spoken;
use crate::svg::Element;

/// Left, right, above and below the room of a picture, in millimetres.
const ROUND: [f64; 4] = [14.0, 14.0, 7.0, 11.0];
/// Height of an equilateral triangle for its side.
const TALL: f64 = 0.866_025_403_784_438_6;
/// Height of the room of a line for its width.
const FLAT: f64 = 0.5;
/// Radius of a tried mix, in millimetres.
const MARK: f64 = 1.1;
/// Dashes of the wishes, in the order in which they are written.
const DASHES: [&str; 4] = ["2 1.2", "0.5 1", "3 1 0.6 1", "4 1"];

/// The mixes that were tried for a recipe.
#[must_use]
pub fn mixes(picture: &MixPicture, paper: Paper) -> Scaled {
    let [widest, highest] = paper.drawing_mm();
    let is_triangle = picture.ingredients.len() == 3;
    let flat = if is_triangle { TALL } else { FLAT };
    let across = (widest.min(WIDEST) - ROUND[0] - ROUND[1]).min((highest - ROUND[2] - ROUND[3]).max(50.0) / flat);
    let [width, tall] = [across + ROUND[0] + ROUND[1], flat * across];
    let size = [width, ROUND[2] + tall + ROUND[3]];
    let room = Area { left: ROUND[0], top: ROUND[2], right: width - ROUND[1], bottom: ROUND[2] + tall };
    let sheet = Lettered::new(size, LETTERS, &title(&picture.name));
    let mut drawn = Drawn { picture, room, sheet, obstacles: Vec::new(), labels: Vec::new() };
    if is_triangle {
        drawn.triangle();
        drawn.sheet.placed(Area::round(&[[0.0, 0.0], size]), &drawn.obstacles, &drawn.labels)
    } else {
        drawn.line();
        drawn.sheet.placed(room, &drawn.obstacles, &drawn.labels)
    }
}

struct Drawn<'a> {
    picture: &'a MixPicture,
    room: Area,
    sheet: Lettered,
    obstacles: Vec<Obstacle>,
    labels: Vec<Label>,
}

impl Drawn<'_> {
    fn path(&self, noun: &str) -> String {
        format!("tests.mixes.{}.{noun}", self.picture.name)
    }

    fn label(&mut self, at: [f64; 2], words: &str, path: String) {
        self.labels.push(Label { path, ..Label::beside(at, LETTERS, words) });
    }

    fn stroke(&mut self, points: &[[f64; 2]], (wide, dashes): (f64, &'static str), path: &str) {
        let line = Element::polyline(points).with("fill", "none").with("stroke", INK).with("stroke-width", wide);
        let line = if path.is_empty() { line } else { line.data_path(path) };
        self.sheet.push(if dashes.is_empty() { line } else { line.with("stroke-dasharray", dashes) });
    }

    /// A place in the triangle: the first ingredient at the top, the second on the left, the third on the right.
    fn corner(&self, shares: &[f64]) -> [f64; 2] {
        let side = self.room.width();
        let [first, third] = [shares[0], shares[2]];
        [self.room.left + side * (third + 0.5 * first), self.room.bottom - side * TALL * first]
    }

    fn triangle(&mut self) {
        let net: Vec<f64> = (1..5).map(|fifth| 0.2 * f64::from(fifth)).collect();
        for share in &net {
            let rest = 1.0 - share;
            for ends in [
                [[*share, rest, 0.0], [*share, 0.0, rest]],
                [[0.0, *share, rest], [rest, *share, 0.0]],
                [[rest, 0.0, *share], [0.0, rest, *share]],
            ] {
                let ends = ends.map(|end| self.corner(&end));
                let line = Element::line(ends[0], ends[1]).with("stroke", SLATE).with("stroke-width", 0.08);
                self.sheet.push(line);
            }
            self.side_words(*share);
        }
        let corners = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]].map(|corner| self.corner(&corner));
        self.stroke(&[corners[0], corners[1], corners[2], corners[0]], (weight::SEEN, ""), "");
        self.corner_words(corners);
        for contour in self.picture.contours.clone() {
            let wide = weight::THIN + (weight::CUT - weight::THIN) * contour.meets;
            let path = self.path("overall");
            let pieces = contour.lines.iter().map(|ends| {
                let [from, to] = ends.each_ref().map(|end| self.corner(end));
                Element::line(from, to)
            });
            let pieces = Element::group(pieces.collect()).with("stroke", INK).with("stroke-width", wide);
            self.sheet.push(pieces.data_path(&path));
            if let Some([from, _]) = contour.lines.get(contour.lines.len() / 2) {
                let at = self.corner(from);
                self.label(at, &percent(contour.meets), path);
            }
        }
        for recipe in self.picture.recipes.clone() {
            let at = self.corner(&recipe.shares);
            self.recipe(at, &recipe);
        }
        for tried in self.picture.tried.clone() {
            let at = self.corner(&tried.shares);
            self.tried(at, &tried.names);
        }
        let best = &self.picture.recipes[self.picture.best];
        let at = self.corner(&best.shares);
        self.best(at);
    }

    /// The share of each ingredient where a line of the net meets its side.
    fn side_words(&mut self, share: f64) {
        let words = percent(share);
        let wide = lettering::width(&words, LETTERS);
        let rest = 1.0 - share;
        let [x, y] = self.corner(&[share, rest, 0.0]);
        self.beside([x, y], [x - 0.5 * wide - 1.5, y], &words);
        let [x, y] = self.corner(&[0.0, share, rest]);
        self.beside([x, y], [x, y + 3.0], &words);
        let [x, y] = self.corner(&[rest, 0.0, share]);
        self.beside([x, y], [x + 0.5 * wide + 1.5, y], &words);
    }

    /// Words of a point whose middle stands best at another.
    fn beside(&mut self, at: [f64; 2], middle: [f64; 2], words: &str) {
        self.labels.push(Label { preferred: vec![middle], ..Label::beside(at, LETTERS, words) });
    }

    fn corner_words(&mut self, corners: [[f64; 2]; 3]) {
        let names: Vec<String> = self.picture.ingredients.iter().map(|name| format!("all {}", spoken(name))).collect();
        let widths: Vec<f64> = names.iter().map(|name| lettering::width(name, LETTERS)).collect();
        let [top, left, right] = corners;
        self.beside(top, [top[0], top[1] - 3.5], &names[0]);
        self.beside(left, [left[0] - ROUND[0] + 1.0 + 0.5 * widths[1], left[1] + 7.5], &names[1]);
        self.beside(right, [right[0] + ROUND[1] - 1.0 - 0.5 * widths[2], right[1] + 7.5], &names[2]);
    }

    /// Two ingredients: the share of the first across, how much is met upwards.
    fn line(&mut self) {
        let ends = self.picture.curves.first().and_then(|curve| Some([curve.first()?[0], curve.last()?[0]]));
        let Some([low, high]) = ends else { return };
        let room = self.room;
        let at = |[share, met]: [f64; 2]| {
            [room.left + (share - low) / (high - low) * room.width(), room.bottom - met * room.height()]
        };
        self.axes([low, high], &at);
        for (place, curve) in self.picture.curves.clone().iter().enumerate() {
            let points: Vec<[f64; 2]> = curve.iter().map(|point| at(*point)).collect();
            let wish = place.checked_sub(1).and_then(|place| self.picture.wishes.get(place).cloned());
            let (path, words) = match &wish {
                Some(wish) => (self.path(&format!("best.{wish}.expected")), spoken(wish)),
                None => (self.path("overall"), "all wishes".to_owned()),
            };
            let dashes = place.checked_sub(1).map_or("", |place| DASHES[place % DASHES.len()]);
            let wide = if wish.is_none() { weight::CUT } else { weight::SEEN };
            self.stroke(&points, (wide, dashes), &path);
            self.obstacles.extend(points.windows(2).map(|pair| Obstacle::Segment(pair[0], pair[1], 2.0)));
            let named = points.len() * (2 * place + 1) / (2 * self.picture.curves.len());
            if let Some(point) = points.get(named) {
                self.label(*point, &words, path);
            }
        }
        for recipe in self.picture.recipes.clone() {
            self.recipe(at([recipe.shares[0], recipe.meets]), &recipe);
        }
        for tried in self.picture.tried.clone() {
            self.tried(at([tried.shares[0], 0.0]), &tried.names);
        }
        let best = &self.picture.recipes[self.picture.best];
        self.best(at([best.shares[0], best.meets]));
    }

    fn axes(&mut self, [low, high]: [f64; 2], at: &dyn Fn([f64; 2]) -> [f64; 2]) {
        let Area { left, top, right, bottom } = self.room;
        self.stroke(&[[left, top], [left, bottom], [right, bottom]], (weight::THIN, ""), "");
        for fifth in 0..=5 {
            let met = 0.2 * f64::from(fifth);
            let [x, y] = at([low, met]);
            self.stroke(&[[x - 1.0, y], [x, y]], (weight::THIN, ""), "");
            let words = percent(met);
            self.sheet.words([x - 1.6 - lettering::width(&words, LETTERS), y + 0.9], &words, "");
        }
        self.sheet.words([left + 1.0, top - 2.0], "met of what is wanted", "");
        let by = step(100.0 * (high - low), self.room.width());
        let first = (100.0 * low / by).ceil();
        let count = ((100.0 * high / by).floor() - first).max(0.0) as u32;
        for place in 0..=count {
            let number = (first + f64::from(place)) * by;
            let [x, y] = at([number / 100.0, 0.0]);
            self.stroke(&[[x, y], [x, y + 1.0]], (weight::THIN, ""), "");
            let words = written(number, by);
            self.sheet.words([x - 0.5 * lettering::width(&words, LETTERS), bottom + 4.2], &words, "");
        }
        let words = format!("{}, % of the buckets", spoken(&self.picture.ingredients[0]));
        self.sheet.words([right - lettering::width(&words, LETTERS), bottom + 8.5], &words, "");
    }

    /// A recipe of whole steps: a ring, larger where it is nearly as good as the chosen one.
    fn recipe(&mut self, at: [f64; 2], recipe: &StepRecipe) {
        let radius = if recipe.is_nearly { MARK } else { 0.45 * MARK };
        let ring = Element::circle(at, radius).with("fill", LIME).with("stroke", INK);
        self.sheet.push(ring.with("stroke-width", weight::THIN));
    }

    /// A tried mix: a disc, with a ring round it where it was repeated.
    fn tried(&mut self, at: [f64; 2], names: &[String]) {
        let path = names.first().map(|name| self.path(&format!("tried.{name}.share.{}", self.picture.ingredients[0])));
        let path = path.unwrap_or_default();
        self.sheet.push(Element::circle(at, 0.8 * MARK).with("fill", INK).data_path(&path));
        if names.len() > 1 {
            let ring = Element::circle(at, 1.5 * MARK).with("fill", "none").with("stroke", INK);
            self.sheet.push(ring.with("stroke-width", weight::THIN));
        }
        self.obstacles.push(Obstacle::Area(Area::about(at, 3.6, 3.6), 5.0));
        let words = names.iter().map(|name| spoken(name)).collect::<Vec<_>>().join(", ");
        self.label(at, &words, path);
    }

    /// The chosen recipe: a bucket, and what it is called.
    fn best(&mut self, [x, y]: [f64; 2]) {
        let bucket = [[x - 1.9, y - 1.8], [x + 1.9, y - 1.8], [x + 1.3, y + 1.8], [x - 1.3, y + 1.8]];
        let path = self.path("overall");
        let filled = Element::polygon(&bucket).with("fill", CLAY).with("stroke", INK);
        self.sheet.push(filled.with("stroke-width", weight::SEEN).data_path(&path));
        self.obstacles.push(Obstacle::Area(Area::about([x, y], 4.6, 4.4), 5.0));
        let best = &self.picture.recipes[self.picture.best];
        let parts = self.picture.ingredients.iter().zip(&best.buckets);
        let parts = parts.map(|(name, buckets)| format!("{} {}", (buckets * 100.0).round() / 100.0, spoken(name)));
        let words = format!("chosen: {}", parts.collect::<Vec<_>>().join(" : "));
        self.label([x, y], &words, path);
    }
}

fn percent(share: f64) -> String {
    format!("{:.0} %", 100.0 * share)
}
