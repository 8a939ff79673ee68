//! Rows of the pieces of a bond beam: how many, what each is cut to and out of, and all of them together.

use crate::house::built_in::{BeamPart, Stretch};
use crate::house::{BondBeam, House};
use crate::quantities::line::bind;
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::Length;
use crate::wall::{self, Made, Middle};

pub(super) fn walk(house: &House, beam: &BondBeam, lengths: &[Length], rows: &mut Rows) {
    let cuts: Vec<Cut<'_>> = beam.parts.iter().map(|part| one(beam, part, lengths, rows)).collect();
    sums(house, beam, &cuts, rows);
}

/// The pieces of one part of the beam.
struct Cut<'a> {
    /// The stretch that the part is called after.
    on: &'a Stretch,
    pieces: u64,
    length: Length,
    plank: Option<Length>,
}

fn one<'a>(beam: &'a BondBeam, part: &BeamPart, lengths: &[Length], rows: &mut Rows) -> Cut<'a> {
    let on = &beam.stretches[part.longest];
    let words: Vec<String> = part.over.iter().map(|&place| beam.stretches[place].words()).collect();
    let name = format!("over {}", words.join(" with "));
    let (length, noun) = match part.over[..] {
        [only] if part.is_whole() => (lengths[only], "length"),
        _ => {
            let path = on.path("part-length");
            let length = part_length(beam, part, lengths);
            (rows.add(path, format!("length of the bond beam {name}"), length), "part-length")
        }
    };
    let ask = Asked { beam, part, on, name, length, noun };
    ask.pieces(rows)
}

/// Length of a part that is not one whole stretch.
fn part_length(beam: &BondBeam, part: &BeamPart, lengths: &[Length]) -> Answer<Length> {
    let length = Length::m(part.middle.length());
    if part.is_lengthened() {
        return wall::lengthened(beam.scarf.value, beam.layers.value, length)
            .from("scarf", beam.scarf.path.as_str())
            .from("layers", beam.layers.path.as_str());
    }
    let gives_to = beam.parts.iter().filter(|other| {
        let touched = other.touched(beam.stretches.len());
        other.is_lengthened() && part.over.iter().any(|place| touched.contains(place))
    });
    let over: Vec<usize> = part.over.iter().copied().chain(gives_to.flat_map(|other| other.over.clone())).collect();
    let inputs = over.iter().map(|&place| {
        let one = &beam.stretches[place];
        (one.words(), one.path("length"), lengths[place])
    });
    let answer = wall::part_length(length).of_parts(inputs.collect());
    if part.is_whole() {
        return answer;
    }
    let answer = answer.with("length of a scarf", beam.scarf.value, beam.scarf.path.as_str());
    answer.with("layers", beam.layers.value, beam.layers.path.as_str())
}

/// A part with what its rows have in common.
struct Asked<'a, 'b> {
    beam: &'a BondBeam,
    part: &'b BeamPart,
    on: &'a Stretch,
    name: String,
    length: Length,
    noun: &'static str,
}

impl<'a> Asked<'a, '_> {
    fn pieces(&self, rows: &mut Rows) -> Cut<'a> {
        let (timber, beam, length) = (self.beam.timber(), self.beam, self.length);
        let (wall::Timber { width, piece, scarf, fit, layers }, pieces) = (timber, self.part.division.pieces);
        let middle = match self.part.measured(&beam.stretches) {
            Middle::Arc { radius, .. } => {
                Middle::Arc { length, radius: rows.value(&self.on.path("radius")).unwrap_or(radius) }
            }
            other => other,
        };
        let count = match middle {
            Middle::Straight(_) => wall::straight_pieces(length, piece, scarf),
            Middle::Arc { radius, .. } => wall::curved_pieces(length, radius, width, piece, scarf, fit, layers, pieces),
            Middle::Measured(_) => wall::measured_pieces(length, width, piece, scarf, fit, layers, pieces),
        };
        let count = self
            .bound(count, rows)
            .from("piece", beam.piece.path.as_str())
            .from("fit", beam.fit.path.as_str())
            .from("layers", beam.layers.path.as_str());
        let title = format!("pieces of the bond beam {}, each layer", self.name);
        let pieces = rows.add(self.on.path("pieces"), title, count);
        let (cut, title) = match (middle, self.part.division.made) {
            (Middle::Straight(_), _) => (wall::straight_cut(length, pieces, scarf), "a piece"),
            (Middle::Arc { radius, .. }, Made::Straight) => {
                (wall::curved_cut(length, radius, pieces, width, scarf), "a piece")
            }
            (Middle::Arc { radius, .. }, Made::Sawn) => {
                (wall::sawn_cut(length, radius, pieces, width, scarf), "the plank of a sawn piece")
            }
            (Middle::Measured(chain), Made::Straight) => {
                (wall::measured_cut(length, pieces, width, scarf, chain), "the longest piece")
            }
            (Middle::Measured(chain), Made::Sawn) => {
                (wall::measured_sawn_cut(length, pieces, width, scarf, chain), "the plank of the longest sawn piece")
            }
        };
        let title = format!("{title} of the bond beam {} is cut to", self.name);
        let length = rows.add(self.on.path("cut-length"), title, self.bound(cut, rows));
        let plank = self.bent(middle, pieces, rows);
        Cut { on: self.on, pieces, length, plank }
    }

    /// Bevel, height and plank of pieces over a curve; none over a straight.
    fn bent(&self, middle: Middle<'_>, pieces: u64, rows: &mut Rows) -> Option<Length> {
        let (width, length) = (self.beam.width.value, self.length);
        let (bevel, sagitta) = match middle {
            Middle::Straight(_) => return None,
            Middle::Arc { radius, .. } => {
                let turn = rows.value(&self.on.path("turn"))?;
                (wall::bevel(turn, pieces), wall::sagitta(length, radius, pieces))
            }
            Middle::Measured(chain) => {
                (wall::measured_bevel(length, pieces, chain), wall::measured_sagitta(length, pieces, chain))
            }
        };
        let name = &self.name;
        let title = format!("bevel at the ends of the pieces {name}, from square");
        rows.add(self.on.path("bevel"), title, self.bound(bevel, rows));
        let title = match self.part.division.made {
            Made::Straight => format!("how far straight pieces leave the curve {name}"),
            Made::Sawn => format!("height of the curve that the pieces {name} are sawn to, over their chord"),
        };
        let sagitta = rows.add(self.on.path("sagitta"), title, self.bound(sagitta, rows));
        let plank = match middle {
            Middle::Arc { radius, .. } => wall::plank_width(width, length, radius, pieces),
            _ => wall::measured_plank(width, sagitta).from("sagitta", self.on.path("sagitta")),
        };
        let title = format!("plank for pieces sawn to the curve {name}");
        Some(rows.add(self.on.path("plank"), title, self.bound(plank, rows)))
    }

    /// Binds what most formulas of a part read, and of a measured one what makes its shape.
    fn bound<T>(&self, answer: Answer<T>, rows: &Rows) -> Answer<T> {
        let mut answer = answer
            .from("length", self.on.path(self.noun))
            .from("radius", self.on.path("radius"))
            .from("turn", self.on.path("turn"))
            .from("pieces", self.on.path("pieces"))
            .from("width", self.beam.width.path.as_str())
            .from("scarf", self.beam.scarf.path.as_str());
        let is_measured = matches!(self.part.measured(&self.beam.stretches), Middle::Measured(_));
        let touched = self.part.touched(self.beam.stretches.len());
        let shape = touched
            .iter()
            .filter(|_| is_measured)
            .flat_map(|&place| ["length", "radius", "turn"].map(|noun| self.beam.stretches[place].path(noun)));
        for path in shape {
            if !answer.reason.inputs.iter().any(|input| input.path == path) {
                answer = bind(answer, rows, &path);
            }
        }
        answer
    }
}

fn sums(house: &House, beam: &BondBeam, cuts: &[Cut<'_>], rows: &mut Rows) {
    let layers = beam.layers.value;
    let sum = cuts.iter().map(|cut| cut.pieces).sum();
    let mut pieces = wall::all_pieces(layers, sum, house.wall.line.is_closed());
    let sum: f64 = cuts.iter().map(|cut| cut.pieces as f64 * cut.length.in_m()).sum();
    let mut cut_length = wall::all_cut(layers, Length::m(sum));
    let planks =
        cuts.iter().map(|cut| cut.pieces as f64 * cut.length.in_m() * cut.plank.unwrap_or(beam.width.value).in_m());
    let mut timber = wall::beam_timber(beam.height.value, planks.sum()).from("height", beam.height.path.as_str());
    for cut in cuts {
        pieces = bind(pieces, rows, &cut.on.path("pieces"));
        for noun in ["pieces", "cut-length"] {
            cut_length = bind(cut_length, rows, &cut.on.path(noun));
            timber = bind(timber, rows, &cut.on.path(noun));
        }
        timber = bind(timber, rows, &cut.on.path("plank"));
    }
    if cuts.iter().any(|cut| cut.plank.is_none()) {
        timber = timber.with("width", beam.width.value, beam.width.path.as_str());
    }
    let layers_path = beam.layers.path.as_str();
    let pieces = pieces.from("layers", layers_path);
    let pieces = rows.add("wall.bond-beam.pieces", "pieces of the bond beam, all layers", pieces);
    let cut_length = cut_length.from("layers", layers_path);
    rows.add("wall.bond-beam.cut-length", "length of all pieces of the bond beam, scarfs with them", cut_length);
    if let Some(cut) = cuts.iter().max_by(|a, b| a.length.in_m().total_cmp(&b.length.in_m())) {
        let longest = bind(wall::longest_cut(cut.length), rows, &cut.on.path("cut-length"));
        rows.add("wall.bond-beam.longest", "longest piece of the bond beam", longest);
    }
    rows.add("wall.bond-beam.timber", "timber to cut the bond beam from, laps and curves with it", timber);
    let scarfs = wall::beam_scarfs(pieces, layers, house.wall.line.is_closed())
        .from("pieces", "wall.bond-beam.pieces")
        .from("layers", layers_path);
    let scarfs = rows.add("wall.bond-beam.scarfs", "scarfs of the bond beam", scarfs);
    let bolts = wall::beam_bolts(scarfs, beam.bolts.value)
        .from("scarfs", "wall.bond-beam.scarfs")
        .from("each", beam.bolts.path.as_str());
    rows.add("wall.bond-beam.bolts-in-all", "bolts through the scarfs of the bond beam", bolts);
}
